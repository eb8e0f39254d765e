// The class summary that the address names (?class=class-summary.json), fetched from this site only.
const LARGEST = 1024 * 1024;
const NAME = 'class-summary.json';

/** Fetches it and opens it as a file that was dropped; `fail` takes a sentence. */
export async function follow(link, open, fail) {
  const address = new URL(link, location.href);
  if (address.origin !== location.origin) {
    fail(`The link to a class summary leads to ${address.origin}; this page reads from its own site only. Open the file instead.`);
    return;
  }
  try {
    const answer = await fetch(address, {credentials: 'same-origin'});
    if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
    const bytes = new Uint8Array(await answer.arrayBuffer());
    if (bytes.length > LARGEST) throw new Error(`it has ${bytes.length} bytes, expected at most ${LARGEST}`);
    open(NAME, bytes);
  } catch (failure) {
    fail(`The class summary that the link names could not be read: ${failure.message}.`);
  }
}
