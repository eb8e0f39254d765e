// One draft while it is open: its states, what is chosen, what the core says about it, and its keeping. No page.
import {makeHistory} from './history.js';
import {blocksOf, shippedId} from './project.js';
import {readProject} from './reading.js';
import {say} from './words.js';

const kRead_ms = 150;
const kKeep_ms = 300;

export const kNowhere = {item: -1, block: -1};

/** The nearest node that a project has: {item, block}, item -1 the set, block -1 a lesson. */
export function nodeWithin({set, items}, {item, block}) {
  const at = Math.min(item, items.length - 1);
  if (at < 0) return set || items.length === 0 ? kNowhere : {item: 0, block: -1};
  return {item: at, block: at === item ? Math.min(block, blocksOf(items[at].lesson).length - 1) : -1};
}

/**
 * known: what comes with the app; keep(draft): keeps it, false where there is no room; read(files): the core's answers;
 * onChange(why): "project", "read", "chosen" or "kept"; onFailure(sentence).
 */
export function makeDraft({id, first, selection = kNowhere, known, keep, read, onChange, onFailure}) {
  const history = makeHistory(first);
  let chosen = nodeWithin(first, selection);
  let verdict = {files: [], problems: [], of: null};
  let second = '';
  let isKept = true;
  const project = () => history.now();

  // --- Words for what is there ---
  const titleIn = text => (text !== null && typeof text === 'object' ? text.en : '') || say('untitled');
  const shipped = item => known.lessons.find(lesson => lesson.id === shippedId(item)) ?? null;
  const lessonOf = item => item?.lesson ?? shipped(item ?? {entry: {}});
  const itemTitle = i => {
    const item = project().items[i];
    return lessonOf(item) ? titleIn(lessonOf(item).title) : shippedId(item) || say('untitled');
  };
  const blockTitle = (i, j) => titleIn(blocksOf(project().items[i].lesson)[j]?.title);
  const setTitle = () => (project().set ? titleIn(project().set.title) : say('lessonsAlone'));
  const titleOf = ({item, block}) => (item < 0 ? setTitle() : block < 0 ? itemTitle(item) : blockTitle(item, block));
  const title = () => (project().set || project().items.length === 0 ? setTitle() : itemTitle(0));

  // --- Reading: a moment after the last change; an answer about an older state is dropped ---
  let reading = 0;
  let asked = 0;
  async function readNow() {
    const mine = ++asked;
    const what = project();
    try {
      const answer = await readProject(read, what, known.digests);
      if (mine !== asked) return;
      verdict = {...answer, of: what};
      onChange('read');
    } catch (failure) {
      onFailure(failure.message);
    }
  }

  // --- Keeping ---
  let keeping = 0;
  const keepNow = () => {
    clearTimeout(keeping);
    isKept = keep({id, title: title(), project: project(), selection: chosen});
    onChange('kept');
  };
  const keepSoon = () => {
    clearTimeout(keeping);
    keeping = setTimeout(keepNow, kKeep_ms);
  };

  function changed(isToKeep = true) {
    chosen = nodeWithin(project(), chosen);
    onChange('project');
    clearTimeout(reading);
    reading = setTimeout(readNow, kRead_ms);
    if (isToKeep) keepSoon();
  }

  return {
    id, project, titleIn, shipped, lessonOf, setTitle, titleOf, title, keepNow,
    get known() { return known; },
    chosen: () => chosen,
    verdict: () => verdict,
    isRead: () => verdict.of === project(),
    isKept: () => isKept,
    second: () => second,
    // That a new set has no lesson yet is the next step, not a mistake.
    errors: () => verdict.problems.filter(({isError, form, path}) => isError && !(form === 'set' && path[0] === 'lessons' && project().items.length === 0)),
    canUndo: history.canUndo,
    canRedo: history.canRedo,
    begin: () => changed(),
    /** More kits and pieces of jaw have been opened. */
    learn(more) { known = more; },
    /** Another state; `field` names what was edited, so that typing is one step; `node` is chosen then. */
    push(next, {field = '', node = chosen} = {}) {
      history.push(next, field);
      chosen = node;
      changed();
    },
    /** A state that another tab has kept. */
    take(next) {
      history.push(next);
      changed(false);
    },
    undo: () => { history.undo(); changed(); },
    redo: () => { history.redo(); changed(); },
    choose(node) {
      chosen = nodeWithin(project(), node);
      onChange('chosen');
      keepSoon();
    },
    chooseSecond(code) {
      second = code;
      onChange('chosen');
    },
    end() {
      clearTimeout(reading);
      asked += 1;
      keepNow();
    },
  };
}
