// The form of what is chosen: groups of fields, made from the schemas and a small table of where things belong. Pure.
import {blocksOf, valueAt, wordsOf} from './project.js';
import {fieldsOf, kindOf, resolve} from './schema.js';

const GROUPS = {
  set: [['groupTexts', ['title', 'introduction']], ['groupTeacher', ['teacher_notes']], ['groupClass', ['class_code', 'seed']],
    ['groupFile', ['id', 'revision']]],
  entry: [['ofSet', ['opens', 'after_days', 'retention', 'sha256']]],
  lesson: [['groupTexts', ['title', 'question', 'minutes', 'objectives', 'common_mistakes', 'not_taught']],
    ['groupTeacher', ['teacher_notes']], ['groupTolerance', ['tolerance']], ['groupPass', ['criterion']],
    ['groupBefore', ['prediction']], ['groupOrder', ['order']], ['groupDevice', ['device']], ['groupFile', ['kit', 'seed', 'id', 'revision']]],
  block: [['groupWhat', ['title', 'approach', 'attempts', 'place_implant', 'implant_through_guide', 'worked_example']],
    ['groupMaterial', ['specimen']], ['groupPlan', ['plan']], ['groupGuide', ['guide']], ['groupShow', ['show']],
    ['groupAfter', ['estimate', 'estimate_every', 'feedback']], ['groupFile', ['id', 'site']]],
};
/** Lists that the outline shows, and what the desk writes itself. */
const ELSEWHERE = new Set(['lesson.blocks', 'set.lessons', 'entry.file']);

/** Shown with "every field" only: the usual values serve nearly everybody. */
const RARE = new Set(['block.specimen.edge_mm', 'block.specimen.voxel_mm', 'block.specimen.id', 'block.guide.foot_span_mm',
  'block.guide.seat_force_n', 'block.guide.support_stiffness_n_per_mm', 'block.guide.foot_stiffness_n_per_mm', 'block.guide.support', 'block.guide.mouth_opening_mm',
  'lesson.criterion.p_bad', 'lesson.criterion.p_ok', 'lesson.criterion.limit', 'block.site', 'block.feedback.delay_s',
  'entry.sha256']);

/** Shown where they mean something; the object they lie in decides. */
const WHEN = {
  'block.estimate_every': block => block.estimate === 'every-nth',
  'block.implant_through_guide': block => block.approach !== 'freehand',
  'block.guide': block => block.approach !== 'freehand',
  'block.feedback.full_first': feedback => feedback.when === 'fading',
  'block.feedback.between': feedback => feedback.when !== 'terminal',
  'block.feedback.band_share': feedback => feedback.when === 'band',
  'block.specimen.slope_direction_deg': specimen => specimen.slope_deg !== 0 && specimen.slope_deg !== undefined,
  'block.specimen.boundary_offset_mm': specimen => specimen.halves?.second !== undefined,
  'block.specimen.boundary_deg': specimen => specimen.halves?.second !== undefined,
  'lesson.criterion.blocks': criterion => criterion.rule !== 'none',
  'lesson.criterion.measures': criterion => criterion.rule !== 'none',
  'lesson.criterion.never': criterion => criterion.rule !== 'none',
  'lesson.criterion.good': criterion => criterion.rule === 'k-of-last',
  'lesson.criterion.last': criterion => criterion.rule === 'k-of-last',
  'lesson.criterion.cap': criterion => ['k-of-last', 'learning-evidence'].includes(criterion.rule),
  'lesson.order.mix': order => order.kind !== 'fixed',
  'lesson.order.run_sizes': order => order.kind === 'permuted-blocks',
};

/** Fields that name something else. */
const NAMES = {
  'lesson.kit': 'kits', 'block.plan.implant': 'implants', 'block.plan.drills': 'drills', 'block.guide.sleeve': 'sleeves',
  'block.specimen.case': 'cases', 'lesson.criterion.blocks': 'blocks', 'lesson.order.mix': 'blocks', 'entry.retention.block': 'blocks',
  'block.worked_example.operator': 'operators', 'lesson.prediction.groups.operator': 'operators', 'lesson.prediction.groups.block': 'blocks',
};

