// Lets the command-line tool simulate populations, and keeps what it made until an input changes.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { extras_of } from './attempt_extras.mjs';
import { read_csv } from './csv.mjs';

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');
const digest_of = (file) => sha256(fs.readFileSync(file));

/// Everything that decides the bytes of a population. The program's own digest stands for the engine: while
/// mechanics change, an engine number says too little.
function key_of(population, options, lesson_file, operator_file, count) {
  const kit = JSON.parse(fs.readFileSync(lesson_file, 'utf8')).kit;
  return {
    lesson: digest_of(lesson_file),
    operator: digest_of(operator_file),
    kit: digest_of(path.join(options.root, 'assets/kits', `${kit}.kit.json`)),
    program: digest_of(options.program),
    count,
    seed: options.seed ?? null,
  };
}

/// Runs the tool, its progress bar passed on; gives whether it went well and the last line it said.
function run_practise(lesson_file, operator_file, count, folder, options) {
  const args = ['practise', lesson_file, '--operator', operator_file, '--count', String(count), '--out', folder,
    '--assets', path.join(options.root, 'assets')];
  if (options.seed !== undefined) args.push('--seed', String(options.seed));
  return new Promise((resolve, reject) => {
    const run = spawn(options.program, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    run.stderr.on('data', (bytes) => {
      said = (said + bytes).slice(-4000);
      process.stderr.write(bytes);
    });
    run.on('error', reject);
    run.on('close', (code, signal) => {
      if (signal) reject(new Error(`practise was ended by ${signal}`));
      resolve({ ok: code === 0, sentence: said.trim().split(/[\r\n]+/).at(-1) });
    });
  });
}

/// Row of an attempt file, for a population whose table was not written because one attempt did not end.
function row_of(attempt) {
  const d = attempt.results.hole?.deviation;
  return {
    attempt_id: attempt.attempt_id, approach: attempt.setup.approach, specimen: attempt.setup.specimen.id,
    period: attempt.period, entry_md_mm: d?.entry_md_mm ?? null, entry_bl_mm: d?.entry_bl_mm ?? null,
    depth_mm: attempt.results.hole?.depth_error_mm ?? null, apex_md_mm: d?.apex_md_mm ?? null,
    apex_bl_mm: d?.apex_bl_mm ?? null, tilt_md_deg: d?.tilt_md_deg ?? null, tilt_bl_deg: d?.tilt_bl_deg ?? null,
    angle_deg: d?.angle_deg ?? null, hole_diameter_mm: attempt.results.hole?.hole_diameter_mm ?? null,
    time_s: attempt.results.process.time_s,
  };
}

/// Table and extras of a folder of attempts.
function condense(folder) {
  const attempts = [];
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.attempt.json')).sort();
  let first = null;
  const from_files = [];
  for (const name of names) {
    const attempt = JSON.parse(fs.readFileSync(path.join(folder, name), 'utf8'));
    first ??= attempt;
    attempts.push(extras_of(attempt));
    from_files.push(row_of(attempt));
  }
  const table = path.join(folder, 'holes.csv');
  const rows = fs.existsSync(table) ? read_csv(fs.readFileSync(table, 'utf8')) : from_files;
  const by_id = new Map(attempts.map((extra) => [extra.attempt_id, extra]));
  return {
    engine: first?.engine ?? null,
    drills: first?.setup.plan.drills ?? [],
    seed: first?.setup.seed ?? null,
    // The published figures are held against holes; a placed implant has a row of its own.
    rows: rows.filter((row) => row.measured !== 'implant').map((row) => ({ ...row, ...by_id.get(row.attempt_id) })),
  };
}

/// Gives the population {id, rows, wanted, problem}, simulated now or kept from an earlier run.
export async function population_of(population, options, say) {
  const lesson_file = path.join(options.root, 'tests/population/lessons', `${population.lesson}.lesson.json`);
  const operator_file = path.join(options.operators, `${population.operator}.json`);
  if (!fs.existsSync(operator_file)) {
    return { ...population, rows: [], wanted: 0, problem: `the operator '${population.operator}' is not there` };
  }
  const lesson = JSON.parse(fs.readFileSync(lesson_file, 'utf8'));
  const { count } = options;
  const approaches = new Set(lesson.blocks.map((block) => block.approach)).size;
  const wanted = count * approaches;
  const key = key_of(population, options, lesson_file, operator_file, count);
  const folder = path.join(options.work, population.id.replace('/', '-'));
  const record = path.join(folder, 'population.json');
  if (fs.existsSync(record)) {
    const kept = JSON.parse(fs.readFileSync(record, 'utf8'));
    if (JSON.stringify(kept.key) === JSON.stringify(key)) {
      say(`${population.id}: ${kept.rows.length} attempts kept from an earlier run`);
      return { ...population, ...kept };
    }
  }
  fs.rmSync(folder, { recursive: true, force: true });
  fs.mkdirSync(folder, { recursive: true });
  say(`${population.id}: ${wanted} attempts`);
  const run = await run_practise(lesson_file, operator_file, count, path.join(folder, 'attempts'), options);
  if (!fs.existsSync(path.join(folder, 'attempts'))) throw new Error(`${population.id}: ${run.sentence}`);
  const made = { key, wanted, problem: run.ok ? null : run.sentence, ...condense(path.join(folder, 'attempts')) };
  const table = path.join(folder, 'attempts/holes.csv');
  if (fs.existsSync(table)) fs.copyFileSync(table, path.join(folder, 'holes.csv'));
  if (!options.keep) fs.rmSync(path.join(folder, 'attempts'), { recursive: true });
  // Written last and moved into place: a folder with this file is complete.
  fs.writeFileSync(`${record}.part`, JSON.stringify(made));
  fs.renameSync(`${record}.part`, record);
  return { ...population, ...made };
}
