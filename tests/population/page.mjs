// Writes the evidence page: what fits, what does not, and every figure beside its source.
import { measures, sample_of } from './arms.mjs';
import { bootstrap, mean, quantile, sd } from './numbers.mjs';
import { interval_text, model_text, published_text } from './summary.mjs';

const kApproachWords = { freehand: 'free-hand', pilot: 'pilot only', sleeve: 'full guidance' };
const kResolutionWords = { 'half-voxel': 'voxel 0.15 → 0.075 mm', 'half-step': 'step 1 → 0.5 ms', both: 'both' };
const kCaseWords = {
  upright: 'free-hand, upright, even foam', lean: 'free-hand, leaning 4°, even foam', 'lean-wander': 'free-hand, leaning 4° the other way, wandering hand',
  boundary: 'free-hand, upright, on the seam', 'boundary-lean': 'free-hand, leaning 4°, beside the seam, wandering hand', sleeve: 'through the sleeve, pulled aside and leaning, on the seam',
};

const table = (head, rows) => [`| ${head.join(' | ')} |`, `|${head.map(() => ' --- ').join('|')}|`, ...rows.map((row) => `| ${row.join(' | ')} |`)].join('\n');
const capital = (text) => text[0].toUpperCase() + text.slice(1);

function judgement(result) {
  if (result.state === 'missing') return 'not simulated';
  if (result.state === 'shown') return 'shown only';
  if (result.means) {
    if (result.state === 'outside') return 'does not hold';
    if (!result.settled) return 'not settled by so few attempts';
    return result.proven ? 'holds (99 % interval)' : 'holds, difference within chance';
  }
  if (result.state === 'inside') return result.found >= result.band[0] && result.found <= result.band[1] ? 'inside' : 'within chance of the band';
  return result.found < result.band[0] ? 'outside: model smaller' : 'outside: model larger';
}

function comparison(results, studies) {
  return table(['figure', 'source', 'published', 'band', 'model (95 % interval)', 'judgement'], results.map((result) => [
    capital(result.row.what) + (result.row.required ? ' **(required)**' : ''),
    studies[result.row.study].short,
    published_text(result.row.published),
    result.band ? interval_text(result.band) : '–',
    model_text(result) + (result.interval ? ` (${interval_text(result.interval)})` : ''),
    judgement(result),
  ]));
}

function arm_rows(arms, names) {
  return table(['arm', 'n', 'entry mm', 'apex mm', 'angle °', 'depth mm', 'SD entry md mm', 'SD tilt md °', 'oversize mm', 'ovality mm', 'time s'],
    names.filter((name) => arms.has(name) && arms.get(name).rows.length >= 3).map((name) => {
      const pick = (measure) => sample_of(arms, name, measure);
      const both = (measure, digits = 2) => `${mean(pick(measure)).toFixed(digits)} ± ${sd(pick(measure)).toFixed(digits)}`;
      const [population, operator, approach] = name.split('/');
      return [`${population}, ${operator}, ${kApproachWords[approach]}`, String(pick('angle_deg').length), both('entry_mm'), both('apex_mm'), both('angle_deg'),
        both('depth_mm'), sd(pick('entry_md_mm')).toFixed(2), sd(pick('tilt_md_deg')).toFixed(2), both('oversize_mm', 4), both('ovality_mm', 3), both('time_s', 1)];
    }));
}

const picture = (file, caption) => `![${caption}](${file})\n\n*${caption}*`;

function notes_of(results) {
  const notes = new Map();
  for (const { row } of results) {
    if (!row.note) continue;
    if (!notes.has(row.note)) notes.set(row.note, []);
    notes.get(row.note).push(row.what);
  }
  return [...notes].map(([note, rows]) => `- ${note} (${rows.length === 1 ? rows[0] : `${rows.length} figures`})`).join('\n');
}

