// The Classroom: the demo class, hidden names, a folder with a tampered attempt, saved files, zip files, hostile input.
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { drop, inFolder } from './drops.mjs';
import { check, kRoot, runTool, Visitor } from './lib.mjs';
import { makeZip } from './zip_writer.mjs';

const kOutputs = ['report.html', 'holes.csv', 'learners.csv', 'codebook.md', 'methods.md', 'class-summary.json'];
const kChecked_ms = 150000;

const openClassroom = (visitor) => visitor.open('classroom.html');

const labels = async (hands) => (await hands.items()).map((item) => item.label);

const untilRead = (hands) => hands.untilState((state) => !state.reading.is_running && (state.roster || state.notice !== ''), 'the files to be read');

/** Presses the button that saves `name` and gives the bytes. */
async function saved(hands, name) {
  const downloading = hands.page.waitForEvent('download');
  await hands.click(`Save ${name}`);
  const file = await (await downloading).path();
  return readFile(file);
}

/** Invented real holes of `learners`. */
function table(learners, approaches = ['freehand', 'sleeve']) {
  let rows = 'operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n';
  learners.forEach((learner, i) => {
    for (const approach of approaches) {
      for (let k = 0; k < 3; ++k) rows += `${learner},${approach},${approach === 'sleeve' ? 0.1 * k : 0.8 + 0.1 * i},${0.2 * k},0.1,${k + 1},bench\n`;
    }
  });
  return rows;
}

