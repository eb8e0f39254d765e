// The desk's questions to its worker, and what the answers say about the fields of a project.
import {filesOf, pathOf, setFileOf, shippedId} from './project.js';

/** {files(): what comes with the app, read(files): what each text is and what is wrong with it}. */
export function connectReader() {
  const worker = new Worker(new URL('./worker.js', import.meta.url), {type: 'module'});
  const waiting = new Map();
  let count = 0;
  worker.onmessage = ({data: {ask, answer, failure}}) => {
    const {resolve, reject} = waiting.get(ask);
    waiting.delete(ask);
    if (failure) reject(new Error(failure));
    else resolve(answer);
  };
  worker.onerror = event => {
    for (const {reject} of waiting.values()) reject(new Error(event.message || 'the worker did not start'));
    waiting.clear();
  };
  const ask = files => new Promise((resolve, reject) => {
    waiting.set(++count, {resolve, reject});
    worker.postMessage({ask: count, files});
  });
  return {files: () => ask(), read: ask};
}

/**
 * Reads a whole project; `shipped`: id -> digest of lessons that come with the app. Gives {files: [{at, name, text (as it will be saved, or null), id, sha256}], problems}. A problem is
 * {at (item, -1 the set, -2 another file), path, found, expected, isError}; one of a set's entry lies at its item.
 */
export async function readProject(read, project, shipped) {
  const files = filesOf(project);
  const needsDigests = project.items.some(({entry}) => entry.sha256 !== undefined);
  const answers = needsDigests || !project.set ? await read(files) : [];
  const digests = Object.fromEntries([...project.items.map((item, at) => [at, shipped[shippedId(item)]]), ...answers.map(({sha256}, i) => [files[i].at, sha256])]);
  // A digest is that of the file as it will be saved.
  answers.forEach(({text}, i) => { files[i].text = text ?? files[i].text; });
  const set = setFileOf(project, digests);
  // The set is read last and among all the others, which it names.
  const all = set ? [...files, set] : files;
  const every = set ? await read(all) : answers;
  // A lesson that cannot be read is not known to the set: its own findings say why.
  const isUnread = at => all.some((file, i) => file.at === at && !every[i].text);
  const problems = every.flatMap(({problems: found}, i) => found.map(problem => placed(all[i], problem)))
    .filter(({form, at, path}) => !(form === 'entry' && path.length === 0 && isUnread(at)));
  return {files: all.map((file, i) => ({...file, text: every[i].text, id: every[i].id, sha256: every[i].sha256})), problems};
}

function placed({at, name}, {path, found, expected, is_error: isError}) {
  const steps = pathOf(path);
  const isEntry = at === -1 && steps[0] === 'lessons' && typeof steps[1] === 'number';
  return isEntry ? {at: steps[1], form: 'entry', path: steps.slice(2), found, expected, isError, name}
    : {at, form: at === -1 ? 'set' : 'lesson', path: steps, found, expected, isError, name};
}

/** Key of the place where a problem is shown: "lesson 2 blocks[0].plan". */
export const placeKey = (form, at, words) => `${form} ${at} ${words}`;
