// For people who cannot see the picture or cannot point: every screen's copy in the page, its controls, and Tab.
import AxeBuilder from '@axe-core/playwright';
import { drillWholeFreehand, giveEstimate, kPlanned, startAttempt, tourToGuidedBriefing, tourToLogbook } from './drilling.mjs';
import { check, Visitor } from './lib.mjs';

const kControls = new Set(['button', 'switch', 'radio', 'slider']);
const kLeast_px = 24; // WCAG 2.2, success criterion 2.5.8 (target size, minimum)
const kMostTabs = 160;
const kFocusFollows_ms = 2000;

const controlsOf = (items) => items.filter((item) => kControls.has(item.role) && item.enabled);

/** The page's copy as an aid reads it: by computed role, name and states. */
const copyOf = (hands) => hands.page.evaluate(() => [...document.querySelectorAll('#mirror > *')].map((node) => ({
  name: node.getAttribute('aria-label') ?? node.textContent,
  isPressable: node.tagName === 'BUTTON' || node.getAttribute('role') === 'slider',
  isOff: node.getAttribute('aria-disabled') === 'true',
  checked: node.getAttribute('aria-checked'),
})));

/** What is wrong with a screen's copy and controls, in words. */
function complaints(items, copy) {
  const found = [];
  for (const item of items.filter((one) => !one.label && kControls.has(one.role))) found.push(`a ${item.role} without a name`);
  for (const [i, item] of items.filter((one) => one.label).entries()) {
    const node = copy[i]; // in the order of the picture
    if (!node) found.push(`"${item.label}" is not in the page's copy`);
    else if (!node.name.startsWith(item.label)) found.push(`"${item.label}" is called "${node.name}" in the copy`);
    else if (kControls.has(item.role) && (!node.isPressable || node.isOff === item.enabled)) found.push(`"${item.label}" differs in the copy`);
    else if (['switch', 'radio'].includes(item.role) && node.checked !== String(item.checked)) found.push(`"${item.label}" is ${node.checked} in the copy`);
  }
  for (const item of controlsOf(items).filter((one) => one.visible && !one.cut)) {
    if (Math.min(item.w, item.h) < kLeast_px) found.push(`"${item.label}" is ${item.w.toFixed(0)} x ${item.h.toFixed(0)} px`);
  }
  return found;
}

async function inspect(hands, where) {
  // The copy follows the picture within 0.2 s.
  let found = [];
  await hands.until(async () => {
    found = complaints(await hands.items(), await copyOf(hands));
    return found.length === 0;
  }, 'a faithful copy', 3000).catch(() => {});
  check(found.length === 0, `${where}: ${found.slice(0, 5).join('; ')}`);
  const report = await new AxeBuilder({ page: hands.page }).analyze();
  const broken = report.violations.map((item) => `${item.id}: ${item.nodes.map((node) => node.html).join(' ').slice(0, 200)}`);
  check(broken.length === 0, `${where}: ${broken.join('; ').slice(0, 800)}`);
}

/** What has the focus once it is no longer `before`; the picture follows a key after a moment. */
async function focusAfter(hands, before) {
  for (const end = Date.now() + kFocusFollows_ms;;) {
    const focused = (await hands.items()).find((item) => item.focused);
    if (focused?.id !== before || Date.now() > end) return focused;
    await hands.page.waitForTimeout(40);
  }
}

/** Tab reaches every control that can be used, with a visible focus, and comes round to the first again. */
async function tabThrough(hands, where) {
  const wanted = new Map(controlsOf(await hands.items()).map((item) => [item.id, item.label]));
  const reached = [];
  let before = (await hands.items()).find((item) => item.focused)?.id;
  for (let i = 0; i < kMostTabs; i += 1) {
    await hands.key('Tab');
    const focused = await focusAfter(hands, before);
    before = focused?.id;
    if (!focused) continue; // the page itself stands between last and first
    if (reached[0] === focused.id) break;
    check(focused.visible, `${where}: the focus is on "${focused.label}", out of sight`);
    reached.push(focused.id);
  }
  const missed = [...wanted].filter(([id]) => !reached.includes(id)).map(([, label]) => label);
  check(missed.length === 0, `${where}: Tab does not reach ${missed.slice(0, 6).join(', ')}`);
}

async function everyScreen({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  const hands = await visitor.open('?seed=41');
  const look = async (where) => {
    await inspect(hands, where);
    await tabThrough(hands, where);
  };
  // What lies below the window's edge is read, too.
  for (const words of ['Hard ground', 'Between the roots', 'Upper left first molar, low sinus']) {
    await hands.until(async () => (await copyOf(hands)).some((node) => node.name.startsWith(words)), `"${words}" to be read`, 10000);
  }
  await tourToGuidedBriefing(hands, look);
  await hands.click('Back');
  await hands.untilScreen('lesson');
  await hands.clickInPage(/^Free-hand: /);
  await startAttempt(hands);
  await inspect(hands, 'bench');
  await drillWholeFreehand(hands, { drills: kPlanned.slice(0, 1), depth_mm: 4 });
  await look('estimate');
  await giveEstimate(hands);
  await look('debrief');
  await tourToLogbook(hands, look);
  check((await visitor.allTroubles()).length === 0, 'troubles');
}

async function aJaw({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  const hands = await visitor.open();
  await hands.clickInPage('Lower left first molar, healed ridge');
  await hands.untilState((state) => state.study?.built, 'the piece of jaw', 120000);
  await inspect(hands, 'study');
  await hands.click('Plan');
  await hands.page.waitForTimeout(300);
  await inspect(hands, 'plan');
}

async function theClassroom({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  const hands = await visitor.open('classroom.html');
  await inspect(hands, 'empty Classroom');
  await hands.click('Open the demo class');
  await hands.untilState((state) => state.learners > 0, 'the demo class');
  for (const page of '0123456789') {
    await hands.key(page);
    await hands.page.waitForTimeout(300);
    await inspect(hands, `Classroom page ${page}`);
  }
  await tabThrough(hands, 'Classroom');
}

function complaintsAreFound() {
  const item = (more) => ({ id: 1, label: 'a', role: 'button', enabled: true, visible: true, w: 30, h: 30, ...more });
  const node = (more) => ({ name: 'a', isPressable: true, isOff: false, checked: null, ...more });
  check(complaints([item()], [node()]).length === 0, 'a faithful copy is fine');
  check(complaints([item()], []).length === 1, 'what is missing is found');
  check(complaints([item({ label: '' })], []).length === 1, 'a nameless control is found');
  check(complaints([item({ h: 20 })], [node()]).length === 1, 'a small target is found');
  check(complaints([item({ enabled: false })], [node()]).length === 1, 'another state is found');
  check(complaints([item({ role: 'switch', checked: true })], [node({ checked: 'false' })]).length === 1, 'another value is found');
}

export const cases = [
  ['finds what is amiss', complaintsAreFound],
  ['every screen of an attempt', everyScreen, { limit_ms: 480000 }],
  ['study and plan of a jaw', aJaw],
  ['the Classroom', theClassroom],
];
