// A few rows as text and back, for mappings that the page keeps; tables of holes are read by the program.

const quoted = cell => (/[",\r\n]/.test(cell) ? `"${cell.replace(/"/g, '""')}"` : cell);

export const csvText = rows => rows.map(row => `${row.map(quoted).join(',')}\r\n`).join('');

/** Rows of well-formed text. */
export function csvRows(text) {
  const rows = [];
  let row = [];
  for (const [, inQuotes, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/g)) {
    if (end === '' && row.length === 0 && !inQuotes && !plain) break;
    row.push(inQuotes !== undefined ? inQuotes.replace(/""/g, '"') : plain);
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}
