// Samples of one arm: the columns that published figures are compared with.

const root_of_squares = (a, b) => Math.sqrt(a * a + b * b);

/// What each measure is, in words for the page, and how a row gives it.
export const measures = {
  entry_mm: { unit: 'mm', words: 'entry, lateral: length of (entry_md, entry_bl)', of: (r) => root_of_squares(r.entry_md_mm, r.entry_bl_mm) },
  apex_mm: { unit: 'mm', words: 'apex, lateral: length of (apex_md, apex_bl)', of: (r) => root_of_squares(r.apex_md_mm, r.apex_bl_mm) },
  apex_3d_mm: {
    unit: 'mm', words: 'apex, in space: length of (apex_md, apex_bl, depth)',
    of: (r) => root_of_squares(root_of_squares(r.apex_md_mm, r.apex_bl_mm), r.depth_mm),
  },
  angle_deg: { unit: '°', words: 'angle between planned and drilled axis', of: (r) => r.angle_deg },
  entry_md_mm: { unit: 'mm', words: 'entry along md, signed', of: (r) => r.entry_md_mm },
  entry_bl_mm: { unit: 'mm', words: 'entry along bl, signed', of: (r) => r.entry_bl_mm },
  apex_md_signed_mm: { unit: 'mm', words: 'apex along md, signed', of: (r) => r.apex_md_mm },
  abs_entry_md_mm: { unit: 'mm', words: 'entry along md, without sign', of: (r) => Math.abs(r.entry_md_mm) },
  abs_entry_bl_mm: { unit: 'mm', words: 'entry along bl, without sign', of: (r) => Math.abs(r.entry_bl_mm) },
  tilt_md_deg: { unit: '°', words: 'tilt along md, signed', of: (r) => r.tilt_md_deg },
  tilt_bl_deg: { unit: '°', words: 'tilt along bl, signed', of: (r) => r.tilt_bl_deg },
  abs_tilt_md_deg: { unit: '°', words: 'tilt along md, without sign', of: (r) => Math.abs(r.tilt_md_deg) },
  abs_tilt_bl_deg: { unit: '°', words: 'tilt along bl, without sign', of: (r) => Math.abs(r.tilt_bl_deg) },
  depth_mm: { unit: 'mm', words: 'depth of the floor, + deeper', of: (r) => r.depth_mm },
  abs_depth_mm: { unit: 'mm', words: 'depth of the floor, without sign', of: (r) => Math.abs(r.depth_mm) },
  time_s: { unit: 's', words: 'first contact of the first drill to last contact of the last', of: (r) => r.time_s },
  oversize_mm: { unit: 'mm', words: 'mean diameter 1 to 3 mm below the rim, less the last drill', of: (r) => r.oversize_mm },
  ovality_mm: { unit: 'mm', words: 'long less short axis over the same depths', of: (r) => r.ovality_mm },
  plunge_mm: { unit: 'mm', words: 'deepest full diameter past the planned depth', of: (r) => r.plunge_mm },
  pressed_s: { unit: 's', words: 'time for which a turning drill was pressed, mean of the steps', of: (r) => r.pressed_s && r.pressed_s.reduce((a, b) => a + b, 0) / r.pressed_s.length },
  peak_side_n: { unit: 'N', words: 'largest side force', of: (r) => r.peak_side_n },
};

/// Own attempt of a learner with one approach, from 1: approaches take turns in the period.
export const attempt_number = (row, approaches) => Math.floor((row.period - 1) / approaches) + 1;

/// Arms of a population by name: 'uniform/novice/freehand' -> its rows; with `by_attempt` also
/// 'practice/novice/freehand/1' and so on. Rows without a hole are left out of `rows` and counted.
export function arms_of(population) {
  const arms = new Map();
  const put = (name, row) => {
    if (!arms.has(name)) arms.set(name, { name, rows: [], without_hole: 0 });
    const arm = arms.get(name);
    if (row.angle_deg === null) ++arm.without_hole;
    else arm.rows.push(row);
  };
  const approaches = new Set(population.rows.map((row) => row.approach)).size;
  for (const row of population.rows) {
    const name = `${population.id}/${row.approach}`;
    put(name, row);
    if (population.by_attempt) put(`${name}/${attempt_number(row, approaches)}`, row);
  }
  return arms;
}

/// The sample of a measure in an arm; null when the arm is not there or holds fewer than three holes.
export function sample_of(arms, arm_name, measure) {
  const arm = arms.get(arm_name);
  if (!arm || arm.rows.length < 3) return null;
  return arm.rows.map(measures[measure].of);
}
