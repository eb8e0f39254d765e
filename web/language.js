// The language of the page: which one, its texts from the server, and the page's own words in it.

// As ui::kLanguages (src/ui/language.h). `long` is English made longer, for tests of the layout.
export const LANGUAGES = ['en', 'de'];
const KNOWN = [...LANGUAGES, 'long'];
const SETTING = 'driftbench-language';

let code = 'en';
let texts = '';  // the language file; empty: English
let say = text => text;
let translate = null;  // writes the page's fixed words anew

function wanted() {
  let kept = null;
  try { kept = localStorage.getItem(SETTING); } catch { /* no storage: as the browser likes it */ }
  const own = (navigator.languages ?? []).map(tag => tag.slice(0, 2).toLowerCase());
  return [new URLSearchParams(location.search).get('lang'), kept, ...own].find(one => KNOWN.includes(one)) ?? 'en';
}

// Gives the sentence that says why it stayed as it was; empty when all is well.
async function change(next) {
  try {
    if (next !== 'en') {
      const program = (document.body.dataset.program ?? './app').replace(/\.mjs$/, '');
      const answer = await fetch(`${program}.${next}.json`, {credentials: 'same-origin'});
      if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
      texts = await answer.text();
      const {makeBook, translatePage} = await import(new URL('./phrases.js', import.meta.url));
      say = makeBook(JSON.parse(texts));
      translate = translatePage;
    } else {
      texts = '';
      say = text => text;
    }
  } catch (failure) {
    return `The texts of the language could not be loaded (${failure.message}).`;
  }
  code = next;
  document.documentElement.lang = code === 'long' ? 'en' : code;
  translate?.(say);
  return '';
}

export const language = {
  code: () => code,
  texts: () => texts,
  /** What the page or the core says in English, in the page's language. */
  say: text => say(text),
  /** The language that the address, the last visit or the browser asks for. */
  start: () => change(wanted()),
  /** Changes and keeps it; the address no longer asks for another. */
  choose: async next => {
    const trouble = await change(next);
    if (trouble) return trouble;
    try { localStorage.setItem(SETTING, next); } catch { /* for this visit only */ }
    const address = new URL(location.href);
    address.searchParams.delete('lang');
    try { history.replaceState(null, '', address); } catch { /* a page from a disk keeps its address */ }
    return '';
  },
};
