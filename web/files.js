// Files that may name one another, in the order in which they can be understood: kits, pieces of jaw, lessons, sets.
const ENDINGS = ['.kit.json', '.specimen.json', '.lesson.json', '.set.json'];
const COUNT = ENDINGS.length + 1;
const rank = ({name}) => (ENDINGS.findIndex(ending => name.endsWith(ending)) + COUNT) % COUNT;  // others come last

/** `files`: anything with a name. */
export const inOrder = files => [...files].sort((a, b) => rank(a) - rank(b));
