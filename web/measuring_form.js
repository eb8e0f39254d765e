// The measuring form for real blocks: one page to print, with the columns of holes.csv and how to take the photographs.
import {language} from './language.js';
import {tableIn} from './phrases.js';

const WORDS = {
  title: 'Measuring form for real blocks',
  print: 'Print',
  course: 'Course and date:',
  block: 'Blocks (material, size):',
  by: 'Measured by:',
  topHead: 'Photograph from above',
  top: ['Mark the planned centre and the line between the halves before anybody drills.', 'Camera straight above, 30 cm or more away, zoomed in; no flash.', 'The whole block in the picture, sharp at its top edges, soft half to the right.', 'It gives entry and rim diameter, nothing else.'],
  pinHead: 'Pin from the front and the side',
  pin: ['A straight pin that fits the hole closely, as deep as it goes.', 'Camera level with the block, 50 cm or more away.', 'Front: both halves side by side, soft half to the right. Side: from the soft half’s side.', 'An upright edge of the block must be in sight. The pictures give the two leans.'],
  probeHead: 'Depth by probe',
  probe: ['Blow the hole clean. Read from the rim to the floor, three times.', 'Write down when the probe reaches into the drill’s point: 0.6 mm at 2.0, 1.2 mm at 4.0.', 'Write what you read, not what was planned. What was not measured stays empty.'],
  number: 'No.',
  operator: 'Learner (code)',
  approach: 'Technique',
  period: 'Order',
  site: 'Site, block',
  planned: 'Planned depth',
  readings: 'Probe readings',
  pictures: 'Pictures: top, front, side',
  entryMd: 'Entry, + soft half',
  entryBl: 'Entry, + away from you',
  rim: 'Rim diameter',
  depth: 'Depth, + deeper',
  tiltMd: 'Lean, + end to soft half',
  tiltBl: 'Lean, + end away from you',
  techniques: 'Technique: F free-hand, P pilot-guided, S all drills through the sleeve. Signs: with the soft half to your right. The small names are the columns of holes.csv; the Classroom measures the photographs and fills them. Real holes carry the source “bench” and are never mixed with simulated ones unasked.',
  soft: 'soft',
  dense: 'dense',
};
const ROWS = 10;

const svgNode = (tag, attributes, text) => {
  const node = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  if (text) node.textContent = text;
  return node;
};

function node(tag, options = {}, ...children) {
  const made = document.createElement(tag);
  if (options.text) made.textContent = options.text;
  if (options.class) made.className = options.class;
  made.append(...children);
  return made;
}

/** The block from above with both directions. */
function sketch(words) {
  const svg = svgNode('svg', {viewBox: '0 0 200 190', role: 'img', 'aria-label': words.topHead});
  const line = (x1, y1, x2, y2, width = 2) => svgNode('line', {x1, y1, x2, y2, stroke: '#000', 'stroke-width': width});
  const text = (x, y, word, anchor = 'middle') => svgNode('text', {x, y, 'font-size': 15, 'text-anchor': anchor, 'font-family': 'Open Sans, sans-serif'}, word);
  svg.append(svgNode('rect', {x: 20, y: 20, width: 150, height: 150, fill: '#fff', stroke: '#000', 'stroke-width': 2}),
    svgNode('rect', {x: 20, y: 20, width: 75, height: 150, fill: '#d5d9dc'}), line(95, 20, 95, 170),
    svgNode('circle', {cx: 101, cy: 88, r: 14, fill: '#777', stroke: '#000', 'stroke-width': 2}),
    line(89, 95, 101, 95), line(95, 89, 95, 101), line(95, 130, 140, 130, 3), line(140, 130, 132, 125, 3), line(140, 130, 132, 135, 3),
    line(95, 130, 95, 112, 3), text(57, 160, words.dense), text(133, 160, words.soft), text(135, 121, '+ md'), text(84, 122, '+ bl', 'end'));
  return svg;
}

await language.start();
const words = tableIn(language.say, WORDS);
document.title = words.title;
const print = node('button', {text: words.print});
print.type = 'button';
print.addEventListener('click', () => window.print());

const how = (head, items) => node('section', {}, node('h2', {text: head}), node('ol', {}, ...items.map(text => node('li', {text}))));
const breakable = name => name.split(/(?<=_)/).flatMap(part => [part, document.createElement('wbr')]);
const columns = [
  [words.number, '', 'least'], [words.operator, 'operator', 'wide'], [words.approach, 'approach', 'middle'], [words.period, 'period', 'narrow'],
  [words.site, 'site, specimen', 'wide'], [words.planned, 'mm'], [words.readings, 'mm', 'wide'], [words.pictures, '', 'wide'],
  [words.entryMd, 'entry_md_mm'], [words.entryBl, 'entry_bl_mm'], [words.rim, 'rim_diameter_mm'], [words.depth, 'depth_mm'],
  [words.tiltMd, 'tilt_md_deg'], [words.tiltBl, 'tilt_bl_deg'],
];
const head = node('tr', {}, ...columns.map(([name, column, width]) => {
  const cell = node('th', {text: name, class: width}, ...(column ? [node('small', {}, ...breakable(column))] : []));
  cell.scope = 'col';
  return cell;
}));
const rows = Array.from({length: ROWS}, (_, i) => node('tr', {}, ...columns.map((_, at) => node('td', {text: at === 0 ? String(i + 1) : ''}))));
document.getElementById('form').append(
  node('div', {class: 'head'}, node('h1', {text: words.title}), print),
  node('div', {class: 'lines'}, ...[words.course, words.block, words.by].map(text => node('span', {text}))),
  node('div', {class: 'how'}, how(words.topHead, words.top), how(words.pinHead, words.pin), how(words.probeHead, words.probe), sketch(words)),
  node('table', {}, node('thead', {}, head), node('tbody', {}, ...rows)),
  node('p', {class: 'foot', text: words.techniques}));
