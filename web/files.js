// Files of the page: their order, and how one is offered.

// They may name one another; they can be understood in this order: kits, pieces of jaw, lessons, sets.
const ENDINGS = ['.kit.json', '.specimen.json', '.lesson.json', '.set.json'];
const COUNT = ENDINGS.length + 1;
const rank = ({name}) => (ENDINGS.findIndex(ending => name.endsWith(ending)) + COUNT) % COUNT;  // others come last

/** `files`: anything with a name. */
export const inOrder = files => [...files].sort((a, b) => rank(a) - rank(b));

/** Offers `content` as a file. */
export function saveFile(name, content, type = 'application/octet-stream') {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([content], {type}));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
