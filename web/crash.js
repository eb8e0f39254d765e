// After a crash: which attempt was running, and a report to hand on. It reads the browser's storage by itself, for the
// program that did so has stopped.
import {saveFile} from './files.js';
import {tableIn} from './phrases.js';
import {result} from './storage.js';

const WORDS = {
  running: 'The attempt that was running, {}, is kept up to {} s. Reload the page, then choose Resume on the shelf.',
  save: 'Save a report',
  inside: 'The report says what happened and with which browser, and holds the running attempt: its set-up and every movement. No name, no code name, no address of this computer is in it. Nothing is sent: give it to who looks after Driftbench here.',
  saved: 'Saved: driftbench-report.json.',
};

// Rows of the journal: step, op, and room for the most arguments; in a record an op has its own number of them
// (argument_count() in src/record/trace.cpp), ops counted from 1.
const ROW = 7;
const ARGUMENTS = [5, 1, 1, 1, 2, 1, 3, 1, 1, 0, 0, 1, 0, 1, 1];

// {title, step, attempt: its record so far} or null.
async function runningAttempt(id) {
  if (!id) return null;
  try {
    const database = await result(indexedDB.open('driftbench'));
    const transaction = database.transaction(['journals', 'pieces']);
    const [journal, pieces] = await Promise.all([
      result(transaction.objectStore('journals').get(id)),
      result(transaction.objectStore('pieces').getAll(IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER])))]);
    database.close();
    if (!journal) return null;
    const integers = pieces.flatMap(({rows}) => [...rows]);
    const trace = [];
    for (let at = 0; at + ROW <= integers.length; at += ROW) trace.push(integers.slice(at, at + 2 + (ARGUMENTS[integers[at + 1] - 1] ?? 0)));
    return {title: journal.title, step: journal.step, attempt: {...JSON.parse(journal.head), operator: '', end_step: journal.step, trace}};
  } catch {
    return null;
  }
}

// Which build this is; empty when the site does not say.
async function buildOf() {
  try {
    const answer = await fetch('site_files.js', {credentials: 'same-origin'});
    return (await answer.text()).match(/build:"(\w+)"|"build":"(\w+)"/)?.slice(1).find(Boolean) ?? '';
  } catch {
    return '';
  }
}

/** Where the page lies says where it is served or which folder it is in: only names of files stay. */
export const withoutAddresses = (text, address) => text.replaceAll(new URL('.', address).href, '').replaceAll(new URL('/', address).href, '');

/** box: element of the crash page; what: text of the failure; running: id of the attempt, if any. */
export async function explain({box, what, running, say}) {
  const words = tableIn(say, WORDS);
  const add = (tag, text, before) => {
    const node = document.createElement(tag);
    node.textContent = text;
    box.insertBefore(node, before);
    return node;
  };
  const reload = box.querySelector('button');
  const found = await runningAttempt(running);
  if (found) {
    const seconds = (found.step / 1000).toFixed(1);
    add('p', words.running.replace('{}', found.title).replace('{}', say(seconds)), reload);
  }
  const button = add('button', words.save, reload.nextSibling);
  button.className = 'second';
  const inside = add('p', words.inside, button.nextSibling);
  button.addEventListener('click', async () => {
    const {devicePixelRatio: ratio, innerWidth, innerHeight} = window;
    const report = {
      format: 'driftbench-report', version: 1, build: await buildOf(), page: location.pathname.split('/').pop() || 'index.html',
      what: withoutAddresses(what, location.href), browser: navigator.userAgent, languages: navigator.languages,
      window: {width: innerWidth, height: innerHeight, ratio}, attempt: found?.attempt ?? null,
    };
    saveFile('driftbench-report.json', `${JSON.stringify(report, null, 1)}\n`, 'application/json');
    inside.textContent = words.saved;
    inside.setAttribute('role', 'status');
  });
}
