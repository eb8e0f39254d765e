// One photograph in the dialog: its stage, its tools, and the steps in which its points are marked.
import {button, make, paragraph} from './dialog.js';
import {makeStage, readPhoto} from './photo_stage.js';
import {fill} from './photo_words.js';

const MARKS = {
  edge: {color: '#6cf0e4', shape: 'square'}, corners: {color: '#6cf0e4', shape: 'square'},
  boundary: {color: '#ffb000', shape: ''}, soft: {color: '#ffb000', shape: 'ring'},
  plan: {color: '#ff7fd0', shape: 'ring'}, rim: {color: '#ffffff', shape: ''},
  pin: {color: '#ffffff', shape: ''}, upright: {color: '#6cf0e4', shape: 'square'},
};

/**
 * {room, words, say, colors, steps: [{key, most, least, help, extra, always}], dropText, kept: {picture, points}, onChange,
 * draw(ctx, toScreen), result, notes}. `extra` is an element that is there while the step is the active one, `always` one that
 * stays. Steps of `hidden()` keys are left out. Gives {refresh(), redraw()}.
 */
export function photoView({room, words, say, colors, steps, hidden = () => [], dropText, kept, onChange, draw, result, notes}) {
  const canvas = make('canvas', {tabindex: '0', role: 'application', 'aria-label': words.stage, class: 'db-stage'});
  const trouble = make('p', {role: 'alert', class: 'db-error', hidden: true});
  const drop = make('div', {class: 'db-drop'}, paragraph(dropText));
  const groups = Object.fromEntries(steps.map(({key, most}) => [key, {most, ...MARKS[key]}]));
  const shown = () => steps.filter(({key}) => !hidden().includes(key));

  const stage = makeStage({
    canvas, groups, colors,
    onChange: () => {
      refresh();
      onChange();
    },
    onFull: key => {
      const list = shown();
      const next = list.slice(list.findIndex(step => step.key === key) + 1).find(step => stage.points()[step.key].length < step.least);
      if (next) stage.choose(next.key);
      refresh();
    },
    draw: (ctx, toScreen) => draw(ctx, toScreen),
  });

  // --- Files ---
  async function open(file) {
    try {
      const picture = await readPhoto(file);
      trouble.hidden = true;
      stage.show(picture);
      stage.focus();
    } catch (failure) {
      trouble.textContent = say(failure.name === 'PhotoTrouble' ? failure.message : `${file.name}: found that the file cannot be read (${failure.message})`);
      trouble.hidden = false;
    }
    refresh();
  }
  const chooser = make('input', {type: 'file', accept: 'image/png,image/jpeg,.png,.jpg,.jpeg', hidden: true, on: {change: event => {
    const [file] = event.target.files;
    event.target.value = '';
    if (file) open(file);
  }}});
  const load = button('', () => chooser.click(), {primary: true});
  const frame = make('div', {class: 'db-frame'}, canvas, drop);
  for (const name of ['dragover', 'drop']) {
    frame.addEventListener(name, event => {
      event.preventDefault();
      event.stopPropagation();
      const file = name === 'drop' ? event.dataTransfer?.files[0] : null;
      if (file) open(file);
    });
  }

  // --- Tools ---
  const tool = (text, work, label) => button(text, () => {
    work();
    stage.focus();
  }, label ? {'aria-label': label, title: label} : {});
  const undo = tool(words.undo, () => stage.undo());
  const remove = tool(words.remove, () => stage.removeSelected());
  const tools = make('div', {class: 'db-row db-tools'}, load,
    tool('+', () => stage.zoom(1.5), words.zoomIn), tool('−', () => stage.zoom(1 / 1.5), words.zoomOut), tool(words.fit, () => stage.fit()),
    tool(words.turn, () => stage.turn(), words.turnHelp), undo, remove, chooser);

  // --- Steps: the active one takes the next points ---
  const list = make('ol', {class: 'db-steps'});
  const parts = new Map(steps.map(step => {
    const count = make('span', {class: 'db-muted'});
    const chips = make('div', {class: 'db-chips'});
    const head = make('button', {type: 'button', class: 'db-step', 'aria-pressed': 'false', on: {click: () => {
      stage.choose(step.key);
      refresh();
      stage.focus();
    }}}, make('span', {class: 'db-dot', 'data-mark': step.key}), make('span', {class: 'db-step-name', text: words[step.key]}), count);
    const clear = button(words.clear, () => {
      stage.clear(step.key);
      stage.choose(step.key);
      refresh();
    }, {'aria-label': `${words.clear}: ${words[step.key]}`, class: 'db-small'});
    const more = make('div', {}, step.help ? paragraph(step.help, 'muted') : null, chips, step.extra ?? null);
    const item = make('li', {'data-step': step.key}, head, more, step.always ?? null);
    return [step.key, {step, head, count, chips, clear, more, item}];
  }));

  function refresh() {
    const has = Boolean(stage.picture());
    const {key: chosen, index} = stage.selected() ?? {};
    const visible = shown().map(step => step.key);
    if (!visible.includes(stage.active())) stage.choose(visible[0]);
    for (const [key, {step, head, count, chips, clear, more, item}] of parts) {
      more.hidden = stage.active() !== key;
      item.hidden = !visible.includes(key);
      const points = stage.points()[key];
      head.setAttribute('aria-pressed', String(stage.active() === key));
      head.disabled = !has;
      count.textContent = step.least === step.most ? fill(words.counted, points.length, step.most) : fill(words.countedMore, points.length, step.least);
      count.className = points.length >= step.least ? 'db-good' : 'db-muted';
      if (chips.childElementCount !== (points.length > 0 ? points.length + 1 : 0)) {
        chips.replaceChildren(...points.map((_, i) => button(String(i + 1), () => {
          stage.select(key, i);
          refresh();
          stage.focus();
        }, {class: 'db-chip', 'aria-label': fill(words.pointOf, words[key], i + 1)})), ...(points.length > 0 ? [clear] : []));
      }
      chips.querySelectorAll('.db-chip').forEach((chip, i) => chip.setAttribute('aria-pressed', String(key === chosen && i === index)));
    }
    if (has) parts.get(stage.active()).item.scrollIntoView({block: 'nearest'});
    drop.hidden = has;
    canvas.classList.toggle('db-empty', !has);
    load.textContent = has ? words.loadOther : words.load;
    load.className = has ? '' : 'db-primary';
    for (const one of tools.querySelectorAll('button')) if (one !== load) one.disabled = !has;
    undo.disabled = !stage.canUndo();
    remove.disabled = !stage.selected();
    kept.points = stage.points();
    kept.picture = stage.picture();
  }

  list.append(...[...parts.values()].map(({item}) => item));
  room.append(make('div', {class: 'db-measure'},
    make('div', {class: 'db-left'}, tools, trouble, frame),
    make('div', {class: 'db-right'}, make('div', {class: 'db-scrolls'}, list, notes, paragraph(words.help, 'muted'), paragraph(words.privacy, 'muted')), result)));
  if (kept.picture) stage.show(kept.picture, kept.points);
  else refresh();
  return {refresh, redraw: stage.redraw};
}
