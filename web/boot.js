// Starts the program in the page, turns its frames, and says so when something goes wrong.
import {inOrder, saveFile} from './files.js';
import {connectInput} from './input.js';
import {language} from './language.js';
import {makeMirror} from './mirror.js';
import {makeParts} from './parts.js';
import {openStorage} from './storage.js';
import {makeSound} from './sound.js';
import {withFile, withTexts} from './texts.js';

const element = id => document.getElementById(id);
const canvas = element('canvas');
const errors = [];
const violations = [];
let crashed = false;

// Shows a readable page in place of the picture.
function showTrouble(title, sentences, details, canReload) {
  const box = element('trouble');
  const inner = document.createElement('div');
  const add = (tag, text) => {
    const child = document.createElement(tag);
    child.textContent = language.say(text);
    inner.append(child);
    return child;
  };
  add('h2', title);
  for (const sentence of sentences) add('p', sentence);
  if (canReload) add('button', 'Reload the page').addEventListener('click', () => location.reload());
  if (details) add('pre', '').textContent = details;
  box.replaceChildren(inner);
  box.hidden = false;
  element('loading').hidden = true;
}

let storage = null;

function crash(what) {
  if (crashed) return;
  crashed = true;
  errors.push(String(what));
  try { sound?.stop(); } catch { /* the page is ending anyway */ }
  showTrouble('Driftbench stopped', [
    'Something went wrong in the program. Finished attempts are saved in this browser.',
    'After a reload they are on the shelf again, and an attempt that was running can be resumed.',
  ], String(what), true);
  // What was running, and a report to hand on.
  import(new URL('./crash.js', import.meta.url)).then(({explain}) =>
    explain({box: element('trouble').firstChild, what: String(what), running: storage?.running(), say: language.say}), () => {});
}

addEventListener('error', event => {
  errors.push(String(event.message));
  crash(event.error?.stack || event.message);
});
addEventListener('unhandledrejection', event => {
  errors.push(String(event.reason));
  crash(event.reason?.stack || event.reason);
});
document.addEventListener('securitypolicyviolation',
  event => violations.push(`${event.violatedDirective} ${event.blockedURI}`));

// The canvas's own context, with the attributes that src/platform/window.cpp asks for: it gets ready while the program loads.
function openGraphics() {
  const gl = canvas.getContext('webgl2', {alpha: false, depth: false, stencil: false, antialias: false});
  if (!gl) return null;
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name = String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  return {isSoftware: /swiftshader|llvmpipe|softpipe|software|basic render/i.test(name)};
}

function twoDigits(number) {
  return String(number).padStart(2, '0');
}

function localTime() {
  const now = new Date();
  return `${now.getFullYear()}-${twoDigits(now.getMonth() + 1)}-${twoDigits(now.getDate())} ` +
    `${twoDigits(now.getHours())}:${twoDigits(now.getMinutes())}`;
}

// Settings and the address's parameters become the program's arguments.
function programArguments(storage) {
  const list = [];
  for (const [name, value] of Object.entries(storage.settings())) list.push(`--kept-${name}=${value}`);
  for (const [name, value] of new URLSearchParams(location.search)) if (name !== 'trial-block') list.push(`--${name}=${value}`);
  if (matchMedia('(prefers-color-scheme: light)').matches) list.push('--prefers-light=1');
  return list;
}

// The second part does not keep the first picture waiting; a hidden page draws none.
const PICTURE_MS = 300;
const shown = () => new Promise(done => {
  requestAnimationFrame(() => setTimeout(done));
  setTimeout(done, PICTURE_MS);
});

let sound = null;
const languageReady = language.start();  // its file comes while the program does

