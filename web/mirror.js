// A hidden copy of what the picture shows, as real page elements, for screen readers and other aids.
// They are reached by browsing, not by Tab: inside the picture Tab moves by itself.

const kPause_ms = 200;

const TAGS = {button: 'button', switch: 'button', radio: 'button', slider: 'div', img: 'div', heading: 'h2', text: 'p', status: 'p'};
const ROLES = {switch: 'switch', radio: 'radio', slider: 'slider', img: 'img'};
const PRESSABLE = new Set(['button', 'switch', 'radio']);

const spoken = item => [item.label, item.value].filter(Boolean).join(', ');

function fill(node, item) {
  node.dataset.id = item.id;
  const set = (name, value) => {
    if (value === null) node.removeAttribute(name);
    else if (node.getAttribute(name) !== value) node.setAttribute(name, value);
  };
  if (item.role === 'slider' || item.role === 'img') {
    set('aria-label', item.role === 'img' ? spoken(item) : item.label);
    if (item.role === 'slider') {
      set('aria-valuetext', item.value || item.label);
      set('aria-valuenow', String(parseFloat(item.value?.replace(',', '.')) || 0));
    }
  } else if (node.textContent !== spoken(item)) {
    node.textContent = spoken(item);
  }
  set('title', item.description || null);
  set('aria-checked', item.role === 'switch' || item.role === 'radio' ? String(item.checked) : null);
  set('aria-current', item.focused ? 'true' : null);
  set('aria-disabled', item.enabled ? null : 'true');
}

export function makeMirror({root, read, activate, focus, adjust}) {
  let waiting = false;
  let before = '';

  const make = item => {
    const node = document.createElement(TAGS[item.role] ?? 'p');
    node.dataset.role = item.role;
    if (ROLES[item.role]) node.setAttribute('role', ROLES[item.role]);
    if (PRESSABLE.has(item.role) || item.role === 'slider') node.tabIndex = -1;
    return node;
  };

  const update = () => {
    waiting = false;
    const text = read();
    if (text === before) return;
    before = text;
    const items = JSON.parse(text).filter(item => item.label);
    items.forEach((item, i) => {
      let node = root.children[i];
      if (!node || node.dataset.role !== item.role) {
        const fresh = make(item);
        if (node) node.replaceWith(fresh);
        else root.append(fresh);
        node = fresh;
      }
      fill(node, item);
    });
    while (root.children.length > items.length) root.lastChild.remove();
  };

  const idOf = event => Number(event.target.closest('[data-id]')?.dataset.id ?? 0);
  root.addEventListener('click', event => {
    const id = idOf(event);
    if (id > 0) activate(id);
  });
  root.addEventListener('focusin', event => {
    const id = idOf(event);
    if (id > 0) focus(id);
  });
  root.addEventListener('keydown', event => {
    const steps = {ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1}[event.key];
    const id = idOf(event);
    if (!steps || id === 0 || event.target.dataset.role !== 'slider') return;
    event.preventDefault();
    event.stopPropagation();
    adjust(id, steps);
  });

  return {
    /** The picture has changed; the copy follows soon. */
    changed: () => {
      if (waiting) return;
      waiting = true;
      setTimeout(update, kPause_ms);
    },
  };
}
