// Links that carry lessons, and zip files: what goes in comes out, and what is damaged is refused. node sharing_test.mjs
import assert from 'node:assert/strict';
import { deflateSync } from 'node:zlib';
import { inOrder } from '../../web/files.js';
import { appAddress } from '../../web/lesson_desk/addresses.js';
import { kLongest, kMark, pack, titleOf, unpack } from '../../web/share.js';
import { readZip } from '../../web/zip.js';
import { zipOf } from '../../web/zip_write.js';
import { namesIn, read, runCases } from './lib.mjs';

const file = (name) => ({ name: name.split('/').at(-1), text: read(name) });
const three = ['first-holes', 'find-the-centre', 'seat-it-first'].map((id) => file(`lessons/${id}.lesson.json`));
const files = [...three, file('lessons/guided-work.set.json')];
const raw = (content) => kMark + Buffer.from(deflateSync(typeof content === 'string' ? content : JSON.stringify(content))).toString('base64url');
const good = { format: 'driftbench-share', version: 1, files: three };
const refuses = (hash, sentence) => assert.rejects(unpack(hash), (failure) => failure.name === 'ShareTrouble' && sentence.test(failure.message));

await runCases({
  'a link gives back every byte': async () => {
    const hash = await pack({ set: 'guided-work', files });
    assert.match(hash, /^#open=[A-Za-z0-9_-]+$/);
    assert.deepEqual(await unpack(hash), { files, set: 'guided-work', lesson: undefined });
  },
  'a set of three lessons stays far below the longest link': async () => {
    const hash = await pack({ set: 'guided-work', files });
    assert.ok(hash.length < kLongest / 2, `${hash.length} characters`);
  },
  'other letters survive': async () => {
    const odd = [{ name: 'x.lesson.json', text: '{"title": {"en": "Größe 骨 \u{1F9B7}"}}' }];
    assert.deepEqual((await unpack(await pack({ lesson: 'x', files: odd }))).files, odd);
    assert.equal(titleOf(odd[0]), 'Größe 骨 \u{1F9B7}');
    assert.equal(titleOf({ name: 'n', text: 'no JSON' }), 'n');
  },
  'a link that was cut or changed is refused with a sentence': async () => {
    const hash = await pack({ set: 'x', files });
    await refuses(hash.slice(0, -20), /cut off/);
    await refuses(`${hash.slice(0, 60)}${hash[60] === 'A' ? 'B' : 'A'}${hash.slice(61)}`, /damaged/);
    await refuses(`${kMark}%%%`, /damaged/);
    await refuses(kMark, /damaged/);
    await refuses('#other', /no lessons/);
  },
  'other content is refused': async () => {
    await refuses(raw('[]'), /something else/);
    await refuses(raw({ ...good, version: 2 }), /version 2/);
    for (const name of ['../x.lesson.json', 'x.attempt.json', 'X.lesson.json', 'x.lesson.json/..', 3]) {
      await refuses(raw({ ...good, files: [{ name, text: '{}' }] }), /does not hold/);
    }
    await refuses(raw({ ...good, files: [{ name: 'x.lesson.json', text: {} }] }), /does not hold/);
    await refuses(raw({ ...good, files: Array.from({ length: 61 }, (_, i) => ({ name: `a${i}.lesson.json`, text: '{}' })) }), /does not hold/);
    await refuses(raw({ ...good, files: {} }), /does not hold/);
    assert.equal((await unpack(raw({ ...good, set: 'a b<' }))).set, undefined);
  },
  'a link that unpacks without end is stopped': async () => {
    await refuses(raw('a'.repeat(3 * 1024 * 1024)), /more than/);
  },
  'addresses have what is asked for and nothing else': () => {
    assert.equal(appAddress('http://127.0.0.1:8000/', { set: 'a', seed: '', class: 'x-1', lock: 1 }), 'http://127.0.0.1:8000/?set=a&class=x-1&lock=1');
    assert.equal(appAddress('http://127.0.0.1:8000/', {}, '#open=x'), 'http://127.0.0.1:8000/#open=x');
  },
  'kits come before pieces of jaw, lessons, sets and others': () => {
    const names = ['z.attempt.json', 'a.set.json', 'b.lesson.json', 'a.lesson.json', 'c.specimen.json', 'd.kit.json'];
    assert.deepEqual(inOrder(names.map((name) => ({ name }))).map(({ name }) => name),
      ['d.kit.json', 'c.specimen.json', 'b.lesson.json', 'a.lesson.json', 'a.set.json', 'z.attempt.json']);
  },
  'a zip file gives back every byte, and is the same every time': async () => {
    const all = namesIn('lessons', '.json').map(file);
    const bytes = zipOf([...all, { name: 'größe.lesson.json', text: 'ü' }, { name: 'empty.json', text: '' }]);
    const { entries, refused } = await readZip(bytes, 'x.zip');
    assert.deepEqual(refused, []);
    assert.equal(entries.length, all.length + 2);
    for (const [i, { name, text }] of all.entries()) {
      assert.equal(entries[i].name, name);
      assert.equal(new TextDecoder().decode(await entries[i].read()), text);
    }
    assert.deepEqual(zipOf(all), zipOf(all));
    assert.deepEqual((await readZip(zipOf([]), 'x.zip')).entries, []);
  },
});
