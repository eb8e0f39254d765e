// What stands over the form: what is chosen, what can be done with it as a whole, and a lesson's blocks.
import {make} from '../dialog.js';
import {blocksOf} from './project.js';
import {placeKey} from './reading.js';
import {say} from './words.js';

const button = (text, work, kind = '') => make('button', {type: 'button', class: kind || null, text, on: {click: work}});

function blockList(draft, lesson, item, select) {
  const rows = blocksOf(lesson).map((block, i) => make('li', {},
    make('span', {class: 'grow', text: say('blockLine', draft.titleIn(block?.title), block?.attempts ?? '?')}),
    make('button', {type: 'button', text: say('openBlock'), 'aria-label': `${say('openBlock')}: ${draft.titleIn(block?.title)}`, on: {click: () => select({item, block: i})}})));
  return make('section', {class: 'group'}, make('h3', {text: say('blocksOfLesson')}),
    make('p', {class: 'help', text: say('blocksAbout')}), make('ul', {class: 'choices'}, rows));
}

/** {key, shape, title, nodes, trouble}: `key` and `shape` tell when all must be built anew; `trouble` takes what is wrong with the whole. */
export function headOf(draft, wishes) {
  const {set, items} = draft.project();
  const {item: at, block} = draft.chosen();
  const trouble = make('p', {class: 'trouble', hidden: true});
  if (at < 0) {
    const name = set ? say('set') : draft.setTitle();
    const alone = set ? [] : [make('p', {text: say('aloneAbout')}), button(say('makeSet'), wishes.makeSet, 'primary')];
    return {key: placeKey('set', -1, ''), shape: String(set !== null), title: name, nodes: [make('h2', {text: name}), ...alone, trouble], trouble};
  }
  const item = items[at];
  const where = `${at + 1}. ${draft.titleOf({item: at, block: -1})}`;
  if (block >= 0) {
    const name = draft.titleOf({item: at, block});
    const way = button(`← ${where}`, () => wishes.select({item: at, block: -1}), 'quiet way');
    return {key: placeKey('lesson', at, `blocks[${block}]`), shape: where, title: name, nodes: [way, make('h2', {text: name}), trouble], trouble};
  }
  if (item.lesson) {
    const rows = blocksOf(item.lesson).map(one => [one?.title, one?.attempts]);
    return {key: placeKey('lesson', at, ''), shape: JSON.stringify(rows), title: where, nodes: [make('h2', {text: where}), trouble, blockList(draft, item.lesson, at, wishes.select)], trouble};
  }
  const lesson = draft.shipped(item);
  const about = lesson
    ? [make('p', {class: 'lead', text: draft.titleIn(lesson.question)}), make('p', {class: 'help', text: say('copyAbout')}), button(say('copyIt'), () => wishes.takeCopy(at))]
    : [make('p', {text: say('missingAbout')}), button(say('openFiles'), wishes.openFiles)];
  return {key: placeKey('entry', at, ''), shape: where, title: where, nodes: [make('h2', {text: where}), trouble, ...about], trouble};
}
