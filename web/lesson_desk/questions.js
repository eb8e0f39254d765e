// What the parts of the page ask about a draft: the form to show, the list of what is to mend, the next step, what to try
// and what to share. No page.
import {beginningOf} from './beginnings.js';
import {formOf, namesFor} from './layout.js';
import {blocksOf, editLesson, editEntry, editSet, untranslated, valueAt, wordsOf} from './project.js';
import {placeKey} from './reading.js';
import {smallest} from './schema.js';
import {hasWord, say, told} from './words.js';

const kMostShown = 8;

/** Where a problem lies in the outline. */
export const nodeOf = ({at, form, path}) =>
  (at === -2 ? {item: -1, block: -1} : {item: at, block: form === 'lesson' && path[0] === 'blocks' && typeof path[1] === 'number' ? path[1] : -1});
export const keyOf = ({form, at, path}) => placeKey(form, at, wordsOf(path));
export const sentenceOf = problem => `${problem.at === -2 ? `${problem.name}: ` : ''}${say('found', told(problem.found), told(problem.expected))}`;

/** The name of the field where a problem lies, as the form has it; its path where it has none. */
function nameOfPlace({form, path}) {
  const inBlock = form === 'lesson' && path[0] === 'blocks' && path.length > 1;
  const steps = (inBlock ? path.slice(2) : path).filter(step => typeof step !== 'number');
  for (let count = steps.length; count > 0; --count) {
    const key = `field.${inBlock ? 'block' : form}.${steps.slice(0, count).join('.')}`;
    if (hasWord(key)) return say(key);
  }
  return steps.join('.');
}

/** The groups of fields of what is chosen; a field reads its value, and knows what it begins with. */
export function formGroups(draft, showAll) {
  const {set, items} = draft.project();
  const {lesson: lessonSchema, set: setSchema} = draft.known.schemas;
  const {item: at, block} = draft.chosen();
  const item = items[at];
  const isAsked = (form, place, words) => draft.verdict().problems.some(problem => problem.form === form && problem.at === place && wordsOf(problem.path) === words);
  const common = {names: namesFor(draft.lessonOf(item), draft.known, draft.titleIn), showAll, isAsked};
  const rootOf = {set: () => draft.project().set, entry: () => draft.project().items[at]?.entry, lesson: () => draft.project().items[at]?.lesson};
  const form = (name, schema, more) => formOf({...common, form: name, at, root: rootOf[name](), schema, ...more});

  let groups;
  if (!item) groups = set ? form('set', setSchema, {node: setSchema}) : [];
  else if (item.lesson && block >= 0) groups = form('lesson', lessonSchema, {start: ['blocks', block], node: lessonSchema.definitions.block});
  else {
    const entry = set ? form('entry', setSchema, {node: setSchema.definitions.entry}) : [];
    const own = item.lesson ? form('lesson', lessonSchema, {node: lessonSchema}) : [];
    groups = [...own.slice(0, 1), ...entry, ...own.slice(1)];
  }
  for (const field of groups.flatMap(({fields}) => fields)) {
    field.read = () => valueAt(rootOf[field.form](), field.path);
    field.begin = isFirst => {
      const place = field.kind === 'either' ? `${field.place}.${isFirst ? 'jaw' : 'foam'}` : field.place;
      return beginningOf(place, {known: draft.known, lesson: rootOf.lesson()})
        ?? smallest(field.item ?? field.node, field.form === 'lesson' ? lessonSchema : setSchema);
    };
  }
  return groups;
}

/** The project with another value in a field; a guide comes and goes with the approach. */
export function edited(draft, {form, at, path, place}, value) {
  const project = draft.project();
  if (form === 'set') return editSet(project, path, value);
  if (form === 'entry') return editEntry(project, at, path, value);
  const next = editLesson(project, at, path, value);
  if (place !== 'block.approach') return next;
  const block = path.slice(0, 2);
  if (value === 'freehand') {
    return editLesson(editLesson(next, at, [...block, 'guide'], undefined), at, [...block, 'implant_through_guide'], undefined);
  }
  const {lesson} = next.items[at];
  return valueAt(lesson, [...block, 'guide']) ? next
    : editLesson(next, at, [...block, 'guide'], beginningOf('block.guide', {known: draft.known, lesson}));
}