/** What those fields may name: [{value, label}] of each kind, for a lesson. */
export function namesFor(lesson, known, titleIn) {
  const kit = known.kits.find(({id}) => id === lesson?.kit);
  const named = list => (list ?? []).map(one => ({value: one.id, label: one.name ?? titleIn(one.title) ?? one.id}));
  const drill = one => ({value: one.id, label: `${one.kind} ${one.diameter_mm} mm`});
  const implant = one => ({value: one.id, label: `${one.diameter_mm} × ${one.length_mm} mm`});
  const sleeve = one => ({value: one.id, label: `${one.bore_mm} mm, ${one.height_mm} mm high`});
  return {
    kits: named(known.kits), cases: named(known.cases), drills: (kit?.drills ?? []).map(drill),
    implants: (kit?.implants ?? []).map(implant), sleeves: (kit?.sleeves ?? []).map(sleeve), operators: named(known.operators), blocks: named(blocksOf(lesson)),
  };
}

/**
 * Groups of one form: [{title, fields}]. A field is {key, place, form, at, path, kind, node, value, isRequired, depth,
 * names}; fields of a group inside a form follow it, one level deeper. `isAsked(words)`: something is wrong there.
 */
export function formOf({form, at, root, start = [], schema, node, names, showAll, isAsked}) {
  const parts = new Map(fieldsOf(node, schema).map(field => [field.name, field]));
  const kind = start.length > 0 ? 'block' : form;

  function rows(field, path, place, holder, depth) {
    const words = wordsOf(path);
    const isWrong = isAsked(form, at, words);
    if (ELSEWHERE.has(place) || (!showAll && !isWrong && (RARE.has(place) || WHEN[place]?.(holder ?? {}) === false))) return [];
    const value = valueAt(root, path);
    const own = {
      key: `${form} ${at} ${words}`, place, form, at, path, kind: field.kind, node: field.node, value,
      // A guided block needs its guide: there is nothing to tick.
      isRequired: field.isRequired || (place === 'block.guide' && value !== undefined && holder?.approach !== 'freehand'), depth, names: NAMES[place] ? names[NAMES[place]] ?? [] : null, refers: NAMES[place] ?? '',
    };
    const inside = (inner, to) => fieldsOf(inner, schema).flatMap(part => rows(part, [...to, part.name], `${place}.${part.name}`, valueAt(root, to), depth + 1));
    if (field.kind === 'group') return [own, ...(value === undefined && !field.isRequired ? [] : inside(field.node, path))];
    if (field.kind === 'either') {
      const isFirst = value !== null && typeof value === 'object' && (field.node.if.required ?? []).every(name => name in value);
      return [{...own, isFirst}, ...inside(isFirst ? field.node.then : field.node.else, path)];
    }
    if (field.kind === 'list') {
      const item = resolve(field.node.items, schema);
      const list = Array.isArray(value) ? value : [];
      return [{...own, item}, ...list.flatMap((_, i) => [
        {...own, key: `${own.key}[${i}]`, path: [...path, i], kind: 'listed', value: undefined, number: i, depth: depth + 1},
        ...fieldsOf(item, schema).flatMap(part => rows(part, [...path, i, part.name], `${place}.${part.name}`, list[i], depth + 2))])];
    }
    return [own];
  }

  const groups = GROUPS[kind].map(([title, wanted]) => [title, wanted.filter(name => parts.has(name))]);
  const placed = new Set(groups.flatMap(([, wanted]) => wanted));
  const rest = [...parts.keys()].filter(name => !placed.has(name) && !ELSEWHERE.has(`${kind}.${name}`));
  return [...groups.slice(0, -1), ['groupMore', rest], ...groups.slice(-1)]
    .map(([title, wanted]) => ({
      title, key: `${kind} ${title}`,
      fields: wanted.flatMap(name => rows(parts.get(name), [...start, name], `${kind}.${name}`, valueAt(root, start), 0)
        .map((field, i) => (i === 0 ? {...field, isAlone: wanted.length === 1} : field))),
    }))
    .filter(({fields}) => fields.length > 0);
}

/** Every place that some form shows when every field is asked for; tests hold it against the schemas. */
export function placesShown(schema, form, root, start, node) {
  const groups = formOf({form, at: 0, root, start, schema, node, names: {}, showAll: true, isAsked: () => false});
  return new Set(groups.flatMap(({fields}) => fields.map(({place}) => place)));
}

export {kindOf};
