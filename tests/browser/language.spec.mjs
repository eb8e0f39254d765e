// Languages: by the address, by the browser, by the switch; the course and the Classroom in them; a file that does not come.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { check, kRoot, untilDrawn, Visitor } from './lib.mjs';
import { labelsOf } from './labels.mjs';
import { goToBench } from './drilling.mjs';

const languageOf = (hands) => hands.page.evaluate(() => document.documentElement.lang);
const german = JSON.parse(readFileSync(path.join(kRoot, 'assets/languages/de.json'), 'utf8'));

async function leaveWithoutTroubles(visitor) {
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
  await visitor.leave();
}

async function byAddress({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?lang=de');
  check((await hands.state()).language === 'de' && await languageOf(hands) === 'de', 'the address asks for German');
  check((await hands.state()).notice === '', 'a language that is there needs no notice');
  await hands.item(german.ui.kShelfTitle);
  await hands.item(/^Die Mitte finden: /);
  hands = await visitor.open('?lang=xx');
  const state = await hands.state();
  check(state.language === 'en' && state.notice.includes('xx'), `language ${state.language}, notice "${state.notice}"`);
  await leaveWithoutTroubles(visitor);
}

async function byBrowser({ bench }) {
  for (const [locale, code] of [['de-AT', 'de'], ['fr-FR', 'en'], ['en-US', 'en']]) {
    const visitor = await Visitor.arrive(bench, { locale });
    const hands = await visitor.open();
    check((await hands.state()).language === code, `a browser in ${locale} got ${(await hands.state()).language}`);
    await leaveWithoutTroubles(visitor);
  }
}

async function bySwitch({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?lang=en');
  await hands.click('Deutsch');
  await hands.item(german.ui.kShelfTitle);
  check(await languageOf(hands) === 'de', 'the page says its language');
  check(!hands.page.url().includes('lang='), 'the address no longer asks for English');
  check((await hands.page.textContent('#help')) === german.pages[(await readPage())], 'the words of the page are German');
  await hands.page.reload();
  await untilDrawn(hands.page);
  await hands.item(german.ui.kShelfTitle);
  hands = await visitor.open('classroom.html');
  await hands.item(german.classroom_ui.kOpenDemo);
  await hands.click('English');
  await hands.item('Open the demo class');
  check((await hands.page.textContent('#help')) === await readPage(), 'the words of the page are English again');
  hands = await visitor.open();
  check((await hands.state()).language === 'en', 'the choice in the Classroom holds for the lessons');
  await leaveWithoutTroubles(visitor);

  async function readPage() {
    return readFileSync(path.join(kRoot, 'web/index.html'), 'utf8').match(/<p id="help"[^>]*>([^<]*)</)[1];
  }
}

/** What a learner sees of a lesson in German has its comma; the attempt carries the hash of the whole file. */
async function courseInGerman({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lang=de', labelsOf(bench.site, 'de'));
  await goToBench(hands, 'Free-hand');
  const names = (await hands.items()).map((item) => item.label);
  check(names.includes('Spiralbohrer 2,0 mm'), `the rack says ${names.filter((name) => name.includes('mm')).join(', ')}`);
  const file = readFileSync(path.join(kRoot, 'lessons/find-the-centre.lesson.json'));
  const sum = createHash('sha256').update(file).digest('hex');
  check((await hands.state()).lesson_sha256 === sum, 'the attempt carries another hash than that of the file in lessons/');
  await hands.key('Enter');  // nothing is drilled yet: refused, in German
  await hands.key('1');
  await hands.key('p');
  const all = (await hands.items()).map((item) => item.label).join(' ');
  check(!/\b(the|and|drill|hole)\b/i.test(all), `English words on the bench: ${all.match(/.{30}\b(the|and|drill|hole)\b.{30}/i)?.[0]}`);
  await leaveWithoutTroubles(visitor);
}

async function classInGerman({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('classroom.html?lang=de', labelsOf(bench.site, 'de', 'desk'));
  await hands.click('Open the demo class');
  await hands.untilState((state) => state.learners > 0, 'the demo class');
  for (const page of ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9']) {
    await hands.key(page);
    await hands.page.waitForTimeout(200);
    const words = (await hands.items()).map((item) => item.label);
    const english = words.filter((label) => /\b(the|of|and|learners?|holes?|attempts?|sleeve|error)\b/.test(label));
    check(english.length === 0, `page ${page} still says: ${english.slice(0, 3).join(' | ')}`);
  }
  await leaveWithoutTroubles(visitor);
}

async function aFileThatDoesNotCome({ bench }) {
  const visitor = await Visitor.arrive(bench);
  await visitor.context.route('**/app.de.json', (route) => route.fulfill({ status: 404, body: '' }));
  const hands = await visitor.open('?lang=de');
  const state = await hands.untilState((now) => now.notice !== '', 'a notice');
  check(state.language === 'en' && state.notice.includes('404'), `language ${state.language}, notice "${state.notice}"`);
  await hands.item('Where does your drill really go?');
  await visitor.leave();
}

export const cases = [
  ['the address chooses the language; one that is not there is named', byAddress],
  ['a first visit is in the language of the browser', byBrowser],
  ['the switch changes at once, and a reload keeps it', bySwitch],
  ['a lesson in German, with its comma and the hash of its file', courseInGerman],
  ['the Classroom in German, page by page', classInGerman],
  ['texts that do not come leave English, and a notice', aFileThatDoesNotCome],
];
