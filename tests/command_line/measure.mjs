// Measures of made-up placements whose answers follow from the definitions by hand.
const kHeader = 'id,plan_entry_x,plan_entry_y,plan_entry_z,plan_apex_x,plan_apex_y,plan_apex_z,'
  + 'entry_x,entry_y,entry_z,apex_x,apex_y,apex_z\n';
const kFields = ['entry_global_mm', 'entry_lateral_mm', 'entry_piercing_mm', 'depth_mm', 'apex_global_mm', 'apex_lateral_mm',
  'apex_depth_mm', 'angle_deg', 'entry_md_mm', 'entry_bl_mm', 'apex_md_mm', 'apex_bl_mm', 'tilt_md_deg', 'tilt_bl_deg'];

export function test(t) {
  const deg = 180 / Math.PI;
  const file = t.write('placed.csv', kHeader
    + 'same,0,0,0,0,0,-10,0,0,0,0,0,-10\n'
    + 'shifted,0,0,0,0,0,-10,0.3,-0.4,-1.2,0.3,-0.4,-11.2\n'
    + 'leaning,0,0,0,0,0,-10,0,0,0,1,0,-10\n'
    + 'one hundredth,0,0,0,0,0,-10,0,0,0,0,0.0017453292537,-10\n'
    + 'lying,0,0,0,10,0,0,0,1,0,10,1,0\n'
    + 'no plan,1,1,1,1,1,1,0,0,0,0,0,-10\n'
    + 'no axis,0,0,0,0,0,-10,2,2,2,2,2,2\n'
    + 'gap,0,0,0,0,0,-10,,0,0,0,0,-10\n'
    + '"a ""word"", here",0,0,0,0,0,-10,x,0,0,0,0,-10\n');
  const rows = t.json(0, 'measure', file) ?? [];
  const row = Object.fromEntries(rows.map((entry) => [entry.id, entry]));
  t.equal(rows.length, 9, 'measure: rows');
  t.equal(Object.keys(row.same ?? {}), ['id', ...kFields], 'measure: fields of a row');
  for (const field of kFields) t.near(row.same?.[field], 0, 1e-12, `same: ${field}`);

  const shifted = { entry_global_mm: 1.3, entry_lateral_mm: 0.5, entry_piercing_mm: 0.5, depth_mm: 1.2, apex_global_mm: 1.3,
    apex_lateral_mm: 0.5, apex_depth_mm: 1.2, angle_deg: 0, entry_md_mm: 0.3, entry_bl_mm: -0.4, apex_md_mm: 0.3,
    apex_bl_mm: -0.4, tilt_md_deg: 0, tilt_bl_deg: 0 };
  for (const [field, value] of Object.entries(shifted)) t.near(row.shifted?.[field], value, 1e-9, `shifted: ${field}`);

  // Apex 1 mm distal over 10 mm: atan(1/10), apex leans distally, so the sign is +.
  t.near(row.leaning?.angle_deg, Math.atan(0.1) * deg, 1e-9, 'leaning: angle_deg');
  t.near(row.leaning?.tilt_md_deg, Math.atan(0.1) * deg, 1e-9, 'leaning: tilt_md_deg');
  t.near(row.leaning?.tilt_bl_deg, 0, 1e-9, 'leaning: tilt_bl_deg');
  t.near(row.leaning?.apex_global_mm, 1, 1e-9, 'leaning: apex_global_mm');
  // 10 mm * tan(0.01 deg) = 0.0017453... mm: small angles keep their digits.
  t.near(row['one hundredth']?.angle_deg, 0.01, 1e-9, 'one hundredth: angle_deg');
  t.near(row['one hundredth']?.tilt_bl_deg, 0.01, 1e-9, 'one hundredth: tilt_bl_deg');

  // Planned along +x: no distal direction is left, but distances are.
  t.near(row.lying?.entry_global_mm, 1, 1e-9, 'lying: entry_global_mm');
  t.equal(row.lying?.entry_md_mm, null, 'lying: entry_md_mm');
  t.expect(row.lying?.reason?.length > 0, 'lying: found no reason, expected one');
  for (const id of ['no plan', 'no axis', 'gap', 'a "word", here']) {
    for (const field of kFields) t.equal(row[id]?.[field], null, `${id}: ${field}`);
    t.expect(row[id]?.reason?.length > 0, `${id}: found no reason, expected one`);
  }
  t.expect(row['a "word", here']?.reason?.includes('entry_x'), 'a bad cell: expected its column in the reason');

  const noisy = t.run('measure', file, '--json');
  t.expect(/placed\.csv:7: /.test(noisy.err), `measure: found stderr "${noisy.err}", expected the line of the row without a plan`);
  const plain = t.run('measure', file);
  t.expect(plain.out.split('\n')[0].startsWith('id ') && plain.out.includes('0.500'), 'measure: expected a table with a header');

  const no_column = t.run('measure', t.write('short.csv', kHeader.replace(',apex_z', '') + 'a,0,0,0,0,0,-1,0,0,0,0,0\n'), '--json');
  t.expect_code(no_column, 2);
  t.expect(no_column.err.includes('apex_z') && no_column.out === '', 'measure: expected the missing column on stderr only');
  t.expect_code(t.run('measure', t.write('broken.csv', kHeader + '"open,1,2\n')), 2);
}
