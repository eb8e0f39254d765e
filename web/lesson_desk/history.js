// Undo and redo: states one after another. Pure.

export const kMostStates = 300;

/** `stamp` gives milliseconds; changes of one field that follow one another soon are one step. */
export function makeHistory(first, {stamp = Date.now, together_ms = 1200} = {}) {
  let states = [first];
  let at = 0;
  let last = {field: '', time: -Infinity};
  return {
    now: () => states[at],
    /** Takes a new state; `field` names what was edited, '' a step of its own. */
    push(state, field = '') {
      const time = stamp();
      const isSame = field !== '' && field === last.field && time - last.time < together_ms && at > 0;
      states = [...states.slice(0, isSame ? at : at + 1), state].slice(-kMostStates);
      at = states.length - 1;
      last = {field, time};
    },
    undo() {
      last = {field: '', time: -Infinity};
      if (at > 0) at -= 1;
      return states[at];
    },
    redo() {
      last = {field: '', time: -Infinity};
      if (at < states.length - 1) at += 1;
      return states[at];
    },
    canUndo: () => at > 0,
    canRedo: () => at < states.length - 1,
  };
}