function summary({ results, published, cutting, convergence, problems, is_quick, count }) {
  const judged = results.filter((result) => result.state === 'inside' || result.state === 'outside');
  const inside = judged.filter((result) => result.state === 'inside');
  const required = judged.filter((result) => result.row.required);
  const missing = results.filter((result) => result.state === 'missing');
  const outside = judged.filter((result) => result.state === 'outside');
  const lines = [
    `**${inside.length} of ${judged.length} figures inside their bands; of the ${required.length} required ones, `
      + `${required.filter((result) => result.state === 'inside').length}.** ${count} attempts an arm${is_quick ? ', wide bands (quick run)' : ''}.`,
  ];
  if (outside.length > 0) {
    lines.push(`Not inside:\n\n${outside.map((result) => `- ${result.row.required ? '**required:** ' : ''}${result.row.what}: model ${model_text(result)}, `
      + `published ${published_text(result.row.published)}${result.band ? `, band ${interval_text(result.band)}` : ''} (${published.studies[result.row.study].short})`).join('\n')}`);
  }
  if (missing.length > 0) lines.push(`Not simulated in this run: ${missing.length} figures.`);
  if (cutting.length > 0) {
    const all = cutting.flatMap((row) => Object.entries(row.judged).map(([key, judged_one]) => ({ row, key, ...judged_one })));
    const bad = all.filter((each) => !each.inside);
    lines.push(`Cutting: ${all.length - bad.length} of ${all.length} published thrusts and torques within 25 %`
      + `${bad.length > 0 ? `; not: ${bad.map((each) => `${each.key === 'thrust_n' ? 'thrust' : 'torque'} at ${each.row.model.speed_rpm} rpm`).join(', ')}` : ''}.`);
  }
  if (convergence.length > 0) {
    const bad = convergence.filter((row) => row.state !== 'inside');
    lines.push(`Convergence: ${convergence.length - bad.length} of ${convergence.length} refinements change the hole by less than the limits`
      + `${bad.length > 0 ? `; not: ${bad.map((row) => `${kCaseWords[row.id]} (${kResolutionWords[row.finer.id]})`).join('; ')}` : ''}.`);
  }
  if (problems.length > 0) lines.push(`Trouble:\n\n${problems.map((problem) => `- ${problem}`).join('\n')}`);
  return lines.join('\n\n');
}

function accuracy_section({ results, arms, published, figures }) {
  const rows = results.filter((result) => result.row.part === 'accuracy');
  const parts = [
    '## Novices in even foam',
    'Uniform block of D2 foam, four drills to 4.0 mm, 10 mm deep; every attempt is another person\'s first. The published studies used jaws and models; the block is our own choice.',
    comparison(rows, published.studies),
    notes_of(rows),
    arm_rows(arms, ['freehand', 'pilot', 'sleeve'].map((approach) => `uniform/novice/${approach}`)),
    'Means ± SD. Lengths lateral, depth of the floor with sign, + deeper.',
  ];
  for (const [file, caption] of figures.filter(([file]) => file.startsWith('accuracy') || file.startsWith('uniform'))) parts.push(picture(file, caption));
  return parts;
}

function operators_section({ results, arms, published, figures }) {
  const rows = results.filter((result) => result.row.part === 'operators' && result.state !== 'missing');
  if (rows.length === 0) return [];
  return ['## Experience', 'The same block and lessons, trained and expert operators. Whether the people of a study were like either of them is not known; the clinical figures carry what a block has not.',
    comparison(rows, published.studies), notes_of(rows),
    arm_rows(arms, ['trained', 'expert'].flatMap((who) => ['freehand', 'pilot', 'sleeve'].map((approach) => `uniform/${who}/${approach}`))),
    ...figures.filter(([file]) => file.startsWith('operators')).map(([file, caption]) => picture(file, caption))];
}

