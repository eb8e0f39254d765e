// The page of the Lesson desk: a draft and its outline, form, try-out and tools; or the start page.
import {button, make} from '../dialog.js';
import {language} from '../language.js';
import {makeDraft, kNowhere} from './draft.js';
import {makeDrafts} from './drafts.js';
import {makeForm} from './form.js';
import {headOf} from './head.js';
import {knownOf, knownWith} from './known.js';
import {openAll} from './opening.js';
import {makeOutline} from './outline.js';
import {copyOfLesson, emptyProject, freshId, joined, languagesOf, newSet, projectOf, shippedId} from './project.js';
import {edited, filesFor, filesToSave, formGroups, keyOf, nextStep, nodeOf, problemList, sentenceOf, trialOf} from './questions.js';
import {connectReader} from './reading.js';
import {openSave, openShare, saveZip} from './sharing.js';
import {showStart} from './start.js';
import {makeTools} from './tools.js';
import {makeTryout} from './tryout.js';
import {makeWishes, setWords} from './wishes.js';
import {say, speak} from './words.js';

const element = id => document.getElementById(id);
const reader = connectReader();
const drafts = makeDrafts(localStorage);
let known = null;
let draft = null;  // null on the start page
let parts = null;  // of the page, while a draft is open
let showAll = false;
let hasTried = false;

const theme = () => document.body.dataset.theme;
const announce = sentence => { element('status').textContent = sentence; };
const languageName = code => {
  try {
    return new Intl.DisplayNames([document.documentElement.lang], {type: 'language'}).of(code);
  } catch {
    return code;
  }
};

function notify(sentence, isError = false) {
  const box = element('notice');
  box.hidden = !sentence;
  box.classList.toggle('error', isError);
  box.replaceChildren(...(sentence ? [make('span', {text: sentence}), button(say('close'), () => notify(''), {class: 'quiet'})] : []));
}

// --- Showing ---

function show() {
  if (!parts) return;
  const wrong = draft.errors().map(nodeOf);
  const isHere = problem => problem.at !== -2 && JSON.stringify(nodeOf(problem)) === JSON.stringify(draft.chosen());
  const {items} = draft.project();
  parts.outline.show(draft.project(), draft.chosen(), {
    titleOf: draft.titleOf,
    noteOf: i => (items[i].lesson ? '' : say(draft.shipped(items[i]) ? 'comesWithApp' : 'missing')),
    problemsAt: node => wrong.filter(one => one.item === node.item && one.block === node.block).length,
  });
  parts.form.show(formGroups(draft, showAll), headOf(draft, parts.wishes), {second: draft.second(), languageName});
  parts.form.trouble(draft.verdict().problems.filter(isHere).map(problem => ({key: keyOf(problem), sentence: sentenceOf(problem)})));
  parts.tryout.refresh();
  parts.tools.show({
    canUndo: draft.canUndo(), canRedo: draft.canRedo(), next: nextStep(draft, hasTried), problems: problemList(draft, languageName), isRead: draft.isRead(),
    languages: languagesOf(draft.project()), second: draft.second(), showAll, title: draft.title(),
  });
}

function goTo(problem) {
  if (!problem || problem.at === -2) return;
  draft.choose(nodeOf(problem));
  if (!parts.form.goTo(keyOf(problem))) parts.formPane.focus();
}

function edit(field, value, isStep = false, focusKey = '') {
  draft.push(edited(draft, field, value), {field: isStep ? '' : field.key});
  if (focusKey) parts.form.goTo(focusKey);
}

function select(node) {
  document.body.classList.remove('trying');
  draft.choose(node);
}

// --- What the tools do ---

const save = () => openSave({name: draft.project().set?.id ?? 'lessons', theme: theme(), files: filesToSave(draft)});

const titled = ({id, title}) => ({id, title: draft.titleIn(title)});
const share = () => openShare({
  set: draft.project().set ? {id: draft.project().set.id, title: draft.setTitle()} : null,
  lessons: draft.project().items.map((item, at) => ({at, id: draft.lessonOf(item)?.id ?? shippedId(item), title: draft.titleOf({item: at, block: -1})})),
  at: draft.chosen().item, filesFor: at => filesFor(draft, at), errors: draft.errors().length, theme: theme(), mend: () => goTo(draft.errors()[0]),
  shipped: {sets: known.sets.map(titled), lessons: known.lessons.map(titled)},
  save: () => saveZip(draft.project().set?.id ?? 'lessons', filesFor(draft, -1)),
});

function tryIt() {
  document.body.classList.add('trying');
  parts.tryout.begin();
}

const tools = {
  undo: () => draft.undo(), redo: () => draft.redo(), drafts: () => leave(), open: () => chooser.click(), save, share,
  second: code => { parts.form.forget(); draft.chooseSecond(code); },
  showAll: on => { showAll = on; show(); },
  theme: () => setTheme(theme() === 'dark' ? 'light' : 'dark', true),
  tryPane: () => document.body.classList.add('trying'),
  goTo, step: ({kind, problem}) => ({add: parts.wishes.addLesson, mend: () => goTo(problem), try: tryIt, share})[kind](),
};

function setTheme(name, isKept) {
  document.body.dataset.theme = name;
  document.querySelector('meta[name="theme-color"]').content = name === 'dark' ? '#15191e' : '#eff3f5';
  if (!isKept) return;
  try {
    localStorage.setItem('driftbench-theme', name);
  } catch { /* for this visit only */ }
}

