// The check sum of zip files. Source: PKWARE, .ZIP File Format Specification, 4.4.7. Pure.

const TABLE = Uint32Array.from({length: 256}, (_, n) => {
  let value = n;
  for (let bit = 0; bit < 8; ++bit) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value >>> 0;
});

export function crc32(bytes) {
  let value = 0xffffffff;
  for (const byte of bytes) value = TABLE[(value ^ byte) & 255] ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
