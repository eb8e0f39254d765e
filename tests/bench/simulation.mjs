// The core's budgets: one step, the removal kernel, replay, a class; natively and under node.
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { medians, row, times } from './measure.mjs';

const kRealTime_us = 1000;
const kStep_us = { native: 50, wasm: 100 };
const kJaw_ms = { native: 1500, wasm: 1500 };
const kReplay_s = { native: 1.0, wasm: 2.0 };
const kClass_s = 1;
const kTable_s = 10;
const kTable_MiB = 1024;
const kAttempt_s = 20;
const kOpenVdbRatio = 6;

const program = ({ build }, kind, folder, name) => (kind === 'native'
  ? [path.join(build, 'native', folder, name)]
  : [process.execPath, path.join(build, 'wasm', folder, `${name}.js`)]);

/** One simulated millisecond: 4.0 mm drill, hardest foam, 0.2 mm voxels. */
export async function step(options) {
  const rows = [];
  for (const kind of ['native', 'wasm']) {
    const found = await medians(program(options, kind, 'bench', 'bench_step'), options.rounds);
    const realTime = (kRealTime_us / found.step_median_us).toFixed(0);
    rows.push(row(`step, ${kind}, median`, found.step_median_us, 'us',
      { budget: kStep_us[kind], note: `${realTime} times real time; ${found.most_contacts} of ${found.elements} elements touch` }));
    rows.push(row(`step, ${kind}, 95 of 100`, found.step_p95_us, 'us'));
    rows.push(row(`  find contacts, ${kind}`, found.contacts_median_us, 'us'));
    rows.push(row(`  removal when it is due, ${kind}`, found.removal_p95_us, 'us', { note: '95 of 100; the median step removes nothing' }));
  }
  return rows;
}

/** Cuts of the kernel alone; with `peers` the same plunge by others in the same run. */
export async function carve(options) {
  const rows = [];
  const ours = {};
  for (const kind of ['native', 'wasm']) {
    ours[kind] = await medians(program(options, kind, 'bench', 'bench_carve'), options.rounds);
    rows.push(row(`cut, r 16 in 256^3, ${kind}`, ours[kind].plunge_median_us / 1000, 'ms',
      { note: `${ours[kind].plunge_removed_vox.toFixed(0)} voxels removed` }));
    rows.push(row(`  app's cut, point, ${kind}`, ours[kind].app_point_median_us, 'us'));
    rows.push(row(`  app's cut, whole drill, ${kind}`, ours[kind].app_body_median_us, 'us'));
  }
  if (!options.peers) return rows;

  const openVdb = await medians([path.join(options.build, 'native/bench/openvdb_plunge')], options.rounds);
  const manifold = await medians([process.execPath, 'tests/bench/peers/manifold_plunge.mjs'], 1);
  const withTool = openVdb.cut_median_us + openVdb.tool_median_us;
  rows.push(row('  same cut, OpenVDB, native, one thread', openVdb.cut_median_us / 1000, 'ms',
    { note: `${(withTool / 1000).toFixed(2)} ms with making the tool's level set; ${openVdb.removed_vox.toFixed(0)} voxels removed` }));
  rows.push(row('  same cut, manifold-3d, node', manifold.cut_median_us / 1000, 'ms',
    { note: `exact mesh, ${manifold.triangles} triangles after ${manifold.cut_count} cuts` }));
  for (const kind of ['native', 'wasm']) {
    rows.push(row(`OpenVDB's cut to ours, ${kind}`, openVdb.cut_median_us / ours[kind].plunge_median_us, 'x',
      { budget: kOpenVdbRatio, atLeast: true }));
  }
  rows.push(row("manifold-3d's cut to ours, wasm", manifold.cut_median_us / ours.wasm.plunge_median_us, 'x'));
  return rows;
}

/** Jaw sections from shapes to voxels, and the distances of an implant with its deepest drill. */
export async function jaw(options) {
  const rows = [];
  for (const kind of ['native', 'wasm']) {
    const found = await medians(program(options, kind, 'bench', 'bench_jaw'), options.rounds);
    rows.push(row(`jaw section, 0.2 mm, ${kind}`, found.jaw_large_median_us / 1000, 'ms',
      { budget: kJaw_ms[kind], note: `${found.jaw_large_million_voxels} million voxels` }));
    rows.push(row(`  one molar's section, ${kind}`, found.jaw_molar_median_us / 1000, 'ms',
      { note: `${found.jaw_molar_million_voxels} million voxels` }));
    rows.push(row(`  clearances of an implant, ${kind}`, found.clearances_median_us / 1000, 'ms'));
  }
  return rows;
}

/** A class of turn-in codes compiled, and the statistics of a large table. */
export async function classes(options) {
  const found = await medians(program(options, 'native', 'bench', 'bench_class'), options.rounds);
  return [
    row(`class of ${found.class_attempts} attempts, native`, found.class_median_us * 1e-6, 's', { budget: kClass_s }),
    row(`table of ${found.table_rows} holes, native`, found.table_median_us * 1e-6, 's', { budget: kTable_s }),
    row('  memory for it, the text included', found.table_peak_mib, 'MiB', { budget: kTable_MiB }),
  ];
}

/** Makes attempts and gives the one whose length is nearest to the budget's. */
async function makeAttempt(options, folder) {
  const made = path.join(folder, 'made');
  await times([...program(options, 'native', 'bin', 'driftbench'), 'practise', 'lessons/find-the-centre.lesson.json',
    '--count', '2', '--out', made], 1);
  let best = null;
  for (const name of (await readdir(made)).filter((each) => each.endsWith('.attempt.json')).sort()) {
    const file = path.join(made, name);
    const length_s = JSON.parse(await readFile(file, 'utf8')).end_step / 1000;
    if (best === null || Math.abs(length_s - kAttempt_s) < Math.abs(best.length_s - kAttempt_s)) best = { file, length_s };
  }
  return best;
}

/** Replay with everything it verifies, the program's start included. */
export async function replay(options) {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-bench-'));
  try {
    const { file, length_s } = await makeAttempt(options, folder);
    const rows = [];
    for (const kind of ['native', 'wasm']) {
      const took = await times([...program(options, kind, 'bin', 'driftbench'), 'replay', file], options.rounds);
      const perSecond = took.processor_s / length_s;
      rows.push(row(`replay of ${kAttempt_s} s, ${kind}`, perSecond * kAttempt_s, 's', {
        budget: kReplay_s[kind],
        note: `processor time, from an attempt of ${length_s.toFixed(1)} s; elapsed ${took.elapsed_s.toFixed(2)} s for that`,
      }));
      rows.push(row(`  per simulated second, ${kind}`, perSecond * 1000, 'ms'));
    }
    return rows;
  } finally {
    await rm(folder, { recursive: true });
  }
}
