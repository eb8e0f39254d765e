// Sleeve geometry against a second solution of the same rigid-body equation.
// Source: a strip of width d in a slot of width D and height H touches where D cos t - H sin t = d.
function tilt_rad(bore, drill, height) {
  let low = 0;
  let high = Math.PI / 2;
  for (let i = 0; i < 200; ++i) {
    const middle = (low + high) / 2;
    if (bore * Math.cos(middle) - height * Math.sin(middle) > drill) low = middle; else high = middle;
  }
  return low;
}

export function test(t) {
  const deg = 180 / Math.PI;
  for (const [bore, drill, height, gap, implant, key] of
    [[5.2, 5.1, 4.5, 3.5, 10, 1.5], [5.2, 5.14, 4.5, 3.5, 10, 0], [2.06, 2, 4.5, 2, 13, 2.5], [5.2, 4.2, 4, 6, 8, 0]]) {
    const words = ['--bore', bore, '--drill', drill, '--height', height, '--gap', gap, '--implant', implant].map(String);
    const found = t.json(0, 'sleeve', ...words, ...(key ? ['--key', String(key)] : []));
    const tilt = tilt_rad(bore, drill, height);
    const what = `sleeve ${words.join(' ')}`;
    t.equal(Object.keys(found ?? {}), ['tilt_deg', 'tilt_first_order_deg', 'entry_mm', 'apex_mm', 'drill_length_mm'], what);
    t.near(found?.tilt_deg, tilt * deg, 1e-9, `${what}: tilt_deg`);
    t.near(found?.tilt_first_order_deg, Math.atan((bore - drill) / height) * deg, 1e-9, `${what}: tilt_first_order_deg`);
    t.near(found?.entry_mm, (height / 2 + gap) * Math.tan(tilt), 1e-9, `${what}: entry_mm`);
    t.near(found?.apex_mm, (height / 2 + gap + implant) * Math.tan(tilt), 1e-9, `${what}: apex_mm`);
    t.near(found?.drill_length_mm, implant + gap + height + key, 1e-9, `${what}: drill_length_mm`);
  }
  // By hand: 10 + 3.5 + 4.5 + 1.5 = 19.5 mm.
  const plain = t.run('sleeve', '--bore=5.2', '--drill=5.1', '--height=4.5', '--gap=3.5', '--implant=10', '--key=1.5');
  t.expect_code(plain, 0);
  t.expect(plain.out.includes('19.500'), `sleeve: found "${plain.out}", expected a drill length of 19.500`);
  for (const drill of ['5.2', '6']) {
    t.expect_code(t.run('sleeve', '--bore', '5.2', '--drill', drill, '--height', '4.5', '--gap', '3.5', '--implant', '10'), 2);
  }
  t.expect_code(t.run('sleeve', '--bore', '5.2', '--drill', '5.1', '--height', '0', '--gap', '3.5', '--implant', '10'), 2);
}
