// The app itself in a frame, opened on a lesson and block as they lie on the desk. It keeps nothing.
import {make} from '../dialog.js';
import {say} from './words.js';

// What the bench needs (has_bench_room() in src/ui/bench_layout.cpp).
const hasBenchRoom = ({clientWidth, clientHeight}) => clientWidth >= 380 && clientHeight >= (clientWidth < 700 ? 760 : 440);

/**
 * root: the pane. wanted(): {title, lesson, block, files, trouble, state} of what would be tried now, or null; `state`
 * tells whether it changed. theme(): "dark" or "light". onTried(): the app has begun.
 */
export function makeTryout({root, wanted, theme, onTried, resize}) {
  let frame = null;
  let tried = null;
  const start = make('button', {type: 'button', class: 'primary', text: say('tryBlock'), on: {click: () => begin()}});
  const stop = make('button', {type: 'button', class: 'quiet', text: say('tryStop'), hidden: true, on: {click: () => end()}});
  const isLarge = () => larger.getAttribute('aria-pressed') === 'true';
  const setLarge = wants => {
    larger.setAttribute('aria-pressed', String(wants));
    larger.textContent = say(wants ? 'trySmaller' : 'tryLarger');
    resize(wants);
  };
  const larger = make('button', {type: 'button', class: 'quiet', text: say('tryLarger'), 'aria-pressed': 'false', on: {click: () => setLarge(!isLarge())}});
  const back = make('button', {type: 'button', class: 'quiet only-narrow', text: say('tryBack'), on: {click: () => document.body.classList.remove('trying')}});
  const which = make('p', {class: 'which'});
  const stage = make('div', {class: 'stage'});
  const about = make('p', {class: 'help', text: say('tryAbout')});
  root.append(make('div', {class: 'try-bar'}, start, stop, larger, back), which, stage);
  stage.append(about);

  function end() {
    frame = null;
    tried = null;
    stop.hidden = true;
    stage.replaceChildren(about);
    refresh();
  }

  function begin() {
    const what = wanted();
    if (!what || what.trouble) return;
    tried = what;
    if (!isLarge() && !hasBenchRoom(stage)) setLarge(true);
    frame = make('iframe', {title: say('preview'), src: './?try=1', allow: 'autoplay'});
    stage.replaceChildren(frame);
    stop.hidden = false;
    refresh();
  }

  addEventListener('message', ({origin, source, data}) => {
    if (origin !== location.origin || !frame || source !== frame.contentWindow || data?.driftbench !== 'ready') return;
    source.postMessage({driftbench: 'try', files: tried.files, lesson: tried.lesson, block: tried.block, theme: theme()}, location.origin);
    onTried();
  });

  function refresh() {
    const what = wanted();
    const isSame = what && tried && what.state === tried.state;
    const isOther = what && tried && (what.lesson !== tried.lesson || what.block !== tried.block);
    start.textContent = say(isSame ? 'tryOver' : tried && !isOther ? 'tryAgain' : 'tryBlock');
    start.disabled = !what || Boolean(what.trouble);
    start.classList.toggle('primary', !isSame);
    which.textContent = !what ? say('tryNothing') : what.trouble ? what.trouble
      : tried && !isSame && !isOther ? say('tryStale') : say('tryWhich', what.title, what.blockTitle);
  }

  return {refresh, begin, isOpen: () => frame !== null};
}