/// Signed means of every approach of a population.
function signed_table(arms, population, measure_titles, side_title) {
  const rows = Object.keys(kApproachWords).map((approach) => {
    const pick = (measure) => sample_of(arms, `${population}/${approach}`, measure);
    const with_interval = (measure) => `${mean(pick(measure)).toFixed(2)} (${interval_text(bootstrap([pick(measure)], ([a]) => mean(a)))})`;
    const side = pick('entry_md_mm');
    return [kApproachWords[approach], String(side.length), ...Object.keys(measure_titles).map(with_interval), sd(side).toFixed(2),
      `${Math.round(100 * side.filter((value) => value > 0).length / side.length)} %`];
  });
  return table(['approach', 'n', ...Object.values(measure_titles).map((title) => `${title}, mean (95 %)`), 'SD of entry md', side_title], rows);
}

/// A population for which no study was found: its tables stand for themselves.
function own_section({ arms, figures }, population, title, text, measure_titles, side_title) {
  if (!sample_of(arms, `${population}/freehand`, 'entry_mm')) return [];
  return [`## ${title}`, text, signed_table(arms, population, measure_titles, side_title),
    arm_rows(arms, Object.keys(kApproachWords).map((approach) => `${population}/${approach}`)),
    ...figures.filter(([file]) => file.startsWith(population.split('/')[0])).map(([file, caption]) => picture(file, caption))];
}

const boundary_section = (data) => own_section(data, 'two-density/novice', 'On a seam between dense and soft foam',
  'D1 and D4 glued together, the planned axis in the seam; md points into the soft half. No study with numbers for this block was found: the tables stand for themselves. What must be seen: by hand the holes move to the soft side, through the sleeve much less.',
  { entry_md_mm: 'entry md', apex_md_signed_mm: 'apex md', tilt_md_deg: 'tilt md' }, 'on the soft side');

const jaw_section = (data) => own_section(data, 'jaw/novice', 'On the crest of a jaw',
  'Lower molar site with a rounded, low crest (`assets/specimens/lower-46-low-crest.specimen.json`), three drills to 3.4 mm, 7 mm deep; md points to distal. The sleeve stands on the same guide as in the even block. No study of this site was found; the figures of the even block come from jaws and models of many kinds.',
  { entry_md_mm: 'entry md', apex_md_signed_mm: 'apex md', tilt_md_deg: 'tilt md' }, 'on the distal side');

function simple_section(title, text, part, { results, published, figures, arms }, names) {
  const rows = results.filter((result) => result.row.part === part && result.state !== 'missing');
  if (rows.length === 0) return [];
  return [`## ${title}`, text, comparison(rows, published.studies), notes_of(rows), names ? arm_rows(arms, names) : '',
    ...figures.filter(([file]) => file.startsWith(part)).map(([file, caption]) => picture(file, caption))];
}

function time_section({ results, made, arms, published }) {
  const populations = made.filter(({ id, rows }) => id.startsWith('uniform/') && rows.length > 0);
  if (populations.length === 0) return [];
  const rows = populations.flatMap(({ id, drills }) => Object.keys(kApproachWords).filter((approach) => arms.has(`${id}/${approach}`)).map((approach) => {
    const { rows: holes } = arms.get(`${id}/${approach}`);
    const by_drill = drills.map((_, i) => holes.map((row) => row.pressed_s?.[i]).filter((value) => value !== undefined));
    return [`${id.split('/')[1]}, ${kApproachWords[approach]}`, ...by_drill.map((values) => (values.length > 0 ? `${mean(values).toFixed(1)} (${interval_text([quantile(values, 0.1), quantile(values, 0.9)])})` : '–'))];
  }));
  return ['## Drill time', 'Seconds for which a turning drill was pressed, mean and 10th to 90th percentile. An anecdote has it that one guided step in foam takes 1.2 s; it stands here beside the model and nothing was fitted to it. Published times of whole sessions include everything around the drilling and are not compared.',
    table(['operator, approach', ...populations[0].drills], rows), comparison(results.filter((result) => result.row.part === 'time'), published.studies)];
}

