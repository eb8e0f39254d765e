// A language's phrase book, for words of the page and for what the core said in English: as ui::in_language().

const DEEPEST = 6;
const LEAST_LETTERS = 12;
const WORDS = ['title', 'h1', '#help', '#loading p'];
const english = new Map();

// What stands in the pattern's {} when it fits the whole text, else null.
function match(pattern, text) {
  const parts = pattern.split('{}');
  if (!text.startsWith(parts[0])) return null;
  const values = [];
  let rest = text.slice(parts[0].length);
  parts.slice(1).forEach((next, i) => {
    if (rest === null) return;
    const isLast = i === parts.length - 2;
    const end = isLast ? (rest.length > next.length && rest.endsWith(next) ? rest.length - next.length : -1) : rest.indexOf(next, 1);
    if (end < 0) {
      rest = null;
      return;
    }
    values.push(rest.slice(0, end));
    rest = rest.slice(end + next.length);
  });
  return rest === null ? null : values;
}

// A pattern of few letters, "{} to {}", would fit many a text: of itself it holds for numbers only.
const isParticular = (pattern, values) =>
  pattern.length - 2 * values.length >= LEAST_LETTERS || values.every(value => /^[+-]?\d*\.?\d+$/.test(value));

export function fillIn(pattern, values) {
  let next = 0;
  return pattern.replace(/\{(\d*)\}/g, (field, number) => values[number === '' ? next++ : Number(number)] ?? field);
}

/** A function from English to the language of this file: {decimal, phrases}. */
export function makeBook({decimal, phrases}) {
  const patterns = Object.entries(phrases).filter(([from]) => from.includes('{}'));
  const say = (text, depth) => {
    if (/^[+-]?\d*\.\d+$/.test(text)) return text.replace('.', decimal);
    if (Object.hasOwn(phrases, text)) return phrases[text];
    if (depth >= DEEPEST) return text;
    for (const [from, own] of patterns) {
      const values = match(from, text);
      if (values && (depth > 0 || isParticular(from, values))) return fillIn(own, values.map(value => say(value, depth + 1)));
    }
    const stop = text.indexOf('. ');
    return stop < 0 ? text : `${say(text.slice(0, stop + 1), depth)} ${say(text.slice(stop + 2), depth)}`;
  };
  return text => say(text, 0);
}

/** A table of words in the language of `say`: {title: 'Compare', steps: ['First', ...], ...}. */
export const tableIn = (say, words) => Object.fromEntries(Object.entries(words).map(([name, text]) =>
  [name, Array.isArray(text) ? text.map(say) : say(text)]));

/** Writes what stands in the page's HTML in another language. */
export function translatePage(say) {
  const put = (key, node, text, set) => {
    if (!english.has(node)) english.set(node, {});
    const own = english.get(node);
    own[key] ??= text;
    set(say(own[key]));
  };
  for (const node of document.querySelectorAll(WORDS.join(','))) {
    put('text', node, node.textContent, text => { node.textContent = text; });
  }
  for (const node of document.querySelectorAll('body > [aria-label], #app > [aria-label]')) {
    put('label', node, node.getAttribute('aria-label'), text => node.setAttribute('aria-label', text));
  }
}
