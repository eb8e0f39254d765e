// Drafts in the browser's storage: an index, and a project each. The storage is a parameter, so that tests bring their own.

const INDEX = 'driftbench-desk';
const KEY = 'driftbench-desk-';

export function makeDrafts(storage) {
  const parse = (key, fallback) => {
    try {
      return JSON.parse(storage.getItem(key)) ?? fallback;
    } catch {
      return fallback;
    }
  };
  const index = () => parse(INDEX, []).filter(entry => typeof entry?.id === 'string');
  return {
    /** [{id, title, count, edited}], the last edited first. */
    list: () => index().sort((a, b) => b.edited - a.edited),
    /** {project, selection} or null. */
    load: id => {
      const draft = parse(KEY + id, null);
      return Array.isArray(draft?.project?.items) ? draft : null;
    },
    /** Gives false when there is no room. */
    keep(id, {title, project, selection}, time) {
      try {
        storage.setItem(KEY + id, JSON.stringify({project, selection}));
        storage.setItem(INDEX, JSON.stringify([...index().filter(entry => entry.id !== id), {id, title, count: project.items.length, edited: time}]));
        return true;
      } catch {
        return false;
      }
    },
    remove(id) {
      try {
        storage.removeItem(KEY + id);
        storage.setItem(INDEX, JSON.stringify(index().filter(entry => entry.id !== id)));
      } catch { /* there was nothing to remove */ }
    },
    keyOf: id => KEY + id,
  };
}
