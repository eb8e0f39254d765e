// Cutting and convergence tables: what the native program prints, held against the stated limits.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

/// Output of the program, kept until the program changes.
export function core_tables(program, work, say) {
  const key = createHash('sha256').update(fs.readFileSync(program)).digest('hex');
  const record = path.join(work, 'core-tables.json');
  if (fs.existsSync(record)) {
    const kept = JSON.parse(fs.readFileSync(record, 'utf8'));
    if (kept.key === key) return kept.tables;
  }
  say('cutting and convergence tables');
  const run = spawnSync(program, { encoding: 'utf8', maxBuffer: 1 << 26 });
  if (run.status !== 0) throw new Error(`${program} failed: ${run.stderr}`);
  const tables = JSON.parse(run.stdout);
  fs.writeFileSync(`${record}.part`, JSON.stringify({ key, tables }));
  fs.renameSync(`${record}.part`, record);
  return tables;
}

/// Each published row with the model's: {id, published, model, judged: {thrust_n, torque_nmm}}.
export function judge_cutting(tables, published) {
  const { band, required, rows } = published.cutting;
  return rows.map((row) => {
    const model = tables.cutting.find((each) => each.id === row.id);
    const judged = {};
    for (const key of ['thrust_n', 'torque_nmm']) {
      judged[key] = {
        inside: Math.abs(model[key] - row[key][0]) <= band * row[key][0],
        required: required.includes(`${row.id}/${key}`),
      };
    }
    return { id: row.id, published: row, model, judged };
  });
}

const length = (...parts) => Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));

/// Change of each case from the normal resolution to each finer one.
export function judge_convergence(tables, published) {
  const limits = published.convergence;
  return tables.convergence.flatMap(({ id, results }) => {
    const normal = results.find((result) => result.id === 'normal');
    return results.filter((result) => result !== normal).map((fine) => {
      const required = limits.required.includes(id);
      if (normal.time_s === undefined || fine.time_s === undefined) return { id, finer: fine, state: 'outside', required, unfinished: true };
      // Axes differ little: the chord of two unit vectors is the angle.
      const change = {
        entry_mm: length(fine.entry_x_mm - normal.entry_x_mm, fine.entry_y_mm - normal.entry_y_mm),
        apex_mm: length(fine.apex_x_mm - normal.apex_x_mm, fine.apex_y_mm - normal.apex_y_mm, fine.apex_z_mm - normal.apex_z_mm),
        angle_deg: length(fine.axis_x - normal.axis_x, fine.axis_y - normal.axis_y, fine.axis_z - normal.axis_z) * 180 / Math.PI,
        time_share: Math.abs(fine.time_s - normal.time_s) / fine.time_s,
      };
      const beyond = Object.keys(change).filter((key) => change[key] >= limits[key]);
      return { id, finer: fine, change, beyond, required, state: beyond.length === 0 ? 'inside' : 'outside' };
    });
  });
}
