// Files of a class into the program, and attempts repeated by a worker; nothing leaves the page.
import {language} from './language.js';
import {withFile, withTexts} from './texts.js';

const LARGEST_ATTEMPT = 32 * 1024 * 1024;
const MOST_OF_TABLES = 8 * 1024 * 1024;  // about 45,000 holes in the tab's memory; the command line takes more
const LARGEST_ZIP = 512 * 1024 * 1024;
const MOST_FILES = 100000;
const STEPS_AT_ONCE = 100000;
const STEPS_IN_PAGE = 4000;

const isTable = name => name.endsWith('.csv');
const isAttempt = name => name.endsWith('.attempt.json');
const isPlan = name => name.endsWith('.experiment.json');
const isTurnIn = name => name.endsWith('.turn-in.txt');
const isZip = name => name.toLowerCase().endsWith('.zip');
const belongs = name => isTable(name) || isAttempt(name) || isPlan(name) || isTurnIn(name);

// Byte order of UTF-8, as the command line sorts.
function byName(a, b) {
  const left = [...a.name], right = [...b.name];
  for (let i = 0; i < Math.min(left.length, right.length); ++i) {
    const difference = left[i].codePointAt(0) - right[i].codePointAt(0);
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}

const pause = () => new Promise(done => setTimeout(done, 0));

// A file whose bytes are read when they are wanted: {name, size, read()}.
const handleOf = (name, file) => ({name, size: file.size, read: async () => new Uint8Array(await file.arrayBuffer())});

// --- Verdicts kept in this browser, by engine and digest of the file ---
function openVerdicts() {
  const store = new Promise(resolve => {
    try {
      const opening = indexedDB.open('driftbench-classroom', 1);
      opening.onupgradeneeded = () => opening.result.createObjectStore('verdicts');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => resolve(null);
    } catch {
      resolve(null);
    }
  });
  const ask = async (mode, work) => {
    const open = await store;
    if (!open) return undefined;
    return new Promise(resolve => {
      const asked = work(open.transaction('verdicts', mode).objectStore('verdicts'));
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => resolve(undefined);
    });
  };
  return {
    get: key => ask('readonly', all => all.get(key)),
    put: (key, verdict) => ask('readwrite', all => all.put(verdict, key)),
  };
}

// --- Repeating: in a worker, or in small portions in the page where there is none ---
function makeWorker() {
  const worker = new Worker(new URL('./verify_worker.js', import.meta.url), {type: 'module'});
  let settle = null;
  const failed = new Promise((_, reject) => {
    worker.onerror = event => reject(new Error(event.message || 'the worker did not start'));
  });
  failed.catch(() => {});
  worker.onmessage = ({data}) => settle?.(data);
  return {
    check: (name, bytes) => Promise.race([failed, new Promise(done => {
      settle = done;
      worker.postMessage({name, bytes, steps: STEPS_AT_ONCE}, [bytes.buffer]);
    })]),
    end: () => worker.terminate(),
  };
}

export async function checkInPortions(module, name, bytes, steps, between) {
  withFile(module, name, bytes, (...file) => module._desk_check_begin(...file));
  while (module._desk_check_advance(steps)) await between();
  return JSON.parse(module.UTF8ToString(module._desk_check_verdict()));
}

export function extend({wake}) {
  let module = null;
  let files = new Map();     // name -> handle, as the program knows them
  let tableBytes = 0;        // of all tables so far
  let round = 0;             // raised to stop what runs
  let isWhole = null;
  let batches = new Promise(resolve => { isWhole = resolve; });  // nothing is read before the whole program is there
  const verdicts = openVerdicts();

  const refuse = sentence => withTexts(module, [sentence], ([text]) => module._desk_refuse(text));

  function uniqueName(name) {
    if (!files.has(name)) return name;
    for (let n = 2; ; ++n) {
      const other = `${name} (${n})${isTable(name) ? '.csv' : ''}`;
      if (!files.has(other)) return other;
    }
  }

  const knows = (name, bytes) => withFile(module, name, bytes, (...file) => module._desk_knows_table(...file) === 1);

  // A table with other columns than ours: somebody says what they are. Rows that cannot be taken become sentences.
  async function mapped(name, bytes) {
    const {openMapping} = await import(new URL('./mapping.js', import.meta.url));
    wake();
    const {rows, problems, reason} = await openMapping({name, bytes, theme: module._desk_is_light() === 1 ? 'light' : 'dark', say: language.say});
    if (reason) refuse(reason);
    problems?.forEach(refuse);
    return rows === undefined ? null : new TextEncoder().encode(rows);
  }

  async function give(handle) {
    if (isTable(handle.name)) {
      if (tableBytes + handle.size > MOST_OF_TABLES) {
        refuse(`${handle.name}: found ${handle.size} bytes, expected at most ${MOST_OF_TABLES} in all tables; the command line takes more`);
        return;
      }
      tableBytes += handle.size;
    } else if (handle.size > LARGEST_ATTEMPT) {
      refuse(`${handle.name}: found ${handle.size} bytes, expected at most ${LARGEST_ATTEMPT}`);
      return;
    }
    let bytes;
    try {
      bytes = await handle.read();
    } catch (failure) {
      refuse(failure.name === 'ZipTrouble' ? failure.message
        : `${handle.name}: found that the file cannot be read (${failure.message})`);
      return;
    }
    const name = uniqueName(handle.name);
    if (isTable(name) && !knows(name, bytes)) {
      bytes = await mapped(name, bytes);
      if (!bytes) return;
    }
    files.set(name, handle);
    withFile(module, name, bytes, (...file) => module._desk_file(...file));
  }

  // A zip file becomes its entries, in the order of their names.
  async function opened(handle) {
    if (!isZip(handle.name)) return [handle];
    if (handle.size > LARGEST_ZIP) {
      refuse(`${handle.name}: found ${handle.size} bytes, expected at most ${LARGEST_ZIP}`);
      return [];
    }
    try {
      const {readZip} = await import(new URL('./zip.js', import.meta.url));
      const {entries, refused} = await readZip(await handle.read(), handle.name);
      refused.forEach(refuse);
      return entries.filter(entry => belongs(entry.name)).sort(byName);
    } catch (failure) {
      refuse(failure.name === 'ZipTrouble' ? failure.message
        : `${handle.name}: found that the zip file cannot be read (${failure.message})`);
      return [];
    }
  }

  async function take(given) {
    const handles = given.slice(0, MOST_FILES);
    module._desk_begin_reading(handles.length);
    if (given.length > MOST_FILES) {
      refuse(`found ${given.length} files at once, expected at most ${MOST_FILES}; the first are taken`);
    }
    let last = performance.now();
    for (const handle of handles) {
      for (const one of await opened(handle)) {
        await give(one);
        if (performance.now() - last > 30) {
          wake();
          await pause();
          last = performance.now();
        }
      }
    }
    module._desk_end_reading();
    wake();
  }

  const takeSoon = gather => {
    batches = batches.then(async () => take(await gather)).catch(failure => {
      refuse(`found that the files cannot be read (${failure.message})`);
      module._desk_end_reading();
      wake();
    });
  };

  // --- Dropped files and folders ---
  const entriesOf = folder => new Promise((resolve, reject) => {
    const reader = folder.createReader();
    const all = [];
    const more = () => reader.readEntries(some => {
      if (some.length === 0) return resolve(all);
      all.push(...some);
      more();
    }, reject);
    more();
  });

  async function walk(folder, prefix, found) {
    for (const entry of await entriesOf(folder)) {
      const name = prefix + entry.name;
      if (entry.isDirectory) await walk(entry, `${name}/`, found);
      else if (belongs(name)) {
        const file = await new Promise((resolve, reject) => entry.file(resolve, reject));
        found.push(handleOf(name, file));
      }
    }
    return found;
  }

  function onDrop(transfer) {
    // The list is only valid now; what it names may be read later.
    const items = [...(transfer?.items ?? [])].filter(item => item.kind === 'file')
      .map(item => ({entry: item.webkitGetAsEntry?.(), file: item.getAsFile()}));
    if (items.length === 0) return;
    takeSoon((async () => {
      const all = [];
      for (const {entry, file} of items) {
        if (entry?.isDirectory) all.push(...(await walk(entry, '', [])).sort(byName));
        else if (file) all.push(handleOf(file.name, file));
      }
      return all;
    })());
  }

  const chooser = isFolder => {
    const input = document.createElement('input');
    input.type = 'file';
    input.multiple = true;
    if (isFolder) input.webkitdirectory = true;
    else input.accept = '.json,.csv,.zip,.txt';
    input.addEventListener('change', () => {
      const chosen = [...input.files].map(file =>
        handleOf(isFolder ? file.webkitRelativePath.split('/').slice(1).join('/') : file.name, file));
      const all = isFolder ? chosen.filter(file => belongs(file.name)).sort(byName) : chosen;
      input.value = '';
      if (all.length > 0 || isFolder) takeSoon(all);
    });
    return input;
  };
  const choosers = [chooser(false), chooser(true)];

  // --- Repeating ---
  async function check(wanted) {
    const mine = ++round;
    let worker = null;
    let inPage = null;  // the worker's program, in the page
    for (const {file, sha256} of wanted) {
      const key = `${module._desk_engine()}:${sha256}`;
      let verdict = await verdicts.get(key);
      if (!verdict) {
        try {
          const bytes = await files.get(file).read();
          if (mine !== round) break;
          if (inPage) {
            verdict = await checkInPortions(inPage, file, bytes, STEPS_IN_PAGE, pause);
          } else {
            worker ??= makeWorker();
            running = worker;
            verdict = await worker.check(file, bytes);
          }
        } catch (failure) {
          if (mine !== round) break;
          if (!inPage && worker) {
            const {default: createCheck} = await import(new URL('./check.mjs', import.meta.url));
            inPage = await createCheck();
            verdict = await checkInPortions(inPage, file, await files.get(file).read(), STEPS_IN_PAGE, pause);
          } else {
            verdict = {equal: false, reasons: [`found that the file cannot be read any more (${failure.message})`]};
          }
        }
        if (mine !== round) break;
        verdicts.put(key, verdict);
      }
      if (mine !== round) break;
      withTexts(module, [sha256, verdict.reasons.join('\n')], ([digest, reasons]) =>
        module._desk_verdict(digest, verdict.equal ? 1 : 0, reasons));
      wake();
    }
    worker?.end();
  }
  let running = null;
  const stop = () => {
    round += 1;
    running?.end();
    running = null;
  };

  // --- Dialogs, loaded on first use; and a turn-in code that is pasted anywhere in the page ---
  let pasted = 0;
  const takeCode = text => takeSoon([handleOf(`pasted-${++pasted}.turn-in.txt`, new Blob([text]))]);
  const dialogs = {
    experiment: async ({theme, experiment, learners}) => {
      const {openExperiment} = await import(new URL('./experiment.js', import.meta.url));
      await openExperiment({theme, say: language.say, text: experiment, codes: learners.map(learner => learner.code), use: text => {
        const trouble = withTexts(module, [text], ([plan]) => module.UTF8ToString(module._desk_experiment(plan)));
        wake();
        return trouble;
      }});
    },
    paste: async ({theme}) => {
      const {openPaste} = await import(new URL('./class_dialogs.js', import.meta.url));
      openPaste({theme, say: language.say, take: takeCode});
    },
    photo: async ({theme}) => {
      const {openPhoto} = await import(new URL('./photo.js', import.meta.url));
      await openPhoto({theme, say: language.say, take: (name, text) => takeSoon([handleOf(name, new Blob([text]))])});
    },
    replay: async ({theme, attempts}) => {
      const {openReplay} = await import(new URL('./replay.js', import.meta.url));
      await openReplay({theme, say: language.say, attempts, read: file => files.get(file).read()});
    },
    record: async ({theme, learners}) => {
      const {openClassRecord} = await import(new URL('./class_dialogs.js', import.meta.url));
      openClassRecord({theme, say: language.say, learners});
    },
  };
  addEventListener('paste', event => {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!text.includes('DRIFTBENCH-') || document.querySelector('dialog[open]')) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    takeCode(text);
  }, true);

  return {
    host: {
      classroom: {
        dialog: (name, about) => dialogs[name](about).catch(failure => {
          refuse(`The dialog could not be opened (${failure.message}).`);
          wake();
        }),
        pick: isFolder => choosers[isFolder ? 1 : 0].click(),
        check: wanted => { stop(); check(wanted); },
        stop,
        forget: () => {
          files = new Map();
          tableBytes = 0;
        },
      },
    },
    onDrop,
    attach: program => { module = program; },
    whole: () => isWhole(),
  };
}
