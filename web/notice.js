// A line at the foot of the page with what to do about it. Loaded on first use.
import {button, make, style} from './dialog.js';

/** Shows `text` with buttons [{text, work, primary}]; another notice of the same `kind` is replaced. Gives {close}. */
export function showNotice({kind, text, buttons = [], theme = 'dark'}) {
  style();
  document.getElementById(`notice-${kind}`)?.remove();
  const box = make('div', {class: 'db-dialog db-notice', id: `notice-${kind}`, role: 'status', 'data-theme': theme},
    make('p', {text}), ...buttons.map(one => button(one.text, one.work, {primary: one.primary})));
  for (const name of ['keydown', 'keyup', 'keypress']) box.addEventListener(name, event => event.stopPropagation());
  document.body.append(box);
  const close = () => {
    const hadFocus = box.contains(document.activeElement);
    box.remove();
    if (hadFocus) document.getElementById('canvas')?.focus({preventScroll: true});
  };
  return {close};
}
