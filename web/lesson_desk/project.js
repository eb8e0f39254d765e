// What lies on the Lesson desk: a set (or none), its lessons in order, and files they need. Pure; nothing is changed in
// place, so that every state can be kept and gone back to.
//
//   {set: fields of a set file without "lessons", or null,
//    items: [{entry: fields of the set's entry, lesson: a lesson file's content, or null for one that comes with the app}],
//    extras: [{name, text}]}   kits and pieces of jaw that were opened

export const kMostItems = 50;

const isObject = value => value !== null && typeof value === 'object' && !Array.isArray(value);

// --- Values by path: ['blocks', 0, 'title', 'en'] ---

export const valueAt = (root, path) => path.reduce((at, step) => (at === null || at === undefined ? undefined : at[step]), root);

/** `root` with another value at `path`; undefined takes the field away. */
export function withValue(root, path, value) {
  if (path.length === 0) return value;
  const [step, ...rest] = path;
  const copy = Array.isArray(root) ? [...root] : isObject(root) ? {...root} : typeof step === 'number' ? [] : {};
  const inner = withValue(copy[step], rest, value);
  if (inner !== undefined) copy[step] = inner;
  else if (Array.isArray(copy)) copy.splice(step, 1);
  else delete copy[step];
  return copy;
}

/** "blocks[1].plan.depth_mm" and back. */
export const wordsOf = path => path.map((step, i) => (typeof step === 'number' ? `[${step}]` : `${i ? '.' : ''}${step}`)).join('');
export const pathOf = words => [...words.matchAll(/([^.[\]]+)/g)].map(([step]) => (/^\d+$/.test(step) ? Number(step) : step));

// --- Lists ---

const inserted = (list, at, ...items) => [...list.slice(0, at), ...items, ...list.slice(at)];
const removed = (list, at) => list.filter((_, i) => i !== at);

export function moved(list, from, to) {
  const target = Math.max(0, Math.min(list.length - 1, to));
  return inserted(removed(list, from), target, list[from]);
}

const asList = value => (Array.isArray(value) ? value : []);
export const blocksOf = lesson => asList(lesson?.blocks);

// --- Names ---

/** A word for files out of a title: "Near the canal" -> "near-the-canal". */
export function slug(title, fallback = 'lesson') {
  const word = String(title ?? '').normalize('NFKD').replace(/[\u0300-\u036f]/g, '').toLowerCase()
    .replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 40).replace(/-+$/, '');
  return word || fallback;
}

/** An id that nobody else has taken by chance; `random` gives a number below 1. */
export const freshId = (title, fallback, random = Math.random) =>
  `${slug(title, fallback)}-${Math.floor(random() * 36 ** 4).toString(36).padStart(4, '0')}`;

function freeName(wanted, taken) {
  for (let n = 2; ; ++n) {
    const name = `${wanted.replace(/-\d+$/, '').slice(0, 60)}-${n}`;
    if (!taken.has(name)) return name;
  }
}

export const lessonFile = item => (item.lesson ? `${item.lesson.id}.lesson.json` : item.entry.file ?? '');
export const shippedId = item => (item.lesson ? '' : String(item.entry.file ?? '').replace(/\.lesson\.json$/, ''));

// --- Whole projects ---

const today = () => new Date().toISOString().slice(0, 10);

export const emptyProject = () => ({set: null, items: [], extras: []});

export function newSet(words, random = Math.random) {
  return {
    format: 'driftbench-set', version: 1, id: freshId(words.title, 'set', random), revision: today(),
    title: {en: words.title}, introduction: {en: words.introduction}, teacher_notes: {en: words.notes},
  };
}

/** A lesson to be changed, made from another one: a new id, today's revision, a seed of its own. */
export function copyOfLesson(lesson, {isTemplate = false, random = Math.random} = {}) {
  return {
    ...structuredClone(lesson), id: freshId(lesson.title?.en, 'lesson', random), revision: today(),
    ...(isTemplate ? {seed: Math.floor(random() * 1000000)} : {}),
  };
}

/** Files that were read -> a project. A set brings its order; lessons it does not name follow. */
export function projectOf(files) {
  const set = files.find(({value}) => value.format === 'driftbench-set')?.value ?? null;
  const lessons = files.filter(({value}) => value.format === 'driftbench-lesson').map(({value}) => value);
  const extras = files.filter(({value}) => /kit|specimen/.test(value.format)).map(({name, text}) => ({name, text}));
  if (!set) return {set: null, items: lessons.map(lesson => ({entry: {}, lesson})), extras};
  const {lessons: entries, ...rest} = set;
  const items = asList(entries).filter(isObject).map(entry => ({
    entry, lesson: lessons.find(({id}) => entry.file === `${id}.lesson.json`) ?? null,
  }));
  const named = new Set(items.map(({lesson}) => lesson));
  return {set: rest, items: [...items, ...lessons.filter(lesson => !named.has(lesson)).map(lesson => ({entry: {}, lesson}))], extras};
}

/** Opened files join what is there: a lesson of the same id is replaced, other ones follow at the end. */
export function joined(project, files) {
  const {set, items, extras} = projectOf(files);
  if (set) return {set, items, extras: [...project.extras, ...extras]};
  let all = project.items;
  for (const {lesson} of items) {
    const at = all.findIndex(item => lessonFile(item) === `${lesson.id}.lesson.json`);
    all = at < 0 ? [...all, {entry: {}, lesson}] : all.map((item, i) => (i === at ? {...item, lesson} : item));
  }
  const names = new Set(extras.map(({name}) => name));
  return {...project, items: all, extras: [...project.extras.filter(({name}) => !names.has(name)), ...extras]};
}

