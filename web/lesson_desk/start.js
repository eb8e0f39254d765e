// Where authoring begins: go on with a draft, a new set, one lesson from a skeleton, a set of the course, files. And the
// dialog that adds a lesson.
import {button, make, openDialog} from '../dialog.js';
import {hasWord, say} from './words.js';

const aboutTemplate = id => (hasWord(`template_${id.replaceAll('-', '_')}`) ? say(`template_${id.replaceAll('-', '_')}`) : '');
const lessonCount = count => (count === 1 ? say('oneLesson') : say('lessonsCount', count));

const card = (title, about, ...inside) => make('section', {class: 'card'}, make('h3', {text: title}), about ? make('p', {text: about}) : null, ...inside);

/** Choices as buttons with a line about each. */
const choices = list => make('ul', {class: 'choices'}, list.map(({title, about, actions}) => make('li', {},
  make('div', {class: 'grow'}, make('strong', {text: title}), about ? make('span', {class: 'note', text: about}) : null),
  actions.map(({text, work, primary}) => make('button', {type: 'button', class: primary ? 'primary' : null, text, 'aria-label': `${text}: ${title}`, on: {click: work}})))));

/**
 * Fills `root`. known: {templates, lessons, sets} of lessons as read; drafts: list and remove; act: {newSet(), template(t),
 * shippedSet(s), open(), goOn(id)}; titleIn(text).
 */
export function showStart({root, known, drafts, act, titleIn}) {
  const list = drafts.list();
  let armed = '';
  const goOn = list.length === 0 ? null : card(say('startGoOn'), '', choices(list.map(({id, title, count, edited}) => ({
    title, about: say('draftLine', lessonCount(count), new Date(edited).toLocaleString()),
    actions: [{text: say('begin'), primary: true, work: () => act.goOn(id)}, {text: say('deleteDraft'), work: event => {
      if (armed === id) {
        drafts.remove(id);
        showStart({root, known, drafts, act, titleIn});
      } else {
        armed = id;
        event.target.textContent = say('deleteDraftReally');
        event.target.classList.add('danger');
      }
    }}],
  }))));
  const heading = make('h2', {text: say('startTitle'), tabindex: '-1'});
  root.replaceChildren(make('div', {class: 'start'}, heading, make('p', {class: 'lead', text: say('startAbout')}),
    make('div', {class: 'cards'}, goOn,
      card(say('startSet'), say('startSetAbout'), button(say('startSet'), act.newSet, {primary: true, class: 'primary'})),
      card(say('startOpen'), say('startOpenAbout'), button(say('openFiles'), act.open)),
      card(say('startLesson'), say('startLessonAbout'), choices(known.templates.map(template => ({
        title: titleIn(template.title), about: aboutTemplate(template.id), actions: [{text: say('take'), work: () => act.template(template)}],
      })))),
      card(say('startShipped'), say('startShippedAbout'), choices(known.sets.map(set => ({
        title: titleIn(set.title), about: lessonCount(set.lessons.length), actions: [{text: say('take'), work: () => act.shippedSet(set)}],
      })))))));
  heading.focus({preventScroll: true});
}

/** taken: ids that the set has already. act: {template(t), shipped(lesson, isCopy), open()}. */
export function openAdd({known, taken, act, titleIn, theme}) {
  const {body, foot, shut, dialog} = openDialog({title: say('addTitle'), close: say('close'), theme});
  dialog.classList.add('desk-dialog');
  const then = work => () => {
    shut();
    work();
  };
  body.append(
    make('h3', {text: say('addNew')}),
    choices(known.templates.map(template => ({
      title: titleIn(template.title), about: aboutTemplate(template.id), actions: [{text: say('take'), work: then(() => act.template(template))}],
    }))),
    make('h3', {text: say('addShipped')}),
    choices(known.lessons.map(lesson => ({
      title: titleIn(lesson.title), about: `${say('minutes', lesson.minutes)} · ${titleIn(lesson.question)}`,
      actions: [...(taken.has(lesson.id) ? [] : [{text: say('useAsIs'), work: then(() => act.shipped(lesson, false))}]),
        {text: say('useCopy'), work: then(() => act.shipped(lesson, true))}],
    }))),
    make('h3', {text: say('addOpen')}),
    make('p', {class: 'db-muted', text: say('addOpenAbout')}), button(say('openFiles'), then(act.open)));
  foot.hidden = true;
}
