// What a page needs besides its program, loaded after the start: it keeps the site for use without a network, offers a
// new version when nothing is being drilled, and says when the graphics are gone.
import './crash.js';  // at hand when it is wanted
import {showNotice} from './notice.js';
import {tableIn} from './phrases.js';

const WORDS = {
  ready: 'A new version is ready: reload.',
  collected: 'A new version is ready: save what you collected, then reload.',
  reload: 'Reload',
  later: 'Later',
  others: 'Another tab has Driftbench open. Close it first, then reload.',
  lost: 'The graphics of this device have stopped. Nothing is lost: the attempt waits, and goes on when they are back.',
  reloadPage: 'Reload the page',
};
const PATIENCE_MS = 1500;  // graphics that come back at once need no word
const LOOK_AGAIN_MS = 1000;
const CHECK_EVERY_MS = 3600000;

// An attempt is being drilled, or judged: no moment for a new version.
const isBusy = () => ['briefing', 'bench', 'estimate'].includes(window.app?.state?.().screen);
const theme = () => window.app?.state?.().theme ?? document.body.dataset.theme ?? 'dark';

/** The page of a program: its canvas besides. */
export function care({canvas, say, holdsMore}) {
  const words = tableIn(say, WORDS);
  let notice = null;
  let timer = 0;
  const lost = () => {
    timer = setTimeout(() => {
      notice = showNotice({kind: 'graphics', text: words.lost, theme: theme(), buttons: [{text: words.reloadPage, work: () => location.reload()}]});
    }, PATIENCE_MS);
  };
  canvas.addEventListener('webglcontextlost', lost);
  canvas.addEventListener('webglcontextrestored', () => {
    clearTimeout(timer);
    notice?.close();
  });
  if (canvas.getContext('webgl2')?.isContextLost()) lost();
  keepOffline({isBusy, say, holdsMore});
}

/** isBusy(): not now; say(text) in the page's language; holdsMore: a reload loses what was collected. */
export async function keepOffline({isBusy = () => false, say, holdsMore = false}) {
  if (location.protocol === 'file:') return;  // nothing to keep
  const words = tableIn(say, WORDS);
  let registration = null;
  try {
    registration = await navigator.serviceWorker?.register('./sw.js', {updateViaCache: 'none'});
  } catch { /* no leave to keep anything: the page works from the network */ }
  if (!registration) return;

  let notice = null;
  let isPutOff = false;
  let timer = 0;
  const hide = () => {
    notice?.close();
    notice = null;
  };
  const takeOver = () => {
    const next = registration.waiting;
    if (!next) return location.reload();
    next.addEventListener('statechange', () => next.state === 'activated' && location.reload());
    next.postMessage('take-over');
  };
  const buttons = [
    {text: words.reload, work: takeOver, primary: true},
    {text: words.later, work: () => { isPutOff = true; hide(); clearInterval(timer); }},
  ];
  const show = text => { notice = showNotice({kind: 'update', text, buttons, theme: theme()}); };
  const look = () => {
    if (isBusy()) hide();
    else if (!notice) show(holdsMore ? words.collected : words.ready);
  };
  const offer = () => {
    if (isPutOff || timer || !registration.waiting || !registration.active) return;
    look();
    timer = setInterval(look, LOOK_AGAIN_MS);
  };
  navigator.serviceWorker.addEventListener('message', ({data}) => data === 'others-are-open' && show(words.others));
  registration.addEventListener('updatefound', () => {
    const next = registration.installing;
    next?.addEventListener('statechange', () => next.state === 'installed' && offer());
  });
  offer();

  let checked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.hidden || Date.now() - checked < CHECK_EVERY_MS) return;
    checked = Date.now();
    registration.update().catch(() => {});
  });
}