async function demoClass({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const hands = await openClassroom(visitor);
  check((await hands.state()).page === 'empty', 'the Classroom does not begin empty');
  await hands.click('Open the demo class');
  const state = await hands.untilState((now) => now.is_demo && now.learners === 24 && now.page !== 'empty', 'the demo class');
  check(state.page === 'Who did what', `begins with the page "${state.page}"`);
  check(state.shown_attempts === 144, `${state.shown_attempts} attempts`);
  await hands.item('Invented class');
  await hands.item('novice-0001');
  await hands.item(/95 % interval/);
  for (const [key, title] of [['2', 'Aim or steadiness'], ['4', 'The class'], ['5', 'Both techniques'], ['9', 'Hole size']]) {
    await hands.key(key);
    await hands.untilState((now) => now.page === title, `the page "${title}"`);
  }
  // One key hides the names; another press brings them back.
  await hands.key('1');
  await hands.key('n');
  await hands.untilState((now) => now.are_names_hidden, 'hidden names');
  await hands.item('Learner 1');
  check(!(await labels(hands)).some((label) => label.includes('novice-')), 'a code name is still on the screen');
  await hands.key('n');
  await hands.item('novice-0001');
  await hands.key('n');
  await hands.item('Learner 1');
  await hands.page.waitForTimeout(400);
  check(!(await hands.page.textContent('#mirror')).includes('novice-'), 'the page\'s copy names a learner');
  // Way there and back.
  await hands.click('Bench');
  await hands.page.waitForFunction(() => document.title === 'Driftbench');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
}

async function folderWithTampered({ bench }) {
  await inFolder(async (folder) => {
    const turned = path.join(folder, 'turned-in');
    const made = await runTool(['practise', path.join(kRoot, 'lessons/find-the-centre.lesson.json'), '--count', '2', '--seed', '5', '--out', turned]);
    check(made.code === 0, `practise: ${made.stderr}`);
    // A better score by hand, the same file twice, a file that is none, and one that nobody asked for.
    const edited = path.join(turned, 'freehand-00002.attempt.json');
    const text = await readFile(edited, 'utf8');
    const changed = text.replace(/("entry_md_mm":\s*)-?[0-9.e-]+/, '$10.01');
    check(changed !== text, 'no score found to change');
    await writeFile(edited, changed);
    await mkdir(path.join(turned, 'late'));
    await writeFile(path.join(turned, 'late/again.attempt.json'), await readFile(path.join(turned, 'freehand-00001.attempt.json')));
    await writeFile(path.join(turned, 'broken.attempt.json'), '{"format": "driftbench-attempt", ');
    await writeFile(path.join(turned, 'notes.txt'), 'hello');

    const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
    const hands = await openClassroom(visitor);
    const choosing = hands.page.waitForEvent('filechooser');
    await hands.click('Choose a folder…');
    await (await choosing).setFiles(turned);
    await untilRead(hands);
    const counts = await hands.untilState((state) => state.roster && state.checking.total > 0 && !state.checking.is_running,
      'all attempts repeated', kChecked_ms);
    check(counts.roster.equal === 3 && counts.roster.differs === 1 && counts.roster.unchecked === 0, `roster ${JSON.stringify(counts.roster)}`);
    check(counts.roster.given_twice === 1, 'the same file twice was not noticed');
    // The table beside the attempts still has the score as it was.
    const refused = counts.roster.refused;
    check(refused.length === 2 && refused[0].startsWith('broken.attempt.json:') &&
      /^holes\.csv:\d+: found other values than freehand-00002/.test(refused[1]), `refused: ${refused}`);
    await hands.click('What was collected');
    const named = await hands.item(/^freehand-00002\.attempt\.json: /);
    check(/digest/.test(named.label), `the tampered file is said to be: ${named.label}`);
    await hands.item('3 repeated, the same bits');

    // The files of the report are those of the command line.
    const out = path.join(folder, 'report');
    const compiled = await runTool(['class', turned, '--out', out]);
    check(compiled.code === 1, `class: exit ${compiled.code}, ${compiled.stderr}`);
    await hands.click('Report files');
    for (const name of kOutputs) {
      const mine = await saved(hands, name);
      check(mine.equals(await readFile(path.join(out, name))), `${name}: other bytes than the command line writes`);
    }
    check((await readdir(out)).length === kOutputs.length, 'the command line writes another number of files');

    // Verdicts are kept by digest: a second visit repeats nothing.
    await hands.page.reload();
    const again = await openClassroom(visitor);
    const start = Date.now();
    await drop(again, await Promise.all(['freehand-00001', 'sleeve-00001', 'sleeve-00002'].map(async (name) => {
      const file = `${name}.attempt.json`;
      return [file, await readFile(path.join(turned, file))];
    })));
    await again.untilState((state) => state.roster?.equal === 3, 'the kept verdicts');
    check(Date.now() - start < 20000, 'kept verdicts took as long as repeating');
    const troubles = await visitor.allTroubles();
    check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
  });
}

async function zipFiles({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await openClassroom(visitor);
  const five = ['a', 'b', 'c', 'd', 'e'];
  const good = makeZip([{ name: 'class/one.csv', data: table(five.slice(0, 3)) }, { name: 'class/two.csv', data: table(five.slice(3)) },
    { name: 'class/read.me', data: 'ignored' }]);
  await drop(hands, [['class.zip', good]]);
  const read = await hands.untilState((state) => state.roster?.attempts === 30, 'the holes of the zip file');
  check(read.roster.refused.length === 0, `refused: ${read.roster.refused}`);

  await drop(hands, [['large.csv', Buffer.alloc(9 << 20, 'x')]]);
  await hands.untilState((state) => state.roster.refused.some((one) => /^large\.csv: found 9437184 bytes, expected at most/.test(one)), 'a table that is too large');

  const million = Buffer.alloc(8 << 20);
  const hostile = [
    ['path.zip', makeZip([{ name: '../../up.csv', data: table(five) }]), /path\.zip: .*leads out of the folder/],
    ['root.zip', makeZip([{ name: '/etc/x.csv', data: table(five) }]), /root\.zip: .*path from the root/],
    ['windows.zip', makeZip([{ name: 'a\\..\\b.csv', data: table(five) }]), /windows\.zip: .*backslash/],
    ['bomb.zip', makeZip([{ name: 'bomb.csv', data: million }]), /bomb\.zip: .*grow \d+ times/],
    ['liar.zip', makeZip([{ name: 'liar.csv', data: million, size: 1000 }]), /liar\.csv: found more than the 1000 bytes/],
    ['short.zip', makeZip([{ name: 'short.csv', data: table(five), size: 100000 }]), /short\.csv: found \d+ bytes, expected the 100000/],
    ['sum.zip', makeZip([{ name: 'sum.csv', data: table(five), crc: 1 }]), /sum\.csv: .*check sum/],
    ['locked.zip', makeZip([{ name: 'locked.csv', data: table(five), flags: 1 }]), /locked\.csv: .*password/],
    ['method.zip', makeZip([{ name: 'odd.csv', data: table(five), method: 14 }]), /odd\.csv: .*packing method 14/],
    ['shared.zip', makeZip([{ name: 'p.csv', data: table(five) }, { name: 'q.csv', data: table(five), offset: 4 }]), /lie over one another|no entry where/],
    ['cut.zip', good.subarray(0, good.length - 40), /cut\.zip: found no end/],
    ['empty.zip', Buffer.alloc(0), /empty\.zip: found 0 bytes/],
  ];
  for (const [name, bytes, sentence] of hostile) {
    await drop(hands, [[name, bytes]]);
    await hands.until(async () => {
      const state = await hands.state();
      return !state.reading.is_running && state.roster.refused.some((one) => sentence.test(one));
    }, `a sentence like ${sentence}`, 20000).catch(async (failure) => {
      throw new Error(`${failure.message}; refused: ${JSON.stringify((await hands.state()).roster.refused.slice(-3))}`);
    });
    check((await hands.state()).roster.attempts === 30, `${name}: something of it was taken`);
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
}

async function hostileWords({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await openClassroom(visitor);
  const five = ['<img src=x onerror=alert(1)>', '=HYPERLINK("x")', 'b"', "c'", 'd&amp;'];
  const rows = table(five.map((name) => `"${name.replace(/"/g, '""')}"`));
  await drop(hands, [['odd.csv', rows]]);
  await hands.untilState((state) => state.learners === 5, 'five learners');
  await hands.item('<img src=x onerror=alert(1)>');
  await hands.page.waitForTimeout(500);
  check(await hands.page.evaluate(() => document.querySelectorAll('#mirror img').length) === 0, 'a code name became an element of the page');
  await hands.click('Report files');
  const report = (await saved(hands, 'report.html')).toString();
  check(!report.includes('<img'), 'a code name became an element of the report');
  const holes = (await saved(hands, 'holes.csv')).toString();
  check(holes.includes(`'=HYPERLINK`), 'a formula is not neutralised in holes.csv');
  check((await visitor.allTroubles()).length === 0, 'troubles');
}

async function namesAndSmallGroups({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await openClassroom(visitor);
  await drop(hands, [['block.csv', table(['k1', 'k2', 'k3'])], ['names.csv', 'code,name\nk1,Ada Lamb\nk2,Bo Finch\nk3,Cy Moth\n']]);
  await hands.untilState((state) => state.learners === 3, 'three learners');
  await hands.key('1');
  await hands.item('Ada Lamb (k1)');
  await hands.click('Report files');
  check((await saved(hands, 'report.html')).toString().includes('Ada Lamb'), 'with names: the report lacks them');
  await hands.key('n');
  await hands.untilState((state) => state.are_names_hidden, 'hidden names');
  const report = (await saved(hands, 'report.html')).toString();
  check(!report.includes('Ada Lamb'), 'names hidden: the report has one');
  check(report.includes('fewer than 5 learners'), 'names hidden: a small group is shown');
  const summary = (await saved(hands, 'class-summary.json')).toString();
  check(!/Ada|k1/.test(summary), 'the summary names a learner');
  // Nothing to read: a sentence, and the class stays.
  await drop(hands, [['photo.attempt.json', 'no json at all']]);
  await hands.untilState((state) => state.roster?.refused.length === 1 && state.roster.attempts === 18, 'the refusal');
  check((await visitor.allTroubles()).length === 0, 'troubles');
}

async function byKeysAndMirror({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await openClassroom(visitor);
  await hands.page.waitForTimeout(500);
  await hands.page.evaluate(() => [...document.querySelectorAll('#mirror button')].find((one) => one.textContent === 'Open the demo class').click());
  await hands.untilState((state) => state.is_demo, 'the demo class by the page\'s copy');
  await hands.key('PageDown');
  await hands.untilState((state) => state.page === 'Aim or steadiness', 'the next page');
  await hands.key('Tab');
  const focused = (await hands.items()).some((item) => item.focused);
  check(focused, 'Tab gives nothing the focus');
  check((await visitor.allTroubles()).length === 0, 'troubles');
}

export const cases = [
  ['the demo class, page by page, with hidden names', demoClass],
  ['a folder with a tampered attempt; saved files equal the command line\'s', folderWithTampered, { limit_ms: 480000 }],
  ['zip files, also hostile ones', zipFiles],
  ['hostile words stay words', hostileWords],
  ['a list of names, and small groups without it', namesAndSmallGroups],
  ['by keys and through the page\'s copy', byKeysAndMirror],
];
