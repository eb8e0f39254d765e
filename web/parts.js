// A program in two parts: the first starts the page; the second follows and fills the places it left open
// (src/split.mjs). Whoever calls into the second before it has come waits for it, and the page stands still meanwhile.

async function instantiate(url, imports) {
  try {
    return await WebAssembly.instantiateStreaming(fetch(url, {credentials: 'same-origin'}), imports);
  } catch {  // a server without the type of WebAssembly, or a break in the line: once more, as plain bytes
    const answer = await fetch(url, {credentials: 'same-origin'});
    if (!answer.ok) throw new Error(`${url} could not be loaded: the server answered ${answer.status}`);
    return WebAssembly.instantiate(await answer.arrayBuffer(), imports);
  }
}

function instantiateNow(url, imports) {
  const ask = new XMLHttpRequest();
  ask.open('GET', url, false);
  ask.overrideMimeType('text/plain; charset=x-user-defined');  // every byte as a character, its low half the byte
  ask.send();
  if (ask.status !== 200) throw new Error(`${url} could not be loaded: the server answered ${ask.status}`);
  const bytes = Uint8Array.from(ask.responseText, character => character.charCodeAt(0) & 255);
  return new WebAssembly.Instance(new WebAssembly.Module(bytes), imports);
}

export function makeParts(first, later) {
  const [firstUrl, laterUrl] = [first, later].map(name => new URL(name, import.meta.url).href);
  let primary = null;
  let table = null;
  let hasCome = false;
  // The second part puts its functions into the table of the first and keeps nothing of its own: coming twice is no harm.
  const call = (slot, values) => {
    if (!hasCome) {
      console.warn(`Function ${slot} of the second part was called before it came.`);
      instantiateNow(laterUrl, {primary});
      hasCome = true;
    }
    return table.get(Number(slot))(...values);
  };
  return {
    async first(imports) {
      imports.later = new Proxy({}, {get: (_, slot) => (...values) => call(String(slot), values)});
      const made = await instantiate(firstUrl, imports);
      primary = made.instance.exports;
      table = Object.values(primary).find(it => it instanceof WebAssembly.Table);
      return made;
    },
    async later() {
      await instantiate(laterUrl, {primary});
      hasCome = true;
    },
  };
}
