// A program in two parts: the first starts the page; the second follows and fills the places it left open
// (src/split.mjs). What the second holds must not be called before it has come.

async function instantiate(name, imports) {
  const url = new URL(name, import.meta.url);
  try {
    return await WebAssembly.instantiateStreaming(fetch(url, {credentials: 'same-origin'}), imports);
  } catch {  // a server without the type of WebAssembly, or a break in the line: once more, as plain bytes
    const answer = await fetch(url, {credentials: 'same-origin'});
    if (!answer.ok) throw new Error(`${name} could not be loaded: the server answered ${answer.status}`);
    return WebAssembly.instantiate(await answer.arrayBuffer(), imports);
  }
}

export function makeParts(first, later) {
  let primary = null;
  return {
    async first(imports) {
      imports.later = new Proxy({}, {
        get: (_, slot) => () => { throw new Error(`Function ${String(slot)} of the second part was called before it came`); },
      });
      const made = await instantiate(first, imports);
      primary = made.instance.exports;
      return made;
    },
    later: () => instantiate(later, {primary}),
  };
}
