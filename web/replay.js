// Up to four attempts side by side, repeated here and wound together: by their first contact, or by share of the course.
import {courseCore} from './course_core.js';
import {button, field, make, openDialog, paragraph} from './dialog.js';
import {tableIn} from './phrases.js';

const WORDS = {
  title: 'Replay side by side',
  close: 'Close',
  which: 'Which attempts',
  intro: 'Choose up to four attempts. Each is repeated from its record, then all are wound together.',
  attempt: 'Attempt {}',
  none: 'none',
  run: 'Repeat and show',
  repeating: 'Repeating attempt {} of {}…',
  nothing: 'Only attempt files can be replayed: tables and codes hold no movement.',
  contact: 'First contact together',
  share: 'Share of the course together',
  together: 'What runs together?',
  play: 'Play',
  pause: 'Pause',
  speed: 'Speed',
  wind: 'Wind',
  keys: 'Space plays, arrow keys wind, Home and End go to the ends.',
  after: '{} s after contact',
  before: '{} s before contact',
  noContact: '{} s',
  md: 'along mesio-distal, distal right',
  bl: 'along bucco-lingual, lingual right',
  picture: '{}: drill and hole, {}',
  differs: 'This attempt does not repeat as recorded.',
};

const MOST = 4;
const STEPS_AT_ONCE = 1500;
const STEPS_PER_TICK = 50;
const STEPS_PER_POSE = 20;
const ENDS = 1000;            // places of the slider
const SCALE = 3;              // picture points a sample of a section
const POINT_SHARE = 0.6009;   // height of a 118 degree point over its radius: 1 / tan 59 degrees

const fill = (text, ...values) => values.reduce((all, value) => all.replace('{}', String(value)), text);
const pause = () => new Promise(done => setTimeout(done, 0));

/** One attempt's two sections as pictures at any moment. */
class Panel {
  constructor(film, words, label) {
    Object.assign(this, {film, words, label});
    const {columns, rows} = film;
    this.layers = document.createElement('canvas');
    this.layers.width = columns;
    this.layers.height = rows;
    this.pixels = new ImageData(columns, rows);
    this.pictures = [['md', words.md], ['bl', words.bl]].map(([plane, where]) => make('canvas', {
      width: columns * SCALE, height: rows * SCALE, role: 'img', 'aria-label': fill(words.picture, label, where),
    }));
    this.time = make('p', {class: 'db-muted'});
    this.node = make('div', {class: 'db-film'}, make('h3', {text: label}),
      make('div', {class: 'db-film-row'}, this.pictures.map((picture, i) =>
        make('figure', {}, picture, make('figcaption', {text: [words.md, words.bl][i]})))),
      this.time, film.equal ? null : paragraph(words.differs, 'warn'));
  }

  draw(step) {
    const {film, words} = this;
    const at = Math.min(Math.max(step, 0), film.end_step);
    const pose = film.poses[Math.min(film.poses.length - 1, Math.floor(at / STEPS_PER_POSE))];
    this.pictures.forEach((picture, plane) => this.drawPlane(picture.getContext('2d'), film.sections[plane], plane, at, pose));
    const seconds = (at - Math.max(0, film.contact_step)) / 1000;
    this.time.textContent = film.contact_step < 0 ? fill(words.noContact, seconds.toFixed(1))
      : fill(seconds < 0 ? words.before : words.after, Math.abs(seconds).toFixed(1));
  }

  drawPlane(pen, {density, before, after, tick}, plane, at, pose) {
    const {film} = this;
    const now = Math.floor(at / STEPS_PER_TICK);
    const {data} = this.pixels;
    for (let i = 0; i < density.length; ++i) {
      const cover = (tick[i] <= now ? after[i] : before[i]) / 255;
      const grey = 60 + 150 * density[i] / 255;
      // Air dark, material by its density: the same in both themes, as in the debrief.
      data[4 * i] = 14 + cover * (grey - 14);
      data[4 * i + 1] = 20 + cover * (grey - 20);
      data[4 * i + 2] = 26 + cover * (grey - 26);
      data[4 * i + 3] = 255;
    }
    this.layers.getContext('2d').putImageData(this.pixels, 0, 0);
    const toPoint = SCALE / film.spacing_mm;
    pen.imageSmoothingEnabled = true;
    pen.drawImage(this.layers, 0, 0, pen.canvas.width, pen.canvas.height);
    const x = across => (across + film.half_width_mm) * toPoint;
    const y = up => (film.above_mm - up) * toPoint;
    // The plan: dashed, white in a black casing.
    const half = film.plan_diameter_mm / 2;
    const outline = new Path2D();
    outline.rect(x(-half), y(0), 2 * half * toPoint, film.depth_mm * toPoint);
    outline.moveTo(x(0), y(2));
    outline.lineTo(x(0), y(-film.depth_mm - 2));
    pen.setLineDash([7, 5]);
    for (const [color, width] of [['#000', 4], ['#fff', 2]]) {
      pen.strokeStyle = color;
      pen.lineWidth = width;
      pen.stroke(outline);
    }
    pen.setLineDash([]);
    if (!pose || pose[7] < 0) return;
    // The drill where it is: point, shoulder, body.
    const tip = [pose[1 + plane], pose[3]];
    const axis = [pose[4 + plane], pose[6]];
    const length = Math.hypot(...axis) || 1;
    const along = axis.map(value => value / length);
    const side = [along[1], -along[0]];
    const radius = film.drills[pose[7]] / 2;
    const corner = (up, out) => [x(tip[0] + up * along[0] + out * side[0]), y(tip[1] + up * along[1] + out * side[1])];
    const drill = new Path2D();
    [corner(0, 0), corner(POINT_SHARE * radius, radius), corner(40, radius), corner(40, -radius), corner(POINT_SHARE * radius, -radius)]
      .forEach(([px, py], i) => (i === 0 ? drill.moveTo(px, py) : drill.lineTo(px, py)));
    drill.closePath();
    pen.fillStyle = 'rgb(195 207 216 / .82)';
    pen.fill(drill);
    pen.strokeStyle = '#000';
    pen.lineWidth = 2;
    pen.stroke(drill);
  }
}