// --- Lessons of a project ---

export const addItem = (project, item, at = project.items.length) => ({...project, items: inserted(project.items, at, item)});
export const removeItem = (project, at) => ({...project, items: removed(project.items, at)});
export const moveItem = (project, from, to) => ({...project, items: moved(project.items, from, to)});

export function duplicateItem(project, at, random = Math.random) {
  const {entry, lesson} = project.items[at];
  if (!lesson) return project;
  const {sha256, ...rest} = entry;
  return addItem(project, {entry: rest, lesson: copyOfLesson(lesson, {random})}, at + 1);
}

const withLesson = (project, at, lesson) => ({
  ...project, items: project.items.map((item, i) => (i === at ? {...item, lesson} : item)),
});

// --- Blocks of a lesson, and the fields that name blocks ---

const NAMING = [['criterion', 'blocks'], ['order', 'mix']];

function renamedIn(lesson, from, to) {
  let changed = lesson;
  for (const path of NAMING) {
    const names = valueAt(changed, path);
    if (!Array.isArray(names) || !names.includes(from)) continue;
    const left = names.flatMap(name => (name !== from ? [name] : to === undefined ? [] : [to]));
    // A list that would be empty means "all" when it is left out.
    changed = withValue(changed, path, left.length > 0 ? left : undefined);
  }
  return changed;
}

export function addBlock(project, at, block, place = blocksOf(project.items[at].lesson).length) {
  const {lesson} = project.items[at];
  const taken = new Set(blocksOf(lesson).map(({id}) => id));
  const named = taken.has(block.id) ? {...block, id: freeName(block.id, taken)} : block;
  return withLesson(project, at, {...lesson, blocks: inserted(blocksOf(lesson), place, named)});
}

export const duplicateBlock = (project, at, place) =>
  addBlock(project, at, structuredClone(blocksOf(project.items[at].lesson)[place]), place + 1);

export function removeBlock(project, at, place) {
  const {lesson} = project.items[at];
  const without = {...lesson, blocks: removed(blocksOf(lesson), place)};
  return withLesson(project, at, renamedIn(without, blocksOf(lesson)[place]?.id, undefined));
}

export function moveBlock(project, at, from, to) {
  const {lesson} = project.items[at];
  return withLesson(project, at, {...lesson, blocks: moved(blocksOf(lesson), from, to)});
}

/** Another value in a lesson; a block that gets another id keeps its places in order, criterion and set. */
export function editLesson(project, at, path, value) {
  const {lesson} = project.items[at];
  let changed = withValue(lesson, path, value);
  let next = project;
  if (path.length === 3 && path[0] === 'blocks' && path[2] === 'id') {
    const before = blocksOf(lesson)[path[1]]?.id;
    changed = renamedIn(changed, before, value);
    const isComingBack = before !== undefined && project.items[at].entry.retention?.block === before;
    if (isComingBack) next = editEntry(project, at, ['retention', 'block'], value);
  }
  return withLesson(next, at, changed);
}

export const editSet = (project, path, value) => ({...project, set: withValue(project.set, path, value)});
export const editEntry = (project, at, path, value) => ({
  ...project, items: project.items.map((item, i) => (i === at ? {...item, entry: withValue(item.entry, path, value)} : item)),
});

// --- Texts of files ---

const textOf = value => `${JSON.stringify(value, null, 2)}\n`;

/** The files to be read, in an order in which each knows those before: extras, lessons, the set. `at`: item, -1 the set. */
export function filesOf(project) {
  const lessons = project.items.flatMap((item, at) => (item.lesson ? [{at, name: lessonFile(item), text: textOf(item.lesson)}] : []));
  return [...project.extras.map(extra => ({...extra, at: -2})), ...lessons];
}

/** The set's file; `digests`: item -> SHA-256 of its lesson's file, for entries that name one. */
export function setFileOf(project, digests) {
  if (!project.set) return null;
  const lessons = project.items.map((item, at) => {
    const {file, sha256, ...rest} = item.entry;
    const pinned = sha256 === undefined ? {} : {sha256: digests[at] || sha256};
    return {file: lessonFile(item), ...pinned, ...rest};
  });
  return {at: -1, name: `${project.set.id}.set.json`, text: textOf({...project.set, lessons})};
}

/** Languages that any text of the project has, English first. */
export function languagesOf(project) {
  const found = new Set(['en']);
  const visit = value => {
    if (Array.isArray(value)) return value.forEach(visit);
    if (!isObject(value)) return undefined;
    if (typeof value.en === 'string') Object.keys(value).forEach(code => /^[a-z]{2}(-[A-Z]{2})?$/.test(code) && found.add(code));
    return Object.values(value).forEach(visit);
  };
  visit([project.set, project.items.map(({lesson}) => lesson)]);
  return [...found];
}

/** Paths of texts that lack a language: [{at, path}]. */
export function untranslated(project, language) {
  const places = [];
  const visit = (at, value, path) => {
    if (Array.isArray(value)) value.forEach((item, i) => visit(at, item, [...path, i]));
    else if (isObject(value)) {
      if (typeof value.en === 'string' && !value[language]) places.push({at, path});
      Object.entries(value).forEach(([name, item]) => visit(at, item, [...path, name]));
    }
  };
  if (project.set) visit(-1, project.set, []);
  project.items.forEach(({lesson}, at) => lesson && visit(at, lesson, []));
  return places;
}