async function start() {
  const graphics = openGraphics();
  if (!graphics) {
    await languageReady;
    showTrouble('This browser has no WebGL 2', [
      'Driftbench draws its block and drill with WebGL 2, and this browser or device does not offer it.',
      'A current Firefox, Chrome, Edge or Safari on a computer or tablet does. If this one should, hardware acceleration may be switched off in its settings.',
    ], '', false);
    return;
  }
  // A page names its program, a part of its own that the program needs, and the two parts of a split program.
  const {program, extension, first, later} = document.body.dataset;
  const {default: createApp} = await import(program);
  const {extend} = extension ? await import(extension) : {};

  let module = null;
  let mirror = null;
  let frameAsked = false;
  const frame = () => {
    frameAsked = false;
    if (crashed || !module || document.hidden) return;
    counters.ticks += 1;
    if (module._app_tick()) wake();
    mirror?.changed();
  };
  const wake = () => {
    if (frameAsked || crashed) return;
    frameAsked = true;
    requestAnimationFrame(frame);
  };

  const call = {
    storageFailed: sentence => withTexts(module, [sentence], ([text]) => module._app_storage_failed(text)),
    index: json => withTexts(module, [json], ([text]) => module._app_stored_index(text)),
    attempt: (id, body) => withTexts(module, [id, body], ([name, text], [, size]) =>
      module._app_attempt_loaded(name, text, size)),
    journalFound: found => withTexts(module, [found.id, found.title, found.when], ([id, title, when]) =>
      module._app_journal_found(id, title, when, found.step)),
    journal: (id, head, step, rows) => withTexts(module, [id, head], ([name, text]) => {
      const address = module._malloc(rows.byteLength || 4);
      module.HEAP32.set(rows, address >> 2);
      module._app_journal_loaded(name, text, step, address, rows.length);
      module._free(address);
    }),
  };
  const trouble = await languageReady;
  const isTrial = new URLSearchParams(location.search).has('try') && parent !== window;
  storage = await openStorage(call, isTrial);
  const isGiven = !extend && (isTrial || location.hash.startsWith('#open='));
  const given = isGiven
    ? await (await import(new URL('./given.js', import.meta.url))).given(isTrial, storage.settings().theme) : {files: [], words: []};
  const opened = extend ? [] : [...await storage.keptFiles(), ...given.files];
  sound = makeSound();
  const more = extend?.({wake});
  const input = connectInput({canvas, text: element('text'), wake, sound, onDrop: more?.onDrop});

  const save = (name, text) => saveFile(name, text, name.endsWith('.json') ? 'application/json' : undefined);
  const host = {
    wake, crash, localTime, saveFile: save,
    isMac: input.isMac,
    isSoftware: graphics.isSoftware,
    announce: sentence => { element('status').textContent = sentence; },
    textInput: input.textInput,
    copy: input.copy,
    pickFile: input.pickFile,
    exportAll: async () => {
      const text = await storage.logbook();
      if (text) save('driftbench.logbook.json', text);
    },
    takeaway: async about => {
      try {
        const {openLearner} = await import(new URL('./learner.js', import.meta.url));
        await openLearner({about, logbook: storage.logbook, say: language.say});
      } catch (failure) {
        call.storageFailed(`The dialog could not be opened (${failure.message}).`);
        wake();
      }
    },
    remember: storage.remember,
    storage,
    forgetFiles: async names => {
      await storage.forgetFiles(names.split('\n'));
      location.reload();
    },
    sound: sound.set,
    openPage: name => {
      const {alone} = document.body.dataset;  // one file, opened from a disk
      if (alone) return call.storageFailed(alone);
      const asked = new URLSearchParams(location.search).get('lang');
      location.href = asked ? `${name}?lang=${encodeURIComponent(asked)}` : name;
    },
    texts: language.texts,
    chooseLanguage: async code => {
      const trouble = await language.choose(code);
      if (trouble) call.storageFailed(trouble);
      else module._app_language();
      wake();
    },
    ...more?.host,
  };
  const parts = later ? makeParts(first, later) : null;
  const options = {
    canvas, host,
    arguments: [...programArguments(storage), ...given.words],
    print: text => console.log(text),
    printErr: text => console.warn(text),
    onAbort: what => crash(`The program ended itself: ${what}`),
  };
  if (parts) {
    options.instantiateWasm = (imports, receive) => {
      parts.first(imports).then(made => receive(made.instance, made.module), failure => crash(failure?.stack || failure));
      return {};
    };
  }
  module = await createApp(options);
  more?.attach(module);
  for (const {name, text, isNew} of [...inOrder(opened), {name: '', text: ''}]) {
    withTexts(module, [name, text], ([file, body], [, size]) => module._app_file_kept(file, body, size, isNew ? 1 : 0));
  }
  const openFile = (name, bytes) => withFile(module, name, bytes, (...file) => module._app_file(...file));
  input.attach(module, openFile);

  canvas.addEventListener('webglcontextlost', event => {
    event.preventDefault();
    module._app_graphics(0);
  });
  canvas.addEventListener('webglcontextrestored', () => {
    module._app_graphics(1);
    wake();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) module._app_keep_now();
    module._app_visibility(document.hidden ? 1 : 0);
    sound.pause(document.hidden);
    wake();
  });
  addEventListener('pagehide', () => module._app_keep_now());
  addEventListener('hashchange', () => location.hash.startsWith('#open=') && location.reload());

  const and = work => (...values) => {
    work(...values);
    wake();
  };
  mirror = makeMirror({
    root: element('mirror'),
    read: () => module.UTF8ToString(module._app_items()),
    activate: and(id => module._app_activate(id)),
    focus: and(id => module._app_focus(id)),
    adjust: and((id, steps) => module._app_adjust(id, steps)),
  });

  // Read-only looks into the running program, for tests and for people with a console.
  window.app = Object.freeze({
    items: () => JSON.parse(module.UTF8ToString(module._app_items())),
    state: () => JSON.parse(module.UTF8ToString(module._app_state())),
    counters,
    errors,
    violations,
    startedAfter_ms: performance.now(),
  });
  element('loading').hidden = true;
  canvas.focus({preventScroll: true});
  const told = storage.report();
  if (trouble) call.storageFailed(trouble);
  wake();
  if (parts) {
    await shown();
    await parts.later();
    module._app_whole();
  }
  more?.whole?.();
  // Offline use, new versions, lost graphics: nothing of it is needed to start.
  if (!isTrial) {
    import(new URL('./care.js', import.meta.url)).then(({care}) => care({canvas, say: language.say, holdsMore: Boolean(extend)}), () => {});
  }
  // A file is a class's summary; another value is the class's word, which the program takes.
  const summary = new URLSearchParams(location.search).get('class');
  if (!extend && summary?.endsWith('.json')) {
    await told;
    await (await import(new URL('./class_link.js', import.meta.url))).follow(summary, openFile, call.storageFailed);
    wake();
  }
}

const counters = {ticks: 0};
start().catch(failure => crash(failure?.stack || failure));
