// The error budget of a guide: its numbers, and that more left open means more error.
export function test(t) {
  const lesson = 'lessons/find-the-centre.lesson.json';
  const found = t.json(0, 'budget', lesson, '--gap-left', '0.5');
  t.equal(found?.sources.map((one) => one.source), ['play', 'seat', 'making', 'support'], 'budget: sources');
  t.near(found?.sources.reduce((sum, one) => sum + one.apex_share, 0), 1, 1e-9, 'budget: shares');
  for (const key of ['entry_mm', 'apex_mm', 'angle_deg']) {
    t.expect(found?.mean[key] < found?.within_95[key] && found?.within_95[key] < found?.limit[key],
      `budget: found ${key} out of order, expected mean < 95 of 100 < limit`);
  }
  // Geometry: 0.5 mm over the span of 20 mm tilts by 1.43 degrees.
  t.near(found?.sources[1].limit.angle_deg, Math.atan(0.5 / 20) * 180 / Math.PI, 1e-9, 'budget: seat');
  const closed = t.json(0, 'budget', lesson, '--gap-left', '0');
  t.equal(closed?.sources[1].limit.apex_mm, 0, 'budget: closed seat');
  t.expect(closed?.mean.apex_mm < found?.mean.apex_mm, 'budget: expected less error with a closed seat');
  const plain = t.run('budget', lesson);
  t.expect_code(plain, 0);
  t.expect(/95 of 100 below/.test(plain.out), `budget: found "${plain.out}", expected a table`);
}
