// JSON Schemas of lessons and sets read as forms: which field is of which kind, with range, unit and usual value. Pure.

const UNITS = [['_n_per_mm', 'N/mm'], ['_mm', 'mm'], ['_deg', '°'], ['_n', 'N'], ['_s', 's'], ['_days', 'days'], ['_rpm', 'rpm']];

export const isText = node => node?.patternProperties !== undefined;

/** The definition behind a `$ref`, with the reference's own description. */
export function resolve(node, schema) {
  if (!node?.$ref) return node;
  const target = node.$ref.split('/').slice(1).reduce((at, step) => at[step], schema);
  return {...target, ...(node.description ? {description: node.description} : {})};
}

/** What kind of control a node needs. */
export function kindOf(given, schema) {
  const node = resolve(given, schema);
  if (node.const !== undefined) return 'const';
  if (isText(node)) return 'text';
  if (node.enum) return 'choice';
  if (node.if && node.then && node.else && !node.properties) return 'either';
  if (node.type === 'boolean') return 'flag';
  if (node.type === 'integer' || node.type === 'number') return 'number';
  if (node.type === 'string') return 'word';
  if (node.type === 'array') {
    const item = resolve(node.items, schema);
    if (isText(item)) return 'texts';
    if (item.enum) return 'several';
    if (item.type === 'string') return 'words';
    if (item.type === 'integer' || item.type === 'number') return 'numbers';
    return 'list';
  }
  return 'group';
}

/** The usual value as the description states it at its end ("default 3.5"), or ''. */
export function usualValue(description = '') {
  return /\bdefault ([^,;]+|\[.*\])$/.exec(description)?.[1] ?? '';
}

/** The description without its usual value. */
export function meaning(description = '') {
  return description.replace(/[,;:]?\s*\bdefault:? ([^,;]+|\[.*\])$/, '').trim();
}

export const unitOf = name => UNITS.find(([ending]) => name.endsWith(ending))?.[1] ?? '';

/** "3 to 20 mm", or '' without limits. */
export function rangeOf(node, name = '', locale = 'en') {
  const [low, high] = [node.minimum, node.maximum];
  if (low === undefined || high === undefined) return '';
  const shown = value => (value === Number.MAX_SAFE_INTEGER ? '2^53 − 1' : value.toLocaleString(locale).replace('-', '−'));
  const unit = unitOf(name);
  return `${shown(low)} to ${shown(high)}${unit === '°' ? unit : ` ${unit}`}`.trim();
}

/** Name in plain words: "band_share" -> "Band share", "gap_mm" -> "Gap". */
export function plainName(name) {
  const ending = UNITS.find(([end]) => name.endsWith(end) && name !== end.slice(1))?.[0] ?? '';
  const words = name.slice(0, name.length - ending.length).replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The fields of an object: [{name, kind, node, isRequired}]; fixed words are left out. */
export function fieldsOf(given, schema) {
  const node = resolve(given, schema);
  return Object.entries(node.properties ?? {})
    .map(([name, property]) => ({
      name, node: resolve(property, schema), kind: kindOf(property, schema), isRequired: (node.required ?? []).includes(name),
    }))
    .filter(({kind}) => kind !== 'const');
}

/** The smallest value that the schema takes: what is required and nothing else. */
export function smallest(given, schema) {
  const node = resolve(given, schema);
  switch (kindOf(node, schema)) {
    case 'const': return node.const;
    case 'text': return {en: '…'};
    case 'choice': return node.enum[0];
    case 'flag': return false;
    case 'number': return Math.max(node.minimum ?? 0, Math.min(0, node.maximum ?? 0));
    case 'word': return node.pattern?.includes('sha256') ? '' : 'a';
    case 'either': return smallest(node.else, schema);
    case 'group': return Object.fromEntries((node.required ?? []).map(name => [name, smallest(node.properties[name], schema)]));
    default: return Array.from({length: node.minItems ?? 0}, () => smallest(node.items, schema));
  }
}

/** Arrays of objects that have forms of their own; others stand within the form. */
const kOwnForms = new Set(['lesson.blocks', 'set.lessons']);

/** Every field of a schema by its place in a form: "block.plan.depth_mm". */
export function placesOf(schema, root) {
  const places = [];
  const visit = (node, at) => {
    for (const field of fieldsOf(node, schema)) {
      const place = `${at}.${field.name}`;
      places.push(place);
      if (field.kind === 'group') visit(field.node, place);
      if (field.kind === 'list' && !kOwnForms.has(place)) visit(field.node.items, place);
      if (field.kind === 'either') [field.node.then, field.node.else].forEach(branch => visit(branch, place));
    }
  };
  visit(root === undefined ? schema : schema.definitions[root], root ?? /Driftbench (\w+)/.exec(schema.title)[1]);
  return [...new Set(places)];
}