function cutting_section({ cutting, tables, published, figures }) {
  if (cutting.length === 0) return [];
  const energy = ({ thrust_n, torque_nmm }, model) => {
    const feed = model.feed_mm_per_s / (model.speed_rpm / 60);
    return (2 * Math.PI * torque_nmm[0] + thrust_n[0] * feed) / (Math.PI / 4 * model.diameter_mm ** 2 * feed) / 1000;
  };
  const word = (judged) => (judged.inside ? 'inside' : 'outside') + (judged.required ? ' **(required)**' : '');
  const { artificial } = published.cutting;
  const range = (key) => {
    const found = artificial.model_ids.map((id) => tables.cutting.find((row) => row.id === id)[key]);
    return interval_text([Math.min(...found), Math.max(...found)]);
  };
  return ['## Thrust, torque and energy of cutting',
    'The step itself, its press regulated to the published feed; mean over the second half of 6 mm. Cortical bone is entered as 170 MPa (handbook range 130 to 200, from memory). Band: 25 %. Published energy is derived from thrust and torque, (2πT + F·f) / (A·f).',
    table(['condition', 'thrust N, published', 'model', '', 'torque N·mm, published', 'model', '', 'energy J/mm³, published', 'model'], cutting.map(({ published: row, model, judged }) => [
      `3.2 mm, 2 mm/s, ${model.speed_rpm} rpm, cortical bone`, `${row.thrust_n[0]} ± ${row.thrust_n[1]}`, model.thrust_n.toFixed(0), word(judged.thrust_n),
      `${row.torque_nmm[0]} ± ${row.torque_nmm[1]}`, model.torque_nmm.toFixed(0), word(judged.torque_nmm), energy(row, model).toFixed(2), model.energy_j_per_mm3.toFixed(2)])),
    `Artificial bone, 2.5 mm, 1000 and 1500 rpm (Orelaja et al. 2020): published thrust ${interval_text(artificial.thrust_n)} N, torque ${interval_text(artificial.torque_nmm)} N·mm. Feed and density were not seen; the model in D3 foam at 0.5 to 2 mm/s gives ${range('thrust_n')} N and ${range('torque_nmm')} N·mm. Published thrusts in bone span 12 to 200 N, so no single anchor stands for all.`,
    ...figures.filter(([file]) => file.startsWith('cutting')).map(([file, caption]) => picture(file, caption))];
}

function convergence_section({ convergence, published }) {
  if (convergence.length === 0) return [];
  const limits = published.convergence;
  return ['## Convergence', `One fixed trace each: four drills, the hand's command given beforehand. Change against the shipped resolution (0.15 mm, 1 ms); limits ${limits.entry_mm} mm, ${limits.angle_deg}°, ${100 * limits.time_share} % of the time.`,
    table(['trace', 'refined', 'entry mm', 'apex mm', 'angle °', 'time %', ''], convergence.map((row) => [
      kCaseWords[row.id] + (row.required ? ' **(required)**' : ''), kResolutionWords[row.finer.id],
      ...(row.unfinished ? ['–', '–', '–', '–', 'did not reach its depth'] : [row.change.entry_mm.toFixed(3), row.change.apex_mm.toFixed(3), row.change.angle_deg.toFixed(2), (100 * row.change.time_share).toFixed(1),
        row.state === 'inside' ? 'inside' : `beyond: ${row.beyond.map((key) => key.split('_')[0]).join(', ')}`]),
    ])), 'The time of one step and its parts depend on the machine: `tests/bench/run --only step` prints them.'];
}