addEventListener('keydown', event => {
  const isChord = (event.ctrlKey || event.metaKey) && !event.altKey;
  if (!draft || !isChord || document.querySelector('dialog[open]')) return;
  const key = event.key.toLowerCase();
  // The desk's own undo: the browser's would know one field only.
  if (key === 'z' && !event.shiftKey) draft.undo();
  else if (key === 'y' || (key === 'z' && event.shiftKey)) draft.redo();
  else if (key === 's') save();
  else return;
  event.preventDefault();
});

// --- Files ---

const chooser = make('input', {type: 'file', multiple: true, accept: '.json,.zip,application/json'});
chooser.addEventListener('change', () => {
  openFiles([...chooser.files]);
  chooser.value = '';
});
addEventListener('dragover', event => event.preventDefault());
addEventListener('drop', event => {
  event.preventDefault();
  if (event.dataTransfer?.files.length > 0) openFiles([...event.dataTransfer.files]);
});

async function openFiles(list) {
  const {files, notes} = await openAll(list, reader.read);
  if (files.length > 0) {
    known = knownWith(known, files.map(({value}) => value));
    if (!draft || files.some(({value}) => value.format === 'driftbench-set')) {
      open(projectOf(files));
    } else {
      const next = joined(draft.project(), files);
      draft.learn(known);
      draft.push(next, {node: {item: next.items.length - 1, block: -1}});
    }
  }
  notify(notes.join(' '), files.length === 0);
}

// --- Coming and going ---

function open(first, id = freshId('draft', 'draft'), selection = kNowhere) {
  if (draft) draft.end();
  const pane = (name, word, ...inside) => make('section', {class: `pane ${name}`, 'aria-label': say(word)}, ...inside);
  const tree = make('div', {role: 'tree', class: 'tree', 'aria-label': say('outline'), title: say('outlineHelp')});
  const [bar, beside, formBar] = ['outline-bar', 'beside', 'form-bar'].map(name => make('div', {class: name}));
  const formPane = make('div', {class: 'form', tabindex: '-1'});
  const trial = pane('tryout', 'preview');
  parts = null;
  hasTried = false;
  draft = makeDraft({
    id, first, selection, known: knownWith(known, first.extras.map(({text}) => JSON.parse(text))), read: reader.read,
    keep: ({id: name, ...what}) => drafts.keep(name, what, Date.now()), onChange: why => (why === 'kept' ? parts?.tools.kept(draft.isKept()) : show()), onFailure: sentence => notify(say('failed', sentence), true),
  });
  const wishes = makeWishes(draft, {select, announce, theme, chooseFiles: () => chooser.click(), toForm: () => formPane.focus({preventScroll: true})});
  element('desk').replaceChildren(make('div', {class: 'columns'}, pane('outline', 'outline', tree, bar, beside), pane('middle', 'form', formBar, formPane), trial));
  parts = {
    formPane, wishes,
    outline: makeOutline({root: tree, bar, act: wishes}),
    form: makeForm({root: formPane, edit}),
    tryout: makeTryout({root: trial, wanted: () => trialOf(draft), theme, onTried: () => { hasTried = true; show(); },
      resize: isLarge => document.body.classList.toggle('trying-large', isLarge)}),
    tools: makeTools({bar: element('bar'), formBar, beside, act: tools, languageName}),
  };
  notify('');
  history.replaceState(null, '', `#${id}`);
  draft.begin();
}

function leave() {
  draft?.end();
  draft = null;
  parts = null;
  notify('');
  document.title = `${say('desk')} · ${say('app')}`;
  document.body.classList.remove('trying', 'trying-large');
  history.replaceState(null, '', location.pathname + location.search);
  makeTools({bar: element('bar'), act: tools, languageName});
  showStart({root: element('desk'), known, drafts, titleIn: text => text?.[language.code()] ?? text?.en ?? say('untitled'), act: {
    newSet: () => {
      open({...emptyProject(), set: newSet(setWords())});
      parts.wishes.addLesson();
    },
    template: template => open({...emptyProject(), items: [{entry: {}, lesson: copyOfLesson(template, {isTemplate: true})}]}),
    shippedSet: ({title, introduction, teacher_notes, lessons}) => open(projectOf([{value:
      {...newSet(setWords()), title, introduction, teacher_notes, lessons: structuredClone(lessons), id: freshId(title.en, 'set')}}])),
    open: () => chooser.click(),
    goOn: id => {
      const kept = drafts.load(id);
      if (kept) open(kept.project, id, kept.selection);
    },
  }});
}

addEventListener('pagehide', () => draft?.keepNow());
document.addEventListener('visibilitychange', () => document.hidden && draft?.keepNow());
addEventListener('storage', ({key, newValue}) => {
  if (!draft || key !== drafts.keyOf(draft.id) || !newValue) return;
  draft.take(JSON.parse(newValue).project);
  notify(say('otherTab'));
});

async function start() {
  await language.start();
  speak(language.say);
  let kept = null;
  try {
    kept = localStorage.getItem('driftbench-theme');
  } catch { /* no storage: the usual colours */ }
  const isLight = kept ? kept !== 'dark' : matchMedia('(prefers-color-scheme: light)').matches;  // the projector's page is light, too
  setTheme(isLight ? 'light' : 'dark', false);
  known = knownOf(await reader.files());
  const id = location.hash.slice(1);
  const before = id ? drafts.load(id) : null;
  if (before) open(before.project, id, before.selection);
  else leave();
  // A read-only look for tests and for people with a console.
  window.lessonDesk = Object.freeze({
    project: () => draft?.project() ?? null, chosen: () => draft?.chosen() ?? null, errors: () => draft?.errors() ?? [], isRead: () => draft?.isRead() ?? false,
  });
  import(new URL('../care.js', import.meta.url)).then(({keepOffline}) => keepOffline({say: language.say}), () => {});
}

start().catch(failure => notify(say('failed', failure?.message ?? failure), true));
