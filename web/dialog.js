// Dialogs of plain page elements for what is mostly text: forms, tables, notices. Loaded on first use.

/** The style sheet, once. */
export function style() {
  if (document.querySelector('[data-of="dialog"]')) return;
  const link = document.createElement('link');
  link.rel = 'stylesheet';
  link.href = 'dialog.css';
  link.dataset.of = 'dialog';
  document.head.append(link);
}

/** An element: {class, text, on: {event: work}, other attributes}, then its children; null children are left out. */
export function make(tag, options = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(options)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === 'text') node.textContent = value;
    else if (name === 'on') for (const [event, work] of Object.entries(value)) node.addEventListener(event, work);
    else if (name === 'value') node.value = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat().filter(child => child !== null && child !== undefined));
  return node;
}

/** A control under its name, with a line of help. */
export function field(name, control, help = '') {
  return make('label', {class: 'db-field'}, make('span', {text: name}), control, help ? make('small', {text: help}) : null);
}

export const button = (text, work, {primary = false, ...more} = {}) =>
  make('button', {type: 'button', class: primary ? 'db-primary' : null, text, on: {click: work}, ...more});

export const paragraph = (text, kind = '') => make('p', {class: kind ? `db-${kind}` : null, text});

export const list = sentences => make('ul', {}, sentences.map(text => make('li', {text})));

/** A table: names of columns, rows of texts or elements; columns of numbers by position. */
export function table(head, rows, numbers = []) {
  const cell = (tag, content, i) => make(tag, {class: numbers.includes(i) ? 'db-number' : null},
    content instanceof Node ? content : document.createTextNode(String(content)));
  return make('div', {class: 'db-scroll'}, make('table', {},
    make('thead', {}, make('tr', {}, head.map((name, i) => cell('th', name, i)))),
    make('tbody', {}, rows.map(row => make('tr', {}, row.map((content, i) => cell('td', content, i)))))));
}

/** SVG text of our own program as an element. */
export function drawing(svg) {
  return new DOMParser().parseFromString(svg.replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" '), 'image/svg+xml').documentElement;
}

/**
 * Opens a modal dialog: {title, close (word), theme}. Gives {dialog, body, foot, shut}. Escape closes it; the focus goes
 * back to where it was.
 */
export function openDialog({title, close, theme = 'dark', onClose}) {
  style();
  const before = document.activeElement;
  const body = make('div', {class: 'db-body', tabindex: '-1'});
  const foot = make('footer');
  const heading = make('h2', {text: title, id: 'db-title'});
  const dialog = make('dialog', {class: 'db-dialog', 'data-theme': theme, 'aria-labelledby': 'db-title'},
    make('header', {}, heading, button(close, () => dialog.close())), body, foot);
  // Keys stay in the dialog: the program behind it must not hear them.
  for (const name of ['keydown', 'keyup', 'keypress', 'paste']) dialog.addEventListener(name, event => event.stopPropagation());
  dialog.addEventListener('close', () => {
    dialog.remove();
    onClose?.();
    (before && before !== document.body ? before : document.getElementById('canvas'))?.focus({preventScroll: true});
  });
  document.body.append(dialog);
  dialog.showModal();
  return {dialog, body, foot, shut: () => dialog.close()};
}

/** Rows of tabs over panels: [{name, fill(panel)}]; a panel is filled when it is first shown. Arrow keys move. */
export function tabs(entries, first = 0) {
  const panels = entries.map((_, i) => make('div', {role: 'tabpanel', id: `db-panel-${i}`, 'aria-labelledby': `db-tab-${i}`, hidden: i !== first}));
  const filled = new Set();
  const show = (chosen, focus) => {
    heads.forEach((head, i) => {
      head.setAttribute('aria-selected', String(i === chosen));
      head.tabIndex = i === chosen ? 0 : -1;
      panels[i].hidden = i !== chosen;
    });
    if (focus) heads[chosen].focus();
    if (!filled.has(chosen)) {
      filled.add(chosen);
      entries[chosen].fill(panels[chosen]);
    }
  };
  const heads = entries.map(({name}, i) => make('button', {
    type: 'button', role: 'tab', id: `db-tab-${i}`, 'aria-controls': `db-panel-${i}`, text: name,
    on: {
      click: () => show(i, false),
      keydown: event => {
        const step = {ArrowRight: 1, ArrowLeft: -1}[event.key];
        if (!step) return;
        event.preventDefault();
        show((i + step + heads.length) % heads.length, true);
      },
    },
  }));
  const strip = make('div', {class: 'db-tabs', role: 'tablist'}, heads);
  show(first, false);
  return {strip, panels, show: i => show(i, false)};
}