function method_section({ made, count, seed, is_quick }) {
  const engines = [...new Set(made.map(({ engine }) => engine).filter((engine) => engine !== null && engine !== undefined))];
  return ['## How the comparison is made',
    `Engine ${engines.join(', ') || '–'}; ${count} attempts an arm; ${seed === undefined ? 'the lessons\' own seeds' : `seed ${seed}`}. Every attempt is a whole simulated preparation by a virtual operator, measured in the removed material like a learner's. Populations: `
      + `${made.filter(({ rows }) => rows.length > 0).map(({ id, rows }) => `${id} (${rows.length})`).join(', ')}.`,
    '**Bands.** The published range, or the 95 % interval of the published mean or SD from its n, widened by 15 % at both ends, because independent studies of one protocol differ by more than that (full guidance by novices: 2.2 to 3.4°). A figure is inside when the model\'s value lies in the band'
      + `${is_quick ? '; in a quick run, when the model\'s 99 % interval touches it' : ''}. Intervals of the model are bootstrap intervals (1,000 resamples, fixed seed).`,
    '**Which of our columns stands beside what.** Abduo & Lau report horizontal distances without sign: our length of (entry_md, entry_bl) and (apex_md, apex_bl). Schulz 2018 reports one plane with signs: our SD and mean of entry_md and tilt_md. Angles are in space everywhere. Our entry is where the fitted axis of the hole meets the platform plane; the studies measure a placed implant, whose own placing is not in these figures.',
    '**Error of the guide itself.** Published guides carry errors of printing, scanning and seating. The lessons give the sleeve 0.27 mm per axis: a seated guide\'s implants lay 0.34 mm off before any drilling error (PMC12801966, 2026, seen; the mean of a two-axis error is 1.25 times the SD of one axis), and 2° per axis: a seat that is 0.7 mm off under one side of a 20 mm span (geometry; the size is our own assumption). Both are spread anew for every guide.',
    table(['measure', 'definition', 'unit'], ['entry_mm', 'apex_mm', 'angle_deg', 'entry_md_mm', 'tilt_md_deg', 'depth_mm', 'oversize_mm', 'ovality_mm', 'time_s', 'pressed_s'].map((name) => [`\`${name}\``, measures[name].words, measures[name].unit]))];
}

function sources_section(results, published) {
  const used = new Set(results.map(({ row }) => row.study));
  used.add('macavelia2012').add('orelaja2020');
  return ['## Sources', '"Seen": the abstract or first page was read. "From memory": not opened again; a figure so marked is shown and never required.',
    Object.entries(published.studies).filter(([id]) => used.has(id)).map(([, study]) => `- ${study.citation}${study.doi ? `, doi ${study.doi}` : ''}. ${capital(study.conditions)}. *${capital(study.provenance)}.*`).join('\n')];
}

/// The whole page as Markdown.
export function evidence_page(data) {
  const gaps = [2, 4, 6].map((gap) => `gap-${gap}/novice/sleeve`);
  return `${[
    '# Evidence', 'Simulated material. Not clinical advice. What follows holds the model against published figures, and says where it does not fit. One set of parameters stands behind the whole page; the model itself is described in `src/drilling/MODEL.md`.',
    summary(data), ...method_section(data), ...accuracy_section(data), ...operators_section(data), ...boundary_section(data), ...jaw_section(data),
    ...simple_section('Distance of the sleeve', 'Full guidance in even foam, novice, sleeve 2, 4 and 6 mm above the platform, 10.5 mm deep.', 'gap', data, gaps),
    ...simple_section('Hole size and foam', 'Free-hand, novice, one drill of 3.4 mm and nothing before it, foam that stands for D1 to D4 (40, 30, 20 and 10 pcf). Oversize after a whole sequence of drills stands in the other tables.', 'foam', data,
      ['d1', 'd2', 'd3', 'd4'].map((grade) => `foam-${grade}/novice/freehand`)),
    ...time_section(data),
    ...simple_section('Practice', 'Learners do ten attempts of each approach in turn; error of eye and depth falls by the power law stated in the operator file. The published effect of practice on accuracy is small or unproven, that on time is clear: no figure here is fitted to it.', 'practice', data),
    ...cutting_section(data), ...convergence_section(data), ...sources_section(data.results, data.published),
  ].filter((part) => part !== '').join('\n\n')}\n`;
}
