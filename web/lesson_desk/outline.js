// The outline: set, lessons, blocks. A tree that keys, buttons and dragging reorder.
import {make} from '../dialog.js';
import {blocksOf} from './project.js';
import {say} from './words.js';

const keyOf = ({item, block}) => `${item}.${block}`;

/**
 * root: the tree; bar: where its buttons stand. act: {select(node), move(node, to), duplicate(node), remove(node),
 * addLesson(), addBlock(item)}. A node is {item, block}; item -1 is the set, block -1 a lesson.
 */
export function makeOutline({root, bar, act}) {
  let rows = [];
  let chosen = {item: -1, block: -1};
  let dragged = null;
  let project = null;
  let shown = '';

  const siblings = node => (node.block >= 0 ? blocksOf(project.items[node.item].lesson).length : project.items.length);
  const indexOf = node => (node.block >= 0 ? node.block : node.item);
  const canMove = (node, step) => node.item >= 0 && indexOf(node) + step >= 0 && indexOf(node) + step < siblings(node);
  const canDuplicate = node => node.item >= 0 && project.items[node.item].lesson !== null;
  const rowOf = node => rows.find(row => keyOf(row.node) === keyOf(node));

  const tool = (sign, word, work) => {
    const button = make('button', {type: 'button', class: 'small', text: sign, on: {click: work}});
    return {button, tell: (title, isOn) => {
      button.setAttribute('aria-label', say(`${word}Of`, title));
      button.title = say(word);
      button.disabled = !isOn;
    }};
  };
  const tools = {
    up: tool('↑', 'moveUp', () => act.move(chosen, indexOf(chosen) - 1)),
    down: tool('↓', 'moveDown', () => act.move(chosen, indexOf(chosen) + 1)),
    duplicate: tool(say('duplicate'), 'duplicate', () => act.duplicate(chosen)),
    remove: tool('✕', 'remove', () => act.remove(chosen)),
  };
  const addBlock = make('button', {type: 'button', text: say('addBlock'), on: {click: () => act.addBlock(chosen.item)}});
  const addLesson = make('button', {type: 'button', text: say('addLesson'), on: {click: () => act.addLesson()}});
  bar.append(make('div', {class: 'tools', role: 'toolbar', 'aria-label': say('outline')}, Object.values(tools).map(({button}) => button)), addBlock, addLesson);

  const step = (from, by) => rows[Math.max(0, Math.min(rows.length - 1, rows.indexOf(rowOf(from)) + by))]?.node;

  root.addEventListener('keydown', event => {
    const arrow = {ArrowUp: -1, ArrowDown: 1}[event.key];
    let isOurs = true;
    if (event.altKey && arrow) canMove(chosen, arrow) && act.move(chosen, indexOf(chosen) + arrow);
    else if (arrow) act.select(step(chosen, arrow));
    else if (event.key === 'Home') act.select(rows[0].node);
    else if (event.key === 'End') act.select(rows.at(-1).node);
    else if (event.key === 'ArrowLeft' && chosen.block >= 0) act.select({item: chosen.item, block: -1});
    else if (event.key === 'ArrowRight' && chosen.block < 0 && chosen.item >= 0) act.select(step(chosen, 1));
    else if (event.key === 'Delete' && chosen.item >= 0) act.remove(chosen);
    else if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'd') canDuplicate(chosen) && act.duplicate(chosen);
    else isOurs = false;
    if (isOurs) event.preventDefault();
  });

  const mayDrop = node => dragged && keyOf(dragged) !== keyOf(node) && (dragged.block >= 0) === (node.block >= 0)
    && (dragged.block < 0 || dragged.item === node.item) && node.item >= 0;

  function draggable(element, node) {
    if (node.item < 0) return;
    element.draggable = true;
    element.addEventListener('dragstart', event => {
      dragged = node;
      event.dataTransfer.effectAllowed = 'move';
      event.dataTransfer.setData('text/plain', element.textContent);
    });
    element.addEventListener('dragend', () => { dragged = null; });
    element.addEventListener('dragover', event => {
      if (!mayDrop(node)) return;
      event.preventDefault();
      element.classList.add(indexOf(dragged) < indexOf(node) ? 'drop-below' : 'drop-above');
    });
    element.addEventListener('dragleave', () => element.classList.remove('drop-below', 'drop-above'));
    element.addEventListener('drop', event => {
      element.classList.remove('drop-below', 'drop-above');
      if (!mayDrop(node)) return;
      event.preventDefault();
      event.stopPropagation();
      const from = dragged;
      dragged = null;
      act.move(from, indexOf(node));
    });
  }

  function row(node, level, title, note, problems) {
    const element = make('div', {role: 'treeitem', 'aria-level': level, class: `row level-${level}`, tabindex: '-1'},
      make('span', {class: 'title', text: title}),
      note ? make('span', {class: 'note', text: note}) : null,
      problems > 0 ? make('span', {class: 'badge', text: String(problems), 'aria-hidden': 'true'}) : null);
    if (problems > 0) element.setAttribute('aria-label', say('itemProblems', title, problems));
    element.addEventListener('click', () => act.select(node));
    draggable(element, node);
    rows.push({node, element, title});
    return element;
  }

  return {
    /** titleOf(node), noteOf(item): words; problemsAt(node): how many. */
    show(next, selection, {titleOf, noteOf, problemsAt}) {
      project = next;
      chosen = selection;
      const nodes = next.items.flatMap(({lesson}, item) => [{item, block: -1}, ...blocksOf(lesson).map((_, block) => ({item, block}))]);
      const now = JSON.stringify([chosen, next.set === null, [{item: -1, block: -1}, ...nodes].map(node =>
        [node, titleOf(node), problemsAt(node), node.item >= 0 && node.block < 0 ? noteOf(node.item) : ''])]);
      // A row that is being clicked or dragged must stay the same element.
      if (now === shown) return;
      shown = now;
      rows = [];
      const top = root.scrollTop;
      const hadFocus = root.contains(document.activeElement);
      const elements = [row({item: -1, block: -1}, 1, titleOf({item: -1, block: -1}), next.set ? '' : say('noSet'), problemsAt({item: -1, block: -1}))];
      for (const node of nodes) {
        elements.push(node.block < 0 ? row(node, 1, `${node.item + 1}. ${titleOf(node)}`, noteOf(node.item), problemsAt(node))
          : row(node, 2, titleOf(node), '', problemsAt(node)));
      }
      root.replaceChildren(...elements);
      root.scrollTop = top;
      const current = rowOf(chosen) ?? rows[0];
      for (const one of rows) {
        one.element.setAttribute('aria-selected', String(one === current));
        one.element.tabIndex = one === current ? 0 : -1;
      }
      current.element.scrollIntoView({block: 'nearest'});
      if (hadFocus) current.element.focus({preventScroll: true});
      const title = current.title.replace(/^\d+\. /, '');
      tools.up.tell(title, canMove(chosen, -1));
      tools.down.tell(title, canMove(chosen, 1));
      tools.duplicate.tell(title, canDuplicate(chosen));
      tools.remove.tell(title, chosen.item >= 0);
      addBlock.disabled = !canDuplicate(chosen);
    },
  };
}
