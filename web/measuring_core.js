// The program behind the forms for real blocks (src/desk/measuring.cpp), loaded on first use; it computes, the forms show.
import createMeasuring from './measuring.mjs';
import {withFile, withTexts} from './texts.js';

let starting = null;

/** The program, started once: {open(name, bytes), map(mapping), rows(), measure(request)}. */
export function measuringCore() {
  starting ??= createMeasuring().then(module => {
    const text = address => module.UTF8ToString(address);
    return {
      open: (name, bytes) => withFile(module, name, bytes, (...file) => JSON.parse(text(module._table_open(...file)))),
      map: mapping => withTexts(module, [mapping], ([table]) => JSON.parse(text(module._table_map(table)))),
      rows: () => text(module._table_rows()),
      measure: request => withTexts(module, [JSON.stringify(request)], ([asked]) => JSON.parse(text(module._hole_measure(asked)))),
    };
  });
  return starting;
}
