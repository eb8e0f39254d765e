// A program in two parts, with parts small enough to write down: node parts_test.mjs. The first exports f, which calls
// the place 0 of its table; the second puts a function there that gives 200.
import { strict as assert } from 'node:assert';
import { makeParts } from '../../web/parts.js';

const kHead = [0, 0x61, 0x73, 0x6d, 1, 0, 0, 0, /* type () -> i32 */ 1, 5, 1, 0x60, 0, 1, 0x7f];
const letters = (text) => [text.length, ...Buffer.from(text)];
const kFunction = [3, 2, 1, 0];
const kPlace0 = [9, 7, 1, 0, 0x41, 0, 0x0b, 1, 0];
const kFirst = Uint8Array.from([...kHead, 2, 11, 1, ...letters('later'), ...letters('0'), 0, 0, ...kFunction, 4, 4, 1, 0x70, 0, 1,
  7, 9, 2, ...letters('t'), 1, 0, ...letters('f'), 0, 1, ...kPlace0, 0x0a, 9, 1, 7, 0, 0x41, 0, 0x11, 0, 0, 0x0b]);
const kLater = Uint8Array.from([...kHead, 2, 15, 1, ...letters('primary'), ...letters('t'), 1, 0x70, 0, 1, ...kFunction,
  ...kPlace0, 0x0a, 7, 1, 5, 0, 0x41, 0xc8, 1, 0x0b]);

const files = { 'first.wasm': kFirst, 'later.wasm': kLater };
const bytesOf = (url) => files[new URL(url).pathname.split('/').at(-1)];
let asked = [];
let warnings = [];
globalThis.fetch = async (url) => {
  asked.push('fetch');
  return new Response(bytesOf(url), { headers: { 'content-type': 'application/wasm' } });
};
globalThis.XMLHttpRequest = class {
  open(method, url, isAsync) {
    assert.equal(isAsync, false);
    this.url = url;
  }
  overrideMimeType(type) { assert.match(type, /x-user-defined/); }
  send() {
    asked.push('at once');
    const bytes = bytesOf(this.url);
    this.status = bytes ? 200 : 404;
    // As a browser decodes x-user-defined: bytes from 0x80 lie in U+F780 to U+F7FF.
    this.responseText = String.fromCharCode(...(bytes ?? [])).replace(/[\x80-\xff]/g, (one) => String.fromCharCode(0xf700 + one.charCodeAt(0)));
  }
};
console.warn = (text) => warnings.push(text);

async function started(later = 'later.wasm') {
  asked = [];
  warnings = [];
  const parts = makeParts('first.wasm', later);
  const made = await parts.first({});
  return { parts, f: made.instance.exports.f };
}

const cases = {
  async 'the second part is called when it has come'() {
    const { parts, f } = await started();
    await parts.later();
    assert.equal(f(), 200);
    assert.deepEqual([asked, warnings], [['fetch', 'fetch'], []]);
  },
  async 'a call before it has come fetches it at once, and says so'() {
    const { parts, f } = await started();
    assert.equal(f(), 200);
    assert.deepEqual(asked, ['fetch', 'at once']);
    assert.match(warnings.join(), /^Function 0 of the second part was called before it came/);
    assert.equal(f(), 200);
    await parts.later();
    assert.equal(f(), 200);
    assert.equal(warnings.length, 1);
  },
  async 'a part that is not there is named'() {
    const { f } = await started('gone.wasm');
    assert.throws(f, /gone\.wasm could not be loaded: the server answered 404/);
  },
};

for (const [name, run] of Object.entries(cases)) {
  await run();
  console.log(`passed: ${name}`);
}
