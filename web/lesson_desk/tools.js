// The bar of the page, the line that says what comes next, and the list of what is to mend.
import {make} from '../dialog.js';
import {say} from './words.js';

const COMMON = ['de', 'es', 'fr', 'it', 'nl', 'pl', 'pt-BR', 'sv', 'tr', 'ar', 'hi', 'ja', 'ko', 'zh'];

const button = (text, work, more = {}) => make('button', {type: 'button', text, on: {click: work}, ...more});

/** bar, and while a draft is open formBar and beside; act: {undo, redo, drafts, open, save, share, second, showAll, theme, goTo, step, tryPane}. */
export function makeTools({bar, formBar, beside, act, languageName}) {
  const shelf = make('a', {href: './', class: 'button quiet', text: say('toShelf')});
  const light = button(say('light'), () => { act.theme(); tell(); }, {class: 'quiet'});
  const tell = () => light.setAttribute('aria-pressed', String(document.body.dataset.theme === 'light'));
  tell();
  const name = make('h1', {}, make('span', {class: 'app', text: say('app')}), make('span', {text: say('desk')}));
  const narrow = make('p', {class: 'only-phone note', text: say('narrow')});
  if (!formBar) {
    bar.replaceChildren(name, make('span', {class: 'grow'}), light, shelf, narrow);
    return null;
  }
  const title = make('span', {class: 'draft grow'});
  const kept = make('span', {class: 'note'});
  const undo = button(say('undo'), act.undo, {class: 'quiet', title: 'Ctrl+Z'});
  const redo = button(say('redo'), act.redo, {class: 'quiet', title: 'Ctrl+Y'});
  const share = button(say('share'), act.share, {class: 'primary'});
  bar.replaceChildren(name, title, kept, undo, redo, button(say('drafts'), act.drafts, {class: 'quiet'}), button(say('openFiles'), act.open, {class: 'quiet'}),
    button(say('save'), act.save), share, light, shelf, narrow);

  const nextWords = make('span', {class: 'grow', role: 'status'});
  let step = null;
  const nextButton = button('', () => act.step(step), {class: 'primary'});
  const language = make('select', {on: {change: () => act.second(language.value)}});
  const all = make('input', {type: 'checkbox', on: {change: () => act.showAll(all.checked)}});
  formBar.append(make('div', {class: 'next'}, make('strong', {text: `${say('next')}:`}), nextWords, nextButton),
    make('div', {class: 'options'}, make('label', {class: 'tick'}, say('secondLanguage'), language), make('label', {class: 'tick'}, all, say('allFields')),
    button(say('tryShow'), act.tryPane, {class: 'only-narrow'})));

  const state = make('p', {class: 'state', role: 'status'});
  const list = make('ul', {class: 'problems'});
  beside.append(state, list);
  let listed = '';
  let places = [];  // where a press on a line leads
  let languageList = '';

  return {
    kept(isKept) {
      kept.textContent = say(isKept ? 'kept' : 'notKept');
      kept.classList.toggle('error', !isKept);
    },
    show({canUndo, canRedo, next, problems, isRead, languages, second, showAll, title: words}) {
      undo.disabled = !canUndo;
      redo.disabled = !canRedo;
      title.textContent = words;
      document.title = `${words} · ${say('desk')}`;
      if (nextWords.textContent !== next.words) nextWords.textContent = next.words;
      nextButton.textContent = next.name;
      step = next;
      all.checked = showAll;
      const codes = [...new Set([...languages.filter(code => code !== 'en'), ...COMMON])];
      if (languageList !== codes.join()) {
        languageList = codes.join();
        language.replaceChildren(make('option', {value: '', text: say('noSecond')}), ...codes.map(code => make('option', {value: code, text: languageName(code)})));
      }
      language.value = second;
      const {lines, more, errors} = problems;
      const good = errors === 0 ? say('allGood') : say('problems', errors);
      if (isRead && state.textContent !== good) state.textContent = good;
      state.classList.toggle('error', errors > 0);
      const shown = JSON.stringify([lines.map(line => [line.words, line.isError]), more]);
      places = lines.map(({problem}) => problem);
      if (shown === listed) return;
      listed = shown;
      list.replaceChildren(...lines.map((line, i) => make('li', {}, button(line.words, () => act.goTo(places[i]), {class: `problem${line.isError ? ' error' : ''}`}))),
        ...(more > 0 ? [make('li', {class: 'note', text: say('more', more)})] : []));
    },
  };
}
