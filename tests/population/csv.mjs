// Reads a table of comma-separated values as `holes.csv` is written: header, quotes only where needed.

function cells_of(line) {
  const cells = [];
  for (const [, quoted, plain] of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)) {
    cells.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
  }
  return cells;
}

/// Rows as objects by column name; a cell that is a number becomes one, an empty cell null.
export function read_csv(text) {
  const [header, ...lines] = text.split(/\r?\n/).filter((line) => line !== '');
  const names = cells_of(header);
  return lines.map((line) => {
    const cells = cells_of(line);
    return Object.fromEntries(names.map((name, i) => {
      const cell = cells[i] ?? '';
      return [name, cell === '' ? null : /^[-+]?[\d.]+(e[-+]?\d+)?$/i.test(cell) ? Number(cell) : cell];
    }));
  });
}
