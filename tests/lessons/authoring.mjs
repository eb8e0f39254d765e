// The authors' page names every field of lesson and set files, with range, words and default as the schemas have them.
// usage: node tests/lessons/authoring.mjs
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const read = (name) => fs.readFileSync(path.join(root, name), 'utf8');
let passed = 0;

/** Rows of the tables by heading: heading -> field -> row. */
function tables(page) {
  const found = new Map();
  let rows = null;
  for (const line of page.split('\n')) {
    const heading = /^##+ (.+)$/.exec(line)?.[1];
    if (heading) found.set(heading, rows = new Map());
    const field = /^\| `([a-z0-9_]+)` \|/.exec(line)?.[1];
    if (field) rows.set(field, line);
  }
  return found;
}

/** Everything that a row must hold about a property. */
function facts(property, is_required) {
  const inner = property.items ?? property;
  const wanted = [...(inner.enum ?? []).map((word) => `\`${word}\``)];
  for (const limit of [property.minimum, property.maximum, property.minItems, property.maxItems, inner.minimum, inner.maximum]) {
    if (limit !== undefined) wanted.push(limit === Number.MAX_SAFE_INTEGER ? '2^53 − 1' : limit.toLocaleString('en'));
  }
  const stated = /\bdefault ([^,;]+|\[.*\])$/.exec(property.description ?? '')?.[1];
  if (stated && !/^(all|every device|the first)/.test(stated)) wanted.push(stated);
  if (is_required) wanted.push('**required**');
  return wanted;
}

export function problems_of(page, schemas) {
  const problems = [];
  const on_page = tables(page);
  const visit = (heading, object) => {
    const rows = on_page.get(heading);
    if (!rows) problems.push(`found no heading "${heading}"`);
    for (const [name, property] of Object.entries(object.properties)) {
      const row = rows?.get(name);
      if (!row) {
        problems.push(`${heading}: found no row for ${name}`);
      } else {
        const cells = row.split('|').slice(1, -1).map((cell) => cell.trim());
        if (cells.length !== 5 || !cells[1] || !cells[3] || !cells[4]) problems.push(`${heading}: found a cell of ${name} empty`);
        for (const fact of facts(property, object.required?.includes(name))) {
          if (row.includes(fact)) ++passed;
          else problems.push(`${heading}: found no "${fact}" in the row of ${name}`);
        }
      }
      if (property.properties) visit(name, property);
    }
    for (const name of rows?.keys() ?? []) {
      if (!(name in object.properties)) problems.push(`${heading}: found a row for ${name}, which the schema does not have`);
    }
  };
  for (const [heading, schema] of schemas) {
    visit(heading, schema);
    for (const [name, definition] of Object.entries(schema.definitions)) {
      if (definition.properties) visit(name, definition);
    }
  }
  return problems;
}

const page = read('lessons/AUTHORING.md');
const schemas = ['lesson', 'set'].map((kind) => [`Fields of a ${kind}`, JSON.parse(read(`lessons/schema/${kind}.schema.json`))]);
const problems = problems_of(page, schemas);
// The check itself finds a lost row, a changed limit and an empty cell.
for (const [what, spoilt] of [['row', page.replace(/^\| `seed`.*\n/m, '')], ['limit', page.replace('0.05 to 10', '0.5 to 10')],
  ['meaning', page.replace('| cross at the planned centre |', '|  |')], ['invented field', page.replace('| `seed`', '| `seeds`')]]) {
  if (spoilt === page || problems_of(spoilt, schemas).length <= problems.length) problems.push(`a spoilt ${what} was not found`);
}
problems.forEach((problem) => console.log(`lessons/AUTHORING.md: ${problem}`));
console.log(`authoring: ${passed} facts found, ${problems.length} problems`);
process.exitCode = problems.length === 0 && passed >= 100 ? 0 : 1;