/** {lines: [{words, isError, problem}], more, errors}: errors first, then warnings, then what lacks the second language. */
export function problemList(draft, languageName) {
  const {problems} = draft.verdict();
  const all = [...draft.errors(), ...problems.filter(({isError}) => !isError)];
  const lines = all.slice(0, kMostShown).map(problem => ({
    words: `${problem.at === -2 ? '' : `${[draft.titleOf(nodeOf(problem)), nameOfPlace(problem)].filter(Boolean).join(' · ')}: `}${sentenceOf(problem)}`,
    isError: problem.isError, problem,
  }));
  const lacking = draft.second() ? untranslated(draft.project(), draft.second()) : [];
  if (lacking.length > 0) {
    const [{at, path}] = lacking;
    lines.push({words: say('lackingTexts', lacking.length, languageName(draft.second())), isError: false, problem: {at, form: at < 0 ? 'set' : 'lesson', path}});
  }
  return {lines, more: Math.max(0, all.length - kMostShown), errors: draft.errors().length};
}

/** {words, name, kind, problem}: the one thing to do now. */
export function nextStep(draft, hasTried) {
  const {set, items} = draft.project();
  const [problem] = draft.errors();
  if (items.length === 0) return {kind: 'add', words: say('nextAdd'), name: say('addLesson')};
  if (problem) return {kind: 'mend', words: say('nextMend', draft.errors().length), name: say('showMe'), problem};
  if (set?.title?.en === say('newSetTitle')) {
    return {kind: 'mend', words: say('nextName'), name: say('showMe'), problem: {at: -1, form: 'set', path: ['title']}};
  }
  return hasTried ? {kind: 'share', words: say('nextShare'), name: say('share')} : {kind: 'try', words: say('nextTry'), name: say('tryBlock')};
}

/** Files that a learner needs for an item, or at -1 for the whole set: as they will be saved. */
export function filesFor(draft, at) {
  const good = draft.verdict().files.filter(({text}) => text);
  const lessons = good.filter(file => file.at >= 0 && (at < 0 || file.at === at));
  const extras = lessons.length > 0 ? good.filter(file => file.at === -2) : [];
  const set = at < 0 ? good.filter(file => file.at === -1) : [];
  return [...extras, ...lessons, ...set].map(({name, id, text}) => ({name: name.replace(/^[^.]*/, id), text}));
}

/** Files to save: [{name, text, trouble}]. */
export const filesToSave = draft => draft.verdict().files.map(({at, name, text}) => {
  const problem = draft.verdict().problems.find(one => one.isError && (one.at === at || one.name === name));
  return {name, text, trouble: !text && problem ? sentenceOf(problem) : ''};
});

/** What would be tried now: the chosen block, else the first of the chosen lesson; null without a lesson. */
export function trialOf(draft) {
  const {items} = draft.project();
  const at = Math.max(0, draft.chosen().item);
  const lesson = items[at] ? draft.lessonOf(items[at]) : null;
  if (!lesson) return null;
  const block = at === draft.chosen().item && draft.chosen().block >= 0 ? draft.chosen().block : 0;
  const isWrong = draft.errors().some(problem => (problem.form === 'lesson' && problem.at === at) || problem.at === -2);
  const isOwn = items[at].lesson !== null;
  const files = isOwn ? filesFor(draft, at) : [];
  return {
    title: draft.titleIn(lesson.title), blockTitle: draft.titleIn(blocksOf(lesson)[block]?.title), lesson: lesson.id, block, files,
    trouble: isOwn && !draft.isRead() ? say('checking') : isWrong || (isOwn && files.length === 0) ? say('tryMend') : '',
    state: JSON.stringify([lesson.id, block, files]),
  };
}
