// Files that were chosen or dropped, zip files too: read by the core, and sorted into what can be edited.
import {inOrder} from '../files.js';
import {say} from './words.js';

const LARGEST = 1024 * 1024;

async function textsOf(file) {
  if (/\.zip$/i.test(file.name)) {
    const {readZip} = await import(new URL('../zip.js', import.meta.url));
    const {entries} = await readZip(new Uint8Array(await file.arrayBuffer()), file.name);
    return Promise.all(entries.filter(({name, size}) => name.endsWith('.json') && size <= LARGEST)
      .map(async ({name, read}) => ({name: name.replace(/.*\//, ''), text: new TextDecoder().decode(await read())})));
  }
  return [{name: file.name, text: await file.text()}];
}

/**
 * {files: [{name, text, value}], notes: sentences}. A file that is JSON and says that it is one of ours is opened even
 * when something in it is wrong: that is what the desk mends.
 */
export async function openAll(list, read) {
  const files = [];
  const notes = [];
  for (const file of list) {
    try {
      files.push(...await textsOf(file));
    } catch (failure) {
      notes.push(say('openRefused', file.name, failure.message));
    }
  }
  const sorted = inOrder(files);
  const answers = await read(sorted);
  const good = [];
  sorted.forEach((file, i) => {
    const {kind, text, problems} = answers[i];
    const sentence = ({line, column, path, found, expected}) =>
      `${line ? `${line}:${column}: ` : ''}${path ? `${path}: ` : ''}${say('found', found, expected)}`;
    let value = null;
    try {
      value = JSON.parse(text ?? file.text);
    } catch { /* the core has said what is wrong */ }
    const isEditable = (kind === 'lesson' || kind === 'set') && value?.version === 1;
    if (!value || (!isEditable && !text)) {
      notes.push(say('openRefused', file.name, problems[0] ? sentence(problems[0]) : say('openNothing')));
      return;
    }
    const warning = problems.find(({is_error: isError}) => !isError);
    if (warning && text) notes.push(say('openWarned', file.name, sentence(warning)));
    good.push({name: file.name, text: text ?? file.text, value});
  });
  if (good.length === 0 && notes.length === 0) notes.push(say('openNothing'));
  return {files: good, notes};
}
