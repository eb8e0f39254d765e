// What comes with the app, as the desk offers it: lessons, sets, kits, pieces of jaw, operators, skeletons, schemas.

/** files: [{path, text, sha256}] as the core has them. */
export function knownOf(files) {
  const within = (folder, ending) => files
    .filter(({path}) => path.startsWith(folder) && path.endsWith(ending) && !path.slice(folder.length).includes('/'))
    .map(({text}) => JSON.parse(text));
  const schema = kind => within('lessons/schema/', `${kind}.schema.json`)[0];
  return {
    schemas: {lesson: schema('lesson'), set: schema('set')},
    templates: within('lessons/templates/', '.lesson.json'), lessons: within('lessons/', '.lesson.json'), sets: within('lessons/', '.set.json'),
    kits: within('assets/kits/', '.kit.json'), cases: within('assets/specimens/', '.specimen.json'), operators: within('assets/operators/', '.json'),
    digests: Object.fromEntries(files.filter(({path}) => /^lessons\/[^/]+\.lesson\.json$/.test(path))
      .map(({path, sha256}) => [path.slice('lessons/'.length, -'.lesson.json'.length), sha256])),
  };
}

/** The same, with kits and pieces of jaw that were opened. */
export function knownWith(known, values) {
  const joined = (list, format) => {
    const more = values.filter(value => value.format === format);
    return [...list.filter(({id}) => !more.some(value => value.id === id)), ...more];
  };
  return {...known, kits: joined(known.kits, 'driftbench-kit'), cases: joined(known.cases, 'driftbench-specimen')};
}
