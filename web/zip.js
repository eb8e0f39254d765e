// Entries of a zip file, with strict limits; what is odd is refused with a sentence. Nothing is ever written to disk.
import {crc32} from './crc32.js';

const MOST_ENTRIES = 20000;
const LARGEST_ENTRY = 32 * 1024 * 1024;
const LARGEST_SUM = 512 * 1024 * 1024;
const MOST_GROWTH = 200;            // deflate itself ends near 1030; records of attempts stay below 20
const SMALL_ENTRY = 1024 * 1024;    // below it growth does not matter

const END_MARK = 0x06054b50;
const CENTRAL_MARK = 0x02014b50;
const LOCAL_MARK = 0x04034b50;
const STORED = 0;
const DEFLATED = 8;

export class ZipTrouble extends Error {
  name = 'ZipTrouble';
}

// The end record: the last place where it fits the length of its comment.
function findEnd(view, zip) {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 65535); --at) {
    if (view.getUint32(at, true) === END_MARK && view.getUint16(at + 20, true) === view.byteLength - at - 22) return at;
  }
  throw new ZipTrouble(`${zip}: found no end of a zip file, expected a whole one`);
}

// Why a path is refused, or nothing.
function pathTrouble(name) {
  if (name === '' || /[\u0000-\u001f\\]/.test(name)) return 'a control character or a backslash';
  if (name.startsWith('/') || /^[A-Za-z]:/.test(name)) return 'a path from the root';
  if (name.split('/').includes('..')) return 'a path that leads out of the folder';
  return '';
}

async function inflate(packed, size, label) {
  const out = new Uint8Array(size);
  let filled = 0;
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  for (;;) {
    let part;
    try {
      part = await reader.read();
    } catch {
      throw new ZipTrouble(`${label}: found damaged data, expected what the zip file promises`);
    }
    if (part.done) break;
    if (filled + part.value.length > size) {
      reader.cancel().catch(() => {});
      throw new ZipTrouble(`${label}: found more than the ${size} bytes that the zip file promises`);
    }
    out.set(part.value, filled);
    filled += part.value.length;
  }
  if (filled !== size) throw new ZipTrouble(`${label}: found ${filled} bytes, expected the ${size} that the zip file promises`);
  return out;
}

function readEntry(bytes, view, entry, zip) {
  const label = `${zip}: ${entry.name}`;
  return async () => {
    const at = entry.offset;
    if (view.getUint32(at, true) !== LOCAL_MARK) throw new ZipTrouble(`${label}: found no entry where the zip file promises one`);
    const start = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
    if (start + entry.packed > entry.limit) throw new ZipTrouble(`${label}: found entries that lie over one another`);
    const packed = bytes.subarray(start, start + entry.packed);
    const content = entry.method === STORED ? packed.slice() : await inflate(packed, entry.size, label);
    if (crc32(content) !== entry.crc) throw new ZipTrouble(`${label}: found damaged data, expected the check sum of the zip file`);
    return content;
  };
}

/** {entries: [{name, size, read()}], refused: [sentence]} of a zip file; throws ZipTrouble for one that is refused whole. */
export async function readZip(bytes, zip) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length < 22 ? -1 : findEnd(view, zip);
  if (end < 0) throw new ZipTrouble(`${zip}: found ${bytes.length} bytes, expected a zip file`);
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  if (count === 0xffff || at === 0xffffffff || view.getUint16(end + 4, true) !== 0) {
    throw new ZipTrouble(`${zip}: found a zip file of another kind (split, or for more than 65,534 files), expected a plain one`);
  }
  if (count > MOST_ENTRIES) throw new ZipTrouble(`${zip}: found ${count} files, expected at most ${MOST_ENTRIES}`);
  const all = [];
  const refused = [];
  let sum = 0;
  const decoder = new TextDecoder('utf-8');
  for (let i = 0; i < count; ++i) {
    if (at + 46 > end || view.getUint32(at, true) !== CENTRAL_MARK) throw new ZipTrouble(`${zip}: found a damaged list of files`);
    const nameSize = view.getUint16(at + 28, true);
    const next = at + 46 + nameSize + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) throw new ZipTrouble(`${zip}: found a damaged list of files`);
    const entry = {
      name: decoder.decode(bytes.subarray(at + 46, at + 46 + nameSize)),
      flags: view.getUint16(at + 8, true),
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    };
    at = next;
    if (entry.offset + 30 > end || entry.packed > end) throw new ZipTrouble(`${zip}: found a damaged list of files`);
    all.push(entry);
  }
  // Where the next entry begins, this one must have ended: entries may not share bytes.
  const byOffset = [...all].sort((a, b) => a.offset - b.offset);
  byOffset.forEach((entry, i) => { entry.limit = i + 1 < byOffset.length ? byOffset[i + 1].offset : end; });

  const entries = [];
  for (const entry of all) {
    if (entry.name.endsWith('/')) continue;
    const label = `${zip}: ${entry.name.replace(/[\u0000-\u001f]/g, ' ')}`;
    const trouble = pathTrouble(entry.name);
    if (trouble) refused.push(`${label}: found ${trouble}, expected a name inside the zip file`);
    else if (entry.flags & 1) refused.push(`${label}: found an entry with a password, expected one without`);
    else if (entry.method !== STORED && entry.method !== DEFLATED) refused.push(`${label}: found packing method ${entry.method}, expected 0 or 8`);
    else if (entry.method === STORED && entry.size !== entry.packed) refused.push(`${label}: found two sizes that differ`);
    else if (entry.size > LARGEST_ENTRY) refused.push(`${label}: found ${entry.size} bytes, expected at most ${LARGEST_ENTRY}`);
    else if (entry.size > SMALL_ENTRY && entry.size > MOST_GROWTH * entry.packed) {
      refused.push(`${label}: found data that grow ${Math.round(entry.size / Math.max(1, entry.packed))} times, expected at most ${MOST_GROWTH} times`);
    } else if (sum + entry.size > LARGEST_SUM) refused.push(`${label}: found more than ${LARGEST_SUM} bytes in all`);
    else {
      sum += entry.size;
      entries.push({name: entry.name, size: entry.size, read: readEntry(bytes, view, entry, zip)});
    }
  }
  return {entries, refused};
}
