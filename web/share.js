// Lessons and sets in a link: packed into the part of the address behind #, which no server ever sees.
// Pure: the same in the page and under node.

export const kMark = '#open=';
export const kLongest = 16000;               // characters of the part behind #; mail and chat programs cut longer links
export const kMostBytes = 2 * 1024 * 1024;   // unpacked
const MOST_FILES = 60;
const FORMAT = 'driftbench-share';
const NAME = /^[a-z0-9-]{1,64}\.(lesson|set|kit|specimen)\.json$/;

export class ShareTrouble extends Error {
  name = 'ShareTrouble';
}

async function through(bytes, transform, most) {
  const reader = new Blob([bytes]).stream().pipeThrough(transform).getReader();
  const parts = [];
  let size = 0;
  for (;;) {
    const {done, value} = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      reader.cancel().catch(() => {});
      throw new ShareTrouble(`The link holds more than ${most} bytes, which is more than any set of lessons needs.`);
    }
    parts.push(value);
  }
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}

function toWord(bytes) {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

function fromWord(word) {
  try {
    return Uint8Array.from(atob(word.replace(/-/g, '+').replace(/_/g, '/')), character => character.charCodeAt(0));
  } catch {
    throw new ShareTrouble('The link is damaged: it holds characters that do not belong there.');
  }
}

/** The part of an address behind #, mark included: {set or lesson: id to open, files: [{name, text}]}. */
export async function pack({set, lesson, files}) {
  const content = JSON.stringify({format: FORMAT, version: 1, set, lesson, files: files.map(({name, text}) => ({name, text}))});
  return kMark + toWord(await through(new TextEncoder().encode(content), new CompressionStream('deflate'), kMostBytes));
}

/** What pack() took; a ShareTrouble says in a sentence why it cannot be read. */
export async function unpack(hash) {
  if (!hash.startsWith(kMark)) throw new ShareTrouble('The link carries no lessons.');
  let content;
  try {
    const bytes = await through(fromWord(hash.slice(kMark.length)), new DecompressionStream('deflate'), kMostBytes);
    content = JSON.parse(new TextDecoder('utf-8', {fatal: true}).decode(bytes));
  } catch (failure) {
    if (failure instanceof ShareTrouble) throw failure;
    throw new ShareTrouble('The link is damaged or was cut off on its way. Ask for it once more, or for the files.');
  }
  if (content?.format !== FORMAT) throw new ShareTrouble('The link carries something else than lessons.');
  if (content.version !== 1) throw new ShareTrouble(`The link is of version ${content.version}; this page reads version 1.`);
  const {files, set, lesson} = content;
  const isFile = file => typeof file?.text === 'string' && NAME.test(file?.name ?? '');
  if (!Array.isArray(files) || files.length > MOST_FILES || !files.every(isFile)) {
    throw new ShareTrouble('The link does not hold lessons, sets, kits and pieces of jaw as it should.');
  }
  const word = value => (typeof value === 'string' && /^[a-z0-9-]{1,64}$/.test(value) ? value : undefined);
  return {files, set: word(set), lesson: word(lesson)};
}

/** Title of a file for people; its name where it has none. */
export function titleOf({name, text}, language = 'en') {
  try {
    const {title} = JSON.parse(text);
    return String(title[language] ?? title.en ?? name).slice(0, 200);
  } catch {
    return name;
  }
}
