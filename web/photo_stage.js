// A photograph that points are marked on: zoom, pan, points by pointer and keys, undo. It measures nothing.

const GRAB_px = 14;        // how near a point the pointer must be, in pixels of the screen
const CLICK_px = 5;        // a press that moves less is a click
const NUDGE = 1;           // pixels of the photograph
const FINE_NUDGE = 0.2;
const CROSS_px = 20;       // pixels of the screen
const FINE_CROSS_px = 2;
const MOST_UNDO = 100;
const LARGEST_ZOOM = 40;
const MARK_px = 9;
const MOST_BYTES = 64 * 1024 * 1024;
const MOST_PIXELS = 80e6;
const LEAST_PIXELS = 200;

export class PhotoTrouble extends Error {
  name = 'PhotoTrouble';
}

/** The picture of a file, or a PhotoTrouble with a sentence. */
export async function readPhoto(file) {
  if (file.size > MOST_BYTES) throw new PhotoTrouble(`${file.name}: found ${file.size} bytes, expected at most ${MOST_BYTES}`);
  let bitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    throw new PhotoTrouble(`${file.name}: found no picture that this browser can read, expected a PNG or JPEG file`);
  }
  const {width, height} = bitmap;
  if (width * height > MOST_PIXELS) {
    bitmap.close();
    throw new PhotoTrouble(`${file.name}: found ${width} x ${height} pixels, expected a smaller picture`);
  }
  if (Math.min(width, height) < LEAST_PIXELS) {
    bitmap.close();
    throw new PhotoTrouble(`${file.name}: found ${width} x ${height} pixels, expected ${LEAST_PIXELS} at least each way; points could not be set finely enough`);
  }
  return bitmap;
}

/**
 * Turns a canvas into a stage. `groups`: {key: {most, name}}, in the order of their steps. `onChange` is called after every
 * change of points, `onFull(key)` when a group has all its points, `draw(ctx, toScreen)` draws over the picture.
 */
