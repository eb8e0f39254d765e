// The dialog that measures a real block: photographs from above and of a pin from two sides, a probe, and the rows they give.
import {button, field, list, make, openDialog, paragraph, table, tabs} from './dialog.js';
import {saveFile} from './files.js';
import {measuringCore} from './measuring_core.js';
import {photoView} from './photo_view.js';
import {fill, wordsIn} from './photo_words.js';

const MOST_POINTS = 60;
const ARROW_mm = 2.5;
const FORM_PAGE = 'measuring-form.html';

// What was marked and entered; it stays when the dialog is closed and opened again.
const fresh = () => ({
  pictures: {top: {}, front: {}, side: {}},
  top: {straighten: false, width_mm: 25.4, height_mm: 25.4, known_mm: 0.1, is_ellipse: false},
  front: {positive_is_right: true, play_mm: 0.05, engaged_mm: 10},
  side: {positive_is_right: true, play_mm: 0.05, engaged_mm: 10},
  probe: {readings: '', division_mm: 0.5, tip_mm: 0},
});
let hole = fresh();
const row = {operator: '', approach: '', period: '', cohort: '', site: '', specimen: '', boundary_deg: '', planned_depth_mm: 10};
let rows = [];       // {line, about}
let header = '';
let taken = 0;

const numbersIn = text => text.trim().split(/[\s;]+/).filter(word => word !== '').map(word => Number(word.replace(',', '.')));

function requestOf() {
  const clicks = points => points.map(({x, y, zoom}) => [x, y, zoom]);
  const request = {...row, period: row.period === '' ? null : Number(row.period)};
  if (request.period === null || !Number.isInteger(request.period) || request.period < 1) delete request.period;
  const {top, front, side} = hole.pictures;
  if (top.picture) {
    const {straighten, width_mm, height_mm, known_mm, is_ellipse} = hole.top;
    const {edge, corners, boundary, soft, plan, rim} = top.points;
    // A rectangular half-width becomes a standard uncertainty (GUM 4.3.7).
    request.top = {
      is_straightened: straighten, edge: clicks(edge), corners: clicks(corners), width_mm, height_mm,
      size_sd_mm: known_mm / Math.sqrt(3), boundary: clicks(boundary), soft: clicks(soft), plan: clicks(plan), rim: clicks(rim), is_ellipse,
    };
  }
  for (const [name, kept] of [['front', front], ['side', side]]) {
    if (kept.picture) request[name] = {...hole[name], pin: clicks(kept.points.pin), upright: clicks(kept.points.upright)};
  }
  const readings = numbersIn(hole.probe.readings);
  if (readings.length > 0 && readings.every(Number.isFinite)) {
    request.probe = {readings_mm: readings, division_mm: hole.probe.division_mm, tip_mm: hole.probe.tip_mm};
  }
  return request;
}

const decimals = value => value.toFixed(2);

