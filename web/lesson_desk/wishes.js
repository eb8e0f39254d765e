// What outline and dialogs ask for: lessons and blocks added, moved, doubled, removed.
import {openAdd} from './start.js';
import {
  addBlock, addItem, blocksOf, copyOfLesson, duplicateBlock, duplicateItem, moveBlock, moveItem, newSet, removeBlock, removeItem, shippedId,
} from './project.js';
import {say} from './words.js';

export const setWords = () => ({title: say('newSetTitle'), introduction: say('newSetIntroduction'), notes: say('newSetNotes')});

/** page: {select(node), announce(sentence), chooseFiles(), theme(), toForm()}. */
export function makeWishes(draft, page) {
  const {project, push, titleOf} = draft;
  const tell = word => page.announce(say(word, titleOf(draft.chosen())));
  const put = item => {
    push(addItem(project(), item), {node: {item: project().items.length, block: -1}});
    tell('saidAdded');
    page.toForm();
  };
  return {
    select: page.select,
    openFiles: page.chooseFiles,
    move({item, block}, to) {
      if (block >= 0) push(moveBlock(project(), item, block, to), {node: {item, block: to}});
      else push(moveItem(project(), item, to), {node: {item: to, block: -1}});
      page.announce(say('saidMoved', titleOf(draft.chosen()), to + 1));
    },
    duplicate({item, block}) {
      if (block >= 0) push(duplicateBlock(project(), item, block), {node: {item, block: block + 1}});
      else push(duplicateItem(project(), item), {node: {item: item + 1, block: -1}});
      tell('saidAdded');
    },
    remove({item, block}) {
      const title = titleOf({item, block});
      if (block >= 0) push(removeBlock(project(), item, block), {node: {item, block: block - 1}});
      else push(removeItem(project(), item), {node: {item, block: -1}});
      page.announce(say('saidRemoved', title));
    },
    addBlock(item) {
      const blocks = blocksOf(project().items[item].lesson);
      const like = blocks.at(-1) ?? draft.known.templates[0].blocks[0];
      const block = {...structuredClone(like), id: 'block', title: {en: say('newBlockTitle')}};
      push(addBlock(project(), item, block), {node: {item, block: blocks.length}});
      tell('saidAdded');
    },
    addLesson() {
      const taken = new Set(project().items.map(shippedId));
      openAdd({known: draft.known, taken, titleIn: draft.titleIn, theme: page.theme(), act: {
        template: template => put({entry: {}, lesson: copyOfLesson(template, {isTemplate: true})}),
        shipped: (lesson, isCopy) => put(isCopy || !project().set ? {entry: {}, lesson: copyOfLesson(lesson)} : {entry: {file: `${lesson.id}.lesson.json`}, lesson: null}),
        open: page.chooseFiles,
      }});
    },
    takeCopy(at) {
      const {file, sha256, ...entry} = project().items[at].entry;
      const own = {entry, lesson: copyOfLesson(draft.shipped(project().items[at]))};
      push({...project(), items: project().items.map((item, i) => (i === at ? own : item))});
    },
    makeSet: () => push({...project(), set: newSet(setWords())}, {node: {item: -1, block: -1}}),
  };
}
