// Some texts as one zip file, stored as they are. Pure.

import {crc32} from './crc32.js';

const kVersion = 20;
const kUtf8Names = 0x0800;
const kFirstDay = 0x21;  // 1 January 1980: the same files give the same bytes

/** Bytes of numbers, each [value, size in bytes], low byte first. */
const numbers = pairs => pairs.flatMap(([value, size]) => Array.from({length: size}, (_, i) => (value >>> (8 * i)) & 255));

/** The bytes of a zip file with `files`, [{name, text}]. Source: PKWARE, .ZIP File Format Specification, 4.3 */
export function zipOf(files) {
  const encoder = new TextEncoder();
  const pieces = [];
  const list = [];
  let offset = 0;
  for (const {name, text} of files) {
    const title = encoder.encode(name);
    const bytes = encoder.encode(text);
    const about = [[kVersion, 2], [kUtf8Names, 2], [0, 2], [0, 2], [kFirstDay, 2], [crc32(bytes), 4], [bytes.length, 4],
      [bytes.length, 4], [title.length, 2], [0, 2]];
    list.push([...numbers([[0x02014b50, 4], [kVersion, 2], ...about, [0, 2], [0, 2], [0, 2], [0, 4], [offset, 4]]), ...title]);
    const head = Uint8Array.from([...numbers([[0x04034b50, 4], ...about]), ...title]);
    pieces.push(head, bytes);
    offset += head.length + bytes.length;
  }
  const central = Uint8Array.from(list.flat());
  const end = numbers([[0x06054b50, 4], [0, 2], [0, 2], [files.length, 2], [files.length, 2], [central.length, 4], [offset, 4], [0, 2]]);
  const whole = [...pieces, central, Uint8Array.from(end)];
  const out = new Uint8Array(whole.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of whole) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
}