/** {theme, say, take(name, text)}: `take` gives a table to the class, null where there is none. */
export async function openPhoto({theme, say = text => text, take = null}) {
  const core = await measuringCore();
  const words = wordsIn(say);
  let answer = {problems: []};
  const {dialog, body, foot} = openDialog({title: words.title, close: words.close, theme});
  dialog.classList.add('db-whole');
  const style = getComputedStyle(dialog);
  const colors = {page: style.getPropertyValue('--page').trim(), focus: '#ffd75e'};

  // --- Results in words ---
  const withU = ({value, u95}, unit) => fill(words.withU, decimals(Math.abs(value)), decimals(u95), unit);
  const signed = (one, unit, plus, minus) => `${withU(one, unit)} ${one.value >= 0 ? plus : minus}`;
  const line = (name, text) => make('p', {class: 'db-result'}, make('strong', {text: `${name}: `}), text);
  const PARTS = ['top', 'front', 'side', 'probe'];
  const results = Object.fromEntries(PARTS.map(part => [part, make('div', {class: 'db-card', role: 'status'})]));
  const notes = Object.fromEntries(PARTS.map(part => [part, make('div')]));

  function linesOf(part) {
    const found = answer[part];
    if (!found || found.reason) return [];
    if (part === 'top') {
      return [
        line(words.entry, signed(found.entry_md_mm, 'mm', words.towardSoft, words.towardDense)),
        line(words.entry, signed(found.entry_bl_mm, 'mm', words.away, words.toward)),
        line(words.rimDiameter, withU(found.rim_diameter_mm, 'mm')),
      ];
    }
    if (part === 'front') return [line(words.lean, signed(found.tilt_md_deg, '°', words.endSoft, words.endDense))];
    if (part === 'side') return [line(words.lean, signed(found.tilt_bl_deg, '°', words.endAway, words.endToward))];
    return [line(words.depth, signed(found.depth_mm, 'mm', words.deeper, words.shallower))];
  }

  function showResults() {
    for (const [part, card] of Object.entries(results)) {
      const found = answer[part];
      const lines = linesOf(part);
      card.replaceChildren(make('h3', {text: words.result}), ...lines,
        ...(found?.reason ? [paragraph(fill(words.notYet, say(found.reason)), 'muted')] : []), ...(!found ? [paragraph(words.nothing, 'muted')] : []));
      const about = [];
      if (part === 'top' && lines.length > 0) {
        if (hole.top.is_ellipse) about.push(fill(words.ovalAxes, decimals(found.long_diameter_mm), decimals(found.short_diameter_mm)));
        about.push(fill(words.scatter, decimals(found.residual_mm), found.mm_per_px.toFixed(3)), words.rimIsNot);
      }
      if (lines.length > 0) about.push(words.means);
      notes[part].replaceChildren(...about.map(text => paragraph(text, 'muted')));
    }
    showRow();
  }

  function compute() {
    answer = core.measure(requestOf());
    header = answer.header ?? header;
    showResults();
    for (const view of Object.values(views)) view.redraw();
  }

  // --- Settings beside the steps ---
  const number = (of, key, {min = 0, max = 1000, step = 'any', name = key} = {}) => make('input', {
    type: 'number', name, min, max, step, value: of[key], inputmode: 'decimal', on: {input: event => {
      if (!Number.isFinite(event.target.valueAsNumber)) return;
      of[key] = event.target.valueAsNumber;
      compute();
    }},
  });
  const radios = (name, label, entries, value, set) => make('fieldset', {class: 'db-inline'}, make('legend', {text: label}),
    entries.map(([one, text]) => make('label', {class: 'db-choice'},
      make('input', {type: 'radio', name, value: String(one), checked: one === value, on: {change: () => { set(one); compute(); }}}), make('span', {text}))));

  // --- Over the pictures ---
  function stroke(ctx, path, color, width = 2) {
    ctx.lineWidth = width + 2.5;
    ctx.strokeStyle = '#000';
    ctx.stroke(path);
    ctx.lineWidth = width;
    ctx.strokeStyle = color;
    ctx.stroke(path);
  }
  function polyline(points, closed) {
    const path = new Path2D();
    points.forEach(({x, y}, i) => (i === 0 ? path.moveTo(x, y) : path.lineTo(x, y)));
    if (closed) path.closePath();
    return path;
  }
  const at = ([x, y]) => ({x, y});
  function label(ctx, text, {x, y}) {
    ctx.font = '600 17px "Open Sans", system-ui, sans-serif';
    ctx.lineWidth = 5;
    ctx.strokeStyle = '#000';
    ctx.lineJoin = 'round';
    ctx.strokeText(text, x, y);
    ctx.fillStyle = '#fff';
    ctx.fillText(text, x, y);
  }
  function drawTop(ctx, toScreen) {
    const {points} = hole.pictures.top;
    const across = hole.top.straighten ? points.corners : points.edge;
    if (across.length > 1) stroke(ctx, polyline(across.map(toScreen), across.length === 4), '#6cf0e4', 1.2);
    if (points.boundary.length > 1) stroke(ctx, polyline(points.boundary.map(toScreen), false), '#ffb000', 1.2);
    const found = answer.top;
    if (!found?.outline_px) return;
    const plan = toScreen(at(found.plan_px));
    const centre = toScreen(at(found.centre_px));
    const md = toScreen(at(found.md_px));
    const tip = {x: plan.x + ARROW_mm * (md.x - plan.x), y: plan.y + ARROW_mm * (md.y - plan.y)};
    stroke(ctx, polyline(found.outline_px.map(at).map(toScreen), true), '#ffffff', 2);
    stroke(ctx, polyline([plan, centre], false), '#ff7fd0', 3);
    stroke(ctx, polyline([plan, tip], false), '#ffb000', 2);
    label(ctx, `→ ${words.soft_mark}`, {x: tip.x + 8, y: tip.y - 8});
  }
  const drawPin = part => (ctx, toScreen) => {
    const {points} = hole.pictures[part];
    for (const [key, color] of [['pin', '#ffffff'], ['upright', '#6cf0e4']]) {
      if (points[key].length === 2) stroke(ctx, polyline(points[key].map(toScreen), false), color, 2);
    }
  };

  // --- Tabs ---
  const views = {};
  const view = (part, panel, more) => {
    views[part] = photoView({room: panel, words, say, colors, kept: hole.pictures[part], onChange: () => views[part] && compute(), result: results[part], notes: notes[part], ...more});
    compute();
  };
  function fillTop(panel) {
    const {top} = hole;
    const lengths = make('div', {class: 'db-fields db-narrow'});
    const width = number(top, 'width_mm', {min: 0.1});
    const height = number(top, 'height_mm', {min: 0.1});
    const widthField = field(words.length, width);
    const heightField = field(words.height, height);
    const edgeRoom = make('div');
    const cornersRoom = make('div');
    const show = () => {
      (top.straighten ? cornersRoom : edgeRoom).append(lengths);
      widthField.firstChild.textContent = top.straighten ? words.width : words.length;
      heightField.hidden = !top.straighten;
    };
    const straighten = make('input', {type: 'checkbox', name: 'straighten', checked: top.straighten, on: {change: event => {
      top.straighten = event.target.checked;
      show();
      event.target.focus();
      views.top.refresh();
      compute();
    }}});
    lengths.append(widthField, heightField, field(words.known, number(top, 'known_mm', {max: 10}), words.knownHelp),
      make('label', {class: 'db-choice db-wide'}, straighten, make('span', {text: words.straighten})));
    show();
    const shape = radios('shape', words.shape, [[false, words.circle], [true, words.ellipse]], top.is_ellipse, one => { top.is_ellipse = one; });
    view('top', panel, {
      dropText: words.dropTop, draw: drawTop, hidden: () => [top.straighten ? 'edge' : 'corners'],
      steps: [
        {key: 'edge', most: 2, least: 2, extra: edgeRoom}, {key: 'corners', most: 4, least: 4, extra: cornersRoom},
        {key: 'boundary', most: 2, least: 2}, {key: 'soft', most: 1, least: 1},
        {key: 'plan', most: 5, least: 1, help: words.planHelp}, {key: 'rim', most: MOST_POINTS, least: 5, extra: shape},
      ],
    });
  }
  function fillPin(part) {
    const of = hole[part];
    const direction = part === 'front'
      ? radios('front-right', words.softIs, [[true, words.onTheRight], [false, words.onTheLeft]], of.positive_is_right, one => { of.positive_is_right = one; })
      : radios('side-right', words.lookedFrom, [[true, words.softSide], [false, words.denseSide]], of.positive_is_right, one => { of.positive_is_right = one; });
    return panel => view(part, panel, {
      dropText: part === 'front' ? words.dropFront : words.dropSide, draw: drawPin(part),
      steps: [
        {key: 'pin', most: 2, least: 2},
        {key: 'upright', most: 2, least: 2, always: make('div', {}, direction, make('div', {class: 'db-fields db-narrow'},
          field(words.play, number(of, 'play_mm', {max: 5, name: `${part}-play`}), words.playHelp),
          field(words.engaged, number(of, 'engaged_mm', {min: 0.1, max: 50, name: `${part}-engaged`}))))},
      ],
    });
  }
  function fillProbe(panel) {
    const readings = make('input', {type: 'text', name: 'readings', inputmode: 'decimal', autocomplete: 'off', value: hole.probe.readings, on: {input: event => {
      hole.probe.readings = event.target.value;
      compute();
    }}});
    panel.append(make('div', {class: 'db-pad'}, make('div', {class: 'db-fields'}, field(words.readings, readings, words.readingsHelp),
      field(words.division, number(hole.probe, 'division_mm', {max: 5})), field(words.tip, number(hole.probe, 'tip_mm', {max: 5}), words.tipHelp),
      field(words.planned, number(row, 'planned_depth_mm', {min: 1, max: 30, name: 'planned'}))), results.probe, notes.probe));
  }

  // --- The row and the table ---
  const summary = make('div', {class: 'db-card'});
  const lacking = make('div', {role: 'status'});
  const tableRoom = make('div');
  const addButton = button(words.add, () => {
    rows.push({line: answer.row, about: [row.operator, words[row.approach], row.period, shortOf()]});
    if (row.period !== '') row.period = String(Number(row.period) + 1);
    hole = {...fresh(), top: hole.top, front: hole.front, side: hole.side, probe: {...hole.probe, readings: ''}};
    rebuild(words.added);
  }, {primary: true});
  const takeButton = button('', () => {
    taken += 1;
    take(`real-blocks-${taken}.csv`, header + rows.map(one => one.line).join(''));
    rows = [];
    dialog.close();
  }, {primary: true});
  const saveButton = button(words.save, () => saveFile('real-blocks.csv', header + rows.map(one => one.line).join(''), 'text/csv'));

  function shortOf() {
    const {top, front, side, probe} = answer;
    const value = (one, name) => `${name} ${decimals(one.value)} ± ${decimals(one.u95)}`;
    return [top?.entry_md_mm && value(top.entry_md_mm, `${words.entryShort} md`), top?.entry_bl_mm && value(top.entry_bl_mm, 'bl'),
      probe?.depth_mm && value(probe.depth_mm, words.depthShort), front?.tilt_md_deg && value(front.tilt_md_deg, `${words.leanShort} md`),
      side?.tilt_bl_deg && value(side.tilt_bl_deg, 'bl')].filter(Boolean).join(', ');
  }
  const text = (key, more = {}) => make('input', {type: 'text', name: key, maxlength: 100, autocomplete: 'off', value: row[key], ...more, on: {input: event => {
    row[key] = event.target.value;
    compute();
  }}});
  function fillRow(panel) {
    const technique = make('select', {name: 'approach', on: {change: event => {
      row.approach = event.target.value;
      compute();
    }}}, [['', words.choose], ['freehand', words.freehand], ['pilot', words.pilot], ['sleeve', words.sleeve]].map(([value, name]) =>
      make('option', {value, text: name, selected: value === row.approach})));
    panel.append(make('div', {class: 'db-pad'}, make('div', {class: 'db-fields'}, field(words.learner, text('operator')), field(words.technique, technique),
      field(words.period, make('input', {type: 'number', name: 'period', min: 1, step: 1, value: row.period, on: {input: event => {
        row.period = event.target.value;
        compute();
      }}}), words.mayStay),
      field(words.group, text('cohort'), words.mayStay), field(words.site, text('site'), words.mayStay), field(words.block, text('specimen'), words.mayStay),
      field(words.direction, text('boundary_deg', {inputmode: 'decimal'}), words.mayStay)), summary, lacking,
      make('div', {class: 'db-row'}, addButton), tableRoom));
    showRow();
  }

  function showRow() {
    const apex = [answer.apex_md_mm && line(words.apex, signed(answer.apex_md_mm, 'mm', words.towardSoft, words.towardDense)),
      answer.apex_bl_mm && line(words.apex, signed(answer.apex_bl_mm, 'mm', words.away, words.toward))].filter(Boolean);
    const lines = PARTS.flatMap(linesOf);
    summary.replaceChildren(make('h3', {text: words.result}), ...(lines.length > 0 ? [...lines, ...apex] : [paragraph(words.nothing, 'muted')]), paragraph(words.empty, 'muted'));
    lacking.replaceChildren(...(answer.problems?.length > 0 ? [list(answer.problems.map(say))] : []));
    addButton.disabled = !answer.row;
    tableRoom.replaceChildren(make('h3', {text: rows.length > 0 ? fill(words.rows, rows.length) : words.noRows}),
      ...(rows.length === 0 ? [] : [table([words.learner, words.technique, words.period, words.result, ''], rows.map((one, i) => [...one.about,
        button(words.removeRow, () => {
          rows.splice(i, 1);
          showRow();
        })]))]));
    takeButton.textContent = fill(words.take, rows.length);
    for (const one of [takeButton, saveButton]) one.disabled = rows.length === 0;
  }

  const status = make('p', {role: 'status', class: 'db-muted'});
  const printForm = button(words.form, () => window.open(FORM_PAGE, '_blank', 'noopener'));
  foot.append(...(take ? [takeButton] : []), saveButton, printForm, status);

  function rebuild(sentence) {
    for (const key of Object.keys(views)) delete views[key];
    const {strip, panels} = tabs([
      {name: words.top, fill: fillTop}, {name: words.front, fill: fillPin('front')}, {name: words.side, fill: fillPin('side')},
      {name: words.probe, fill: fillProbe}, {name: words.row, fill: fillRow},
    ]);
    body.replaceChildren(strip, ...panels);
    status.textContent = sentence;
    compute();
  }
  rebuild('');
}
