// Zip files for tests, also such as no honest program writes.
import { crc32 as nodeCrc, deflateRawSync } from 'node:zlib';

function crc32(bytes) {
  if (nodeCrc) return nodeCrc(bytes);
  let value = 0xffffffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let bit = 0; bit < 8; ++bit) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
}

/**
 * A zip file of `entries`: {name, data} and, to lie, {size, crc, flags, method, offset} as the list of files tells them.
 */
export function makeZip(entries) {
  const parts = [];
  const list = [];
  let at = 0;
  for (const entry of entries) {
    const name = Buffer.from(entry.name, 'utf8');
    const data = Buffer.from(entry.data);
    const packed = deflateRawSync(data);
    const local = Buffer.alloc(30);
    local.writeUInt32LE(0x04034b50, 0);
    local.writeUInt16LE(8, 8);
    local.writeUInt16LE(name.length, 26);
    const told = Buffer.alloc(46);
    told.writeUInt32LE(0x02014b50, 0);
    told.writeUInt16LE(entry.flags ?? 0x0800, 8);
    told.writeUInt16LE(entry.method ?? 8, 10);
    told.writeUInt32LE(entry.crc ?? crc32(data), 16);
    told.writeUInt32LE(packed.length, 20);
    told.writeUInt32LE(entry.size ?? data.length, 24);
    told.writeUInt16LE(name.length, 28);
    told.writeUInt32LE(entry.offset ?? at, 42);
    list.push(told, name);
    parts.push(local, name, packed);
    at += 30 + name.length + packed.length;
  }
  const central = Buffer.concat(list);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(central.length, 12);
  end.writeUInt32LE(at, 16);
  return Buffer.concat([...parts, central, end]);
}
