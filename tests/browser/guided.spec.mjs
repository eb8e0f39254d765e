// A whole attempt through the sleeve, compared with a free-hand one.
import { readFile } from 'node:fs/promises';
import { check, Visitor } from './lib.mjs';
import { drillWholeFreehand, drillWholeGuided, giveEstimate, goToBench, kPlanned } from './drilling.mjs';

async function wholeAttempt({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=12');
  await goToBench(hands, 'Drill-guided');
  await drillWholeGuided(hands);
  await giveEstimate(hands);
  const state = await hands.state();
  check(state.results.has_hole, 'no hole was measured');
  check(state.results.entry_lateral_mm < 1.0, `the sleeve let the entry stray by ${state.results.entry_lateral_mm} mm`);
  check(Math.abs(state.results.depth_error_mm) < 0.6, `the stop let the depth stray by ${state.results.depth_error_mm} mm`);
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function comparesBothApproaches({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=13');
  await goToBench(hands, 'Free-hand');
  await drillWholeFreehand(hands, { drills: kPlanned.slice(0, 1), depth_mm: 6 });
  await hands.click('Skip');
  await hands.untilScreen('debrief');
  await hands.click('Shelf');
  await goToBench(hands, 'Drill-guided');
  await drillWholeGuided(hands, { drills: kPlanned.slice(0, 1) });
  await hands.click('Skip');
  await hands.untilState((state) => state.screen === 'debrief' && state.compared >= 1, 'the debrief');
  const before = (await hands.state()).compared;
  await hands.click('Compare');
  await hands.click(/^Free-hand, /);
  await hands.untilState((state) => state.compared === before + 1, 'the free-hand attempt beside it');
  await hands.click('Done');
  const state = await hands.state();
  check(state.compared === before + 1, 'closing the list took the compared attempt away');
}

/** A guide on teeth: what it rests on and whether there is room, and the sheet as a page of its own. */
async function savesTheSiteSheet({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=near-the-canal');
  await hands.untilScreen('lesson');
  await hands.clickInPage(/^Drill-guided: /);
  await hands.untilScreen('briefing');
  const downloading = hands.page.waitForEvent('download');
  await hands.clickInPage('Save the sheet to print');
  await hands.item(/^The crowns of both neighbours\./);  // above the button that was scrolled to
  const file = await downloading;
  check(file.suggestedFilename() === 'site-sheet-46.html', `the sheet is called ${file.suggestedFilename()}`);
  const html = await readFile(await file.path(), 'utf8');
  const page = await visitor.context.newPage();
  await page.setContent(html);
  const text = await page.locator('body').innerText();
  for (const part of ['7.0 + 3.5 + 4.5 + 1.5', 'To compare', 'between the incisors', 'Not clinical advice']) {
    check(text.includes(part), `the sheet does not hold "${part}"`);
  }
  await page.close();
}

export const cases = [
  ['a whole attempt through the sleeve', wholeAttempt],
  ['lays a free-hand attempt beside it', comparesBothApproaches],
  ['saves the site sheet to print', savesTheSiteSheet],
];