async function repeat(core, name, bytes, onProgress, isOpen) {
  const trouble = core.filmStart(name, bytes);
  if (trouble) throw new Error(trouble);
  while (core.filmAdvance(STEPS_AT_ONCE)) {
    onProgress(core.filmProgress());
    await pause();
    if (!isOpen()) return null;
  }
  return core.film();
}

/** {theme, say, attempts: [{file, label}], read(file) -> bytes}. */
export async function openReplay({theme, say = text => text, attempts, read}) {
  const words = tableIn(say, WORDS);
  const core = await courseCore();
  const {dialog, body, foot} = openDialog({title: words.title, close: words.close, theme});
  dialog.classList.add('db-large');
  if (attempts.length === 0) {
    body.append(paragraph(words.nothing));
    return;
  }
  let isOpen = true;
  let panels = [];
  let isPlaying = false;
  let round = 0;
  dialog.addEventListener('close', () => { isOpen = false; });

  const choices = Array.from({length: MOST}, (_, i) => make('select', {},
    make('option', {value: '', text: words.none}),
    attempts.map(({label}, n) => make('option', {value: String(n), text: label, selected: n === i && i < 2}))));
  const status = make('p', {role: 'status'});
  const stage = make('div', {class: 'db-films'});
  const slider = make('input', {type: 'range', min: 0, max: ENDS, step: 1, value: 0, 'aria-label': words.wind, on: {input: () => show()}});
  const sync = make('select', {on: {change: () => show()}}, make('option', {value: 'contact', text: words.contact}), make('option', {value: 'share', text: words.share}));
  const speed = make('select', {}, [['0.5', '0.5×'], ['1', '1×'], ['2', '2×'], ['4', '4×']].map(([value, text]) => make('option', {value, text, selected: value === '1'})));
  const player = button(words.play, () => play(!isPlaying), {primary: true});
  const controls = make('div', {hidden: true, class: 'db-controls'}, player, slider,
    field(words.together, sync), field(words.speed, speed));

  // Before the contact and after it, the longest of all.
  const span = () => {
    const lead = film => Math.max(0, film.contact_step);
    return {
      before: Math.max(...panels.map(({film}) => lead(film))),
      after: Math.max(...panels.map(({film}) => film.end_step - lead(film))),
    };
  };
  const duration_s = () => {
    const {before, after} = span();
    return Math.max(1, sync.value === 'share' ? Math.max(...panels.map(({film}) => film.end_step)) / 1000 : (before + after) / 1000);
  };
  function show() {
    const share = slider.valueAsNumber / ENDS;
    const {before, after} = span();
    for (const panel of panels) {
      const {film} = panel;
      panel.draw(sync.value === 'share' ? share * film.end_step : share * (before + after) - before + Math.max(0, film.contact_step));
    }
  }
  function play(wanted) {
    isPlaying = wanted && panels.length > 0;
    player.textContent = isPlaying ? words.pause : words.play;
    if (!isPlaying) return;
    if (slider.valueAsNumber >= ENDS) slider.value = 0;
    let last = performance.now();
    let place = slider.valueAsNumber;
    const mine = ++round;
    const turn = time => {
      if (!isPlaying || !isOpen || mine !== round) return;
      if (Math.abs(place - slider.valueAsNumber) > 1) place = slider.valueAsNumber;  // wound by hand meanwhile
      place += ENDS * Number(speed.value) * (time - last) / 1000 / duration_s();
      last = time;
      slider.value = place;
      show();
      if (place >= ENDS) play(false);
      else requestAnimationFrame(turn);
    };
    requestAnimationFrame(turn);
  }
  dialog.addEventListener('keydown', event => {
    if (event.key !== ' ' || /^(BUTTON|SELECT)$/.test(event.target.tagName)) return;
    event.preventDefault();
    play(!isPlaying);
  });

  const run = button(words.run, async () => {
    const chosen = [...new Set(choices.map(one => one.value).filter(Boolean))].map(value => attempts[Number(value)]);
    if (chosen.length === 0) return;
    play(false);
    run.disabled = true;
    status.className = '';
    const made = [];
    try {
      for (const [i, {file, label}] of chosen.entries()) {
        const tell = part => { status.textContent = `${fill(words.repeating, i + 1, chosen.length)} ${Math.round(100 * part)} %`; };
        tell(0);
        const film = await repeat(core, file, await read(file), tell, () => isOpen);
        if (!film) return;
        made.push(new Panel(film, words, label));
      }
      panels = made;
      stage.replaceChildren(...panels.map(panel => panel.node));
      stage.dataset.count = String(panels.length);
      status.textContent = words.keys;
      controls.hidden = false;
      choosing.open = false;
      slider.value = 0;
      show();
      slider.focus();
    } catch (failure) {
      status.className = 'db-error';
      status.textContent = say(failure.message);
    } finally {
      core.filmEnd();
      run.disabled = false;
    }
  }, {primary: true});
  const choosing = make('details', {open: true}, make('summary', {text: words.which}), paragraph(words.intro, 'muted'),
    make('div', {class: 'db-fields'}, choices.map((one, i) => field(fill(words.attempt, i + 1), one))), make('div', {class: 'db-row'}, run));
  body.append(choosing, status, stage);
  foot.append(controls);
  choices[0].focus();
}
