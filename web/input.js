// Pointers, keys, text input, clipboard, files and size changes of the page, handed to the program.
import {inOrder} from './files.js';
import {withTexts} from './texts.js';

const PHASES = {pointermove: 0, pointerdown: 1, pointerup: 2, pointercancel: 3, pointerleave: 3};
const DEVICES = {mouse: 0, touch: 1, pen: 2};
const LARGEST_FILE = 64 * 1024 * 1024;

// Keys that stay the browser's: reload, zoom, full screen, developer tools.
const BROWSER_KEYS = ['F5', 'F11', 'F12'];
const BROWSER_CHORDS = ['r', 't', 'n', 'w', 'l', '+', '-', '0', '='];

export function connectInput({canvas, text, wake, sound, onDrop}) {
  const isMac = /Mac|iP(hone|ad|od)/.test(navigator.platform);
  let module = null;
  let openFile = null;
  let leaving = false;
  let composing = false;

  const withText = (value, use) => {
    withTexts(module, [value], ([address]) => use(address));
    wake();
  };

  // --- Keys. Capture phase: before the window library, which would keep all of them ---
  addEventListener('keydown', event => {
    wake();
    sound.unlock();
    const chord = isMac ? event.metaKey : event.ctrlKey;
    const key = event.key.toLowerCase();
    const isBrowsers = BROWSER_KEYS.includes(event.key) || (chord && BROWSER_CHORDS.includes(key));
    const isPaste = chord && !event.altKey && key === 'v';
    const isLeaving = event.key === 'Tab' && leaving;
    if (isBrowsers || isPaste || isLeaving) event.stopImmediatePropagation();
    leaving = event.key === 'Escape';
  }, true);
  addEventListener('keyup', wake, true);
  addEventListener('wheel', wake, {capture: true, passive: true});
  for (const name of ['focus', 'resize']) addEventListener(name, wake);
  addEventListener('blur', () => module?._app_focus_lost());

  // --- Text: a hidden field takes composed characters, dead keys and soft keyboards ---
  const GUARD = '\u200b\u200b';
  const resetText = () => {
    text.value = GUARD;
    text.setSelectionRange(GUARD.length, GUARD.length);
  };
  const sendText = value => {
    if (value && module) withText(value, address => module._app_text(address));
  };
  const press = key => {
    module._app_edit_key(key, 1);
    module._app_edit_key(key, 0);
    wake();
  };
  resetText();
  text.addEventListener('focus', resetText);
  text.addEventListener('compositionstart', () => { composing = true; });
  text.addEventListener('compositionend', event => {
    composing = false;
    sendText(event.data);
    resetText();
  });
  text.addEventListener('input', event => {
    if (composing || event.isComposing || !module) return;
    if (event.inputType === 'deleteContentBackward') press(0);
    else if (event.inputType === 'insertLineBreak') press(1);
    else if (event.data && event.inputType !== 'insertCompositionText') sendText(event.data);
    resetText();
  });
  addEventListener('paste', event => {
    const value = event.clipboardData?.getData('text/plain');
    const active = document.activeElement;
    if (value == null || !module || (active !== text && active !== canvas)) return;
    event.preventDefault();
    withText(value, address => module._app_paste(address));
  });

  // --- Pointers: fractional, coalesced, with pressure and tilt ---
  canvas.addEventListener('contextmenu', event => event.preventDefault());
  const onPointer = event => {
    if (!module) return;
    const phase = PHASES[event.type];
    if (phase === 1) {
      sound.unlock();
      if (document.activeElement !== text) canvas.focus({preventScroll: true});
      try { canvas.setPointerCapture(event.pointerId); } catch { /* the pointer is already gone */ }
    }
    const coalesced = phase === 0 && event.getCoalescedEvents ? event.getCoalescedEvents() : [];
    const frame = canvas.getBoundingClientRect();
    for (const sample of coalesced.length > 0 ? coalesced : [event]) {
      module._app_pointer(phase, DEVICES[event.pointerType] ?? 0, event.pointerId, event.button,
        sample.clientX - frame.left, sample.clientY - frame.top, sample.pressure, sample.tiltX, sample.tiltY);
    }
    wake();
  };
  for (const name of Object.keys(PHASES)) canvas.addEventListener(name, onPointer);

  // --- Gamepads: nothing of them is loaded before the first ---
  addEventListener('gamepadconnected', async () => {
    const {followPads} = await import(new URL('./pad.js', import.meta.url));
    followPads({send: (...amounts) => module?._app_pad(...amounts), target: canvas, load: sound.load, wake});
  }, {once: true});

  // --- Size: the window library only hears of window resizes ---
  const resized = () => dispatchEvent(new Event('resize'));
  new ResizeObserver(resized).observe(canvas);
  const watchRatio = () => matchMedia(`(resolution:${devicePixelRatio}dppx)`)
    .addEventListener('change', () => { resized(); watchRatio(); }, {once: true});
  watchRatio();

  // --- Files ---
  // Bytes, not text: decoding here would hide what is wrong with a file.
  const bytesOf = async file => new Uint8Array(file.size > LARGEST_FILE ? 0 : await file.arrayBuffer());
  const handleOf = file => ({name: file.name, read: () => bytesOf(file)});
  const unzipped = async file => {
    const {readZip} = await import(new URL('./zip.js', import.meta.url));
    return (await readZip(await bytesOf(file), file.name)).entries.map(({name, read}) => ({name: name.replace(/.*\//, ''), read}));
  };
  // A zip file that cannot be read is handed on as it is: the program says that it is none of its files.
  const readFiles = async list => {
    const handles = await Promise.all([...list ?? []].map(async file =>
      /\.zip$/i.test(file.name) ? unzipped(file).catch(() => [handleOf(file)]) : [handleOf(file)]));
    for (const {name, read} of inOrder(handles.flat())) {
      const bytes = await read();
      openFile?.(name, bytes);
      wake();
    }
  };
  const chooser = document.createElement('input');
  chooser.type = 'file';
  chooser.multiple = true;
  chooser.accept = '.json,.zip,application/json';
  chooser.addEventListener('change', () => {
    readFiles(chooser.files);
    chooser.value = '';
  });
  addEventListener('dragover', event => event.preventDefault());
  addEventListener('drop', event => {
    event.preventDefault();
    if (onDrop) onDrop(event.dataTransfer);
    else readFiles(event.dataTransfer?.files);
  });

  return {
    isMac,
    attach: (program, open) => {
      module = program;
      openFile = open;
    },
    pickFile: () => chooser.click(),
    copy: value => navigator.clipboard?.writeText(value).catch(() => {}),
    textInput: (wanted, x, y) => {
      if (wanted) {
        text.style.left = `${x}px`;
        text.style.top = `${y}px`;
        if (document.activeElement !== text) text.focus({preventScroll: true});
      } else if (document.activeElement === text) {
        canvas.focus({preventScroll: true});
      }
    },
  };
}