export function makeStage({canvas, groups, colors, onChange, onFull, draw}) {
  const ctx = canvas.getContext('2d');
  let picture = null;   // ImageBitmap or canvas
  let points = empty();
  let active = Object.keys(groups)[0];
  let selected = null;  // {key, index}
  let cross = null;     // of the keyboard, in pixels of the photograph
  let view = {scale: 1, x: 0, y: 0};
  let undone = [];
  let asked = false;
  let isFitted = true;  // nobody zoomed or moved it: it follows the size of the stage

  function empty() {
    return Object.fromEntries(Object.keys(groups).map(key => [key, []]));
  }

  const size = () => ({width: canvas.clientWidth, height: canvas.clientHeight});
  const toScreen = ({x, y}) => ({x: view.x + x * view.scale, y: view.y + y * view.scale});
  const toPhoto = (x, y) => ({x: (x - view.x) / view.scale, y: (y - view.y) / view.scale});
  const inside = ({x, y}) => picture && x >= 0 && y >= 0 && x <= picture.width && y <= picture.height;

  const remember = () => {
    undone.push(JSON.stringify(points));
    if (undone.length > MOST_UNDO) undone.shift();
  };
  const changed = () => {
    redraw();
    onChange();
  };

  function fit() {
    if (!picture) return redraw();
    const {width, height} = size();
    isFitted = true;
    view.scale = Math.min(width / picture.width, height / picture.height) * 0.98;
    view.x = (width - picture.width * view.scale) / 2;
    view.y = (height - picture.height * view.scale) / 2;
    redraw();
  }

  function zoom(factor, x = size().width / 2, y = size().height / 2) {
    if (!picture) return;
    const least = 0.5 * Math.min(size().width / picture.width, size().height / picture.height);
    const scale = Math.min(LARGEST_ZOOM, Math.max(least, view.scale * factor));
    view.x = x - (x - view.x) * scale / view.scale;
    view.y = y - (y - view.y) * scale / view.scale;
    view.scale = scale;
    isFitted = false;
    redraw();
  }

  function pan(dx, dy) {
    if (dx === 0 && dy === 0) return;
    view.x += dx;
    view.y += dy;
    isFitted = false;
    redraw();
  }

  /** Adds a point to the active group; in a full one of a single point it takes its place. */
  function place(at) {
    if (!picture || !inside(at)) return;
    const {most} = groups[active];
    const group = points[active];
    if (group.length >= most && most > 1) return;
    remember();
    if (group.length >= most) group.length = 0;
    group.push({x: at.x, y: at.y, zoom: view.scale});
    selected = {key: active, index: group.length - 1};
    const key = active;
    changed();
    if (group.length === most) onFull(key);
  }

  function removeSelected() {
    if (!selected) return;
    remember();
    points[selected.key].splice(selected.index, 1);
    active = selected.key;
    selected = null;
    changed();
  }

  function undo() {
    if (undone.length === 0) return;
    points = JSON.parse(undone.pop());
    selected = null;
    changed();
  }

  function nearest(x, y) {
    let best = null;
    let least = GRAB_px;
    for (const [key, group] of Object.entries(points)) {
      group.forEach((point, index) => {
        const at = toScreen(point);
        const distance = Math.hypot(at.x - x, at.y - y);
        if (distance < least) {
          least = distance;
          best = {key, index};
        }
      });
    }
    return best;
  }

  // --- Pointers: a click sets a point, dragging a point moves it, dragging elsewhere moves the picture ---
  const pressed = new Map();
  let gesture = null;
  const local = event => {
    const frame = canvas.getBoundingClientRect();
    return {x: event.clientX - frame.left, y: event.clientY - frame.top};
  };
  canvas.addEventListener('pointerdown', event => {
    canvas.focus({preventScroll: true});
    if (!picture) return;
    const at = local(event);
    pressed.set(event.pointerId, at);
    try { canvas.setPointerCapture(event.pointerId); } catch { /* the pointer is already gone */ }
    if (pressed.size === 2) {
      gesture = {kind: 'pinch'};
    } else if (pressed.size === 1) {
      const grabbed = event.button === 0 ? nearest(at.x, at.y) : null;
      gesture = grabbed ? {kind: 'point', from: at, moved: false} : {kind: event.button === 0 ? 'click' : 'pan', from: at};
      if (grabbed) {
        selected = grabbed;
        redraw();
        onChange();
      }
    }
  });
  canvas.addEventListener('pointermove', event => {
    const before = pressed.get(event.pointerId);
    if (!before || !gesture) return;
    const at = local(event);
    if (gesture.kind === 'pinch') {
      const other = [...pressed].find(([id]) => id !== event.pointerId)[1];
      const factor = Math.hypot(at.x - other.x, at.y - other.y) / Math.max(1, Math.hypot(before.x - other.x, before.y - other.y));
      pan((at.x - before.x) / 2, (at.y - before.y) / 2);
      zoom(factor, (at.x + other.x) / 2, (at.y + other.y) / 2);
    } else if (gesture.kind === 'point') {
      if (!gesture.moved && Math.hypot(at.x - gesture.from.x, at.y - gesture.from.y) < 2) return;
      if (!gesture.moved) remember();
      gesture.moved = true;
      moveSelected((at.x - before.x) / view.scale, (at.y - before.y) / view.scale);
    } else {
      if (gesture.kind === 'click' && Math.hypot(at.x - gesture.from.x, at.y - gesture.from.y) < CLICK_px) return;
      gesture.kind = 'pan';
      pan(at.x - before.x, at.y - before.y);
    }
    pressed.set(event.pointerId, at);
  });
  const release = event => {
    const was = pressed.get(event.pointerId);
    pressed.delete(event.pointerId);
    if (gesture?.kind === 'click' && was && event.type === 'pointerup') place(toPhoto(gesture.from.x, gesture.from.y));
    gesture = pressed.size === 0 ? null : gesture;
  };
  for (const name of ['pointerup', 'pointercancel']) canvas.addEventListener(name, release);
  canvas.addEventListener('contextmenu', event => event.preventDefault());
  canvas.addEventListener('wheel', event => {
    event.preventDefault();
    const {x, y} = local(event);
    zoom(Math.exp(-event.deltaY / 400), x, y);
  }, {passive: false});

  function moveSelected(dx, dy) {
    const point = selected && points[selected.key][selected.index];
    if (!point) return;
    point.x = Math.min(picture.width, Math.max(0, point.x + dx));
    point.y = Math.min(picture.height, Math.max(0, point.y + dy));
    point.zoom = Math.max(point.zoom, view.scale);
    changed();
  }

  // --- Keys ---
  const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]};
  canvas.addEventListener('keydown', event => {
    const handled = onKey(event);
    if (handled) event.preventDefault();
  });
  function onKey(event) {
    const {key, shiftKey, ctrlKey, metaKey} = event;
    if ((ctrlKey || metaKey) && key.toLowerCase() === 'z') return undo(), true;
    if (ctrlKey || metaKey || event.altKey || !picture) return false;
    if (ARROWS[key]) {
      const [x, y] = ARROWS[key];
      if (selected) {
        const step = shiftKey ? FINE_NUDGE : NUDGE;
        if (!event.repeat) remember();
        moveSelected(x * step, y * step);
      } else {
        const step = (shiftKey ? FINE_CROSS_px : CROSS_px) / view.scale;
        const {width, height} = size();
        cross ??= toPhoto(width / 2, height / 2);
        cross = {x: cross.x + x * step, y: cross.y + y * step};
        keepInSight(cross);
        redraw();
      }
      return true;
    }
    if (key === 'Enter' || key === ' ') {
      if (!selected && cross) place(cross);
      else {
        selected = null;
        cross ??= toPhoto(size().width / 2, size().height / 2);
        redraw();
        onChange();
      }
      return true;
    }
    if (key === 'Delete' || key === 'Backspace') return removeSelected(), true;
    if (key === 'Escape' && selected) {
      selected = null;
      redraw();
      onChange();
      return true;
    }
    if (key === '+' || key === '=') return zoom(1.25, ...middle()), true;
    if (key === '-') return zoom(0.8, ...middle()), true;
    if (key === '0') return fit(), true;
    return false;
  }
  const middle = () => {
    const at = selected ? points[selected.key][selected.index] : cross;
    if (!at) return [];
    const {x, y} = toScreen(at);
    return [x, y];
  };
  function keepInSight(at) {
    const {width, height} = size();
    const {x, y} = toScreen(at);
    pan(Math.max(0, 20 - x) - Math.max(0, x - width + 20), Math.max(0, 20 - y) - Math.max(0, y - height + 20));
  }

  // --- Drawing ---
  function redraw() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      paint();
    });
  }

  function mark({x, y}, color, shape, isChosen) {
    const r = MARK_px;
    ctx.beginPath();
    if (shape === 'ring') ctx.arc(x, y, r * 0.7, 0, 2 * Math.PI);
    else if (shape === 'square') ctx.rect(x - r * 0.7, y - r * 0.7, 1.4 * r, 1.4 * r);
    ctx.moveTo(x - r, y);
    ctx.lineTo(x + r, y);
    ctx.moveTo(x, y - r);
    ctx.lineTo(x, y + r);
    ctx.lineWidth = isChosen ? 6 : 4;
    ctx.strokeStyle = '#000';
    ctx.stroke();
    ctx.lineWidth = isChosen ? 3 : 1.8;
    ctx.strokeStyle = isChosen ? colors.focus : color;
    ctx.stroke();
  }

  function paint() {
    const ratio = devicePixelRatio || 1;
    const {width, height} = size();
    if (width === 0) return;
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(height * ratio);
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    ctx.fillStyle = colors.page;
    ctx.fillRect(0, 0, width, height);
    if (!picture) return;
    ctx.imageSmoothingEnabled = view.scale < 3;
    ctx.drawImage(picture, view.x, view.y, picture.width * view.scale, picture.height * view.scale);
    draw(ctx, toScreen);
    for (const [key, {color, shape}] of Object.entries(groups)) {
      points[key].forEach((point, index) =>
        mark(toScreen(point), color, shape, selected?.key === key && selected.index === index));
    }
    if (cross && !selected && document.activeElement === canvas) {
      const at = toScreen(cross);
      ctx.beginPath();
      ctx.arc(at.x, at.y, 12, 0, 2 * Math.PI);
      ctx.lineWidth = 4;
      ctx.strokeStyle = '#000';
      ctx.stroke();
      ctx.lineWidth = 2;
      ctx.strokeStyle = colors.focus;
      ctx.stroke();
      mark(at, colors.focus, '', false);
    }
  }
  new ResizeObserver(() => (isFitted ? fit() : redraw())).observe(canvas);
  canvas.addEventListener('focus', redraw);
  canvas.addEventListener('blur', redraw);

  return {
    show: (next, kept = null) => {
      picture = next;
      points = kept ?? empty();
      selected = null;
      cross = null;
      undone = [];
      fit();
      onChange();
    },
    /** A quarter turn clockwise, points with it. */
    turn: () => {
      if (!picture) return;
      const turned = document.createElement('canvas');
      turned.width = picture.height;
      turned.height = picture.width;
      const paper = turned.getContext('2d');
      paper.translate(turned.width, 0);
      paper.rotate(Math.PI / 2);
      paper.drawImage(picture, 0, 0);
      const {height} = picture;
      for (const group of Object.values(points)) {
        for (const point of group) [point.x, point.y] = [height - point.y, point.x];
      }
      picture = turned;
      undone = [];
      selected = null;
      fit();
      onChange();
    },
    picture: () => picture,
    points: () => points,
    active: () => active,
    choose: key => {
      active = key;
      selected = null;
      redraw();
    },
    selected: () => selected,
    select: (key, index) => {
      active = key;
      selected = {key, index};
      keepInSight(points[key][index]);
      redraw();
    },
    clear: key => {
      remember();
      points[key] = [];
      selected = null;
      changed();
    },
    canUndo: () => undone.length > 0,
    undo, removeSelected, fit, redraw,
    zoom: factor => zoom(factor, ...middle()),
    focus: () => canvas.focus({preventScroll: true}),
  };
}
