// What holes.csv does not hold and the report needs, read from an attempt file.

const kHand = 1;
const kMotor = 2;
const kTakeDrill = 5;
const kSteps_per_s = 1000;

/// Seconds for which the hand pressed a turning drill, drill by drill in the order of use.
export function pressed_times_s(trace, end_step) {
  const times = [];
  let turns = false;
  let pressing_since = null;
  const stop = (step) => {
    if (pressing_since !== null && times.length > 0) times[times.length - 1] += (step - pressing_since) / kSteps_per_s;
    pressing_since = null;
  };
  for (const [step, op, ...values] of trace) {
    if (op === kTakeDrill) {
      stop(step);
      times.push(0);
    } else if (op === kMotor) {
      turns = values[0] !== 0;
      if (!turns) stop(step);
    } else if (op === kHand) {
      const presses = turns && values[4] > 0;
      if (presses && pressing_since === null) pressing_since = step;
      if (!presses) stop(step);
    }
  }
  stop(end_step);
  return times;
}

export function extras_of(attempt) {
  const { hole, process } = attempt.results;
  return {
    attempt_id: attempt.attempt_id,
    oversize_mm: hole?.oversize_mm ?? null,
    ovality_mm: hole?.ovality_mm ?? null,
    plunge_mm: process.plunge_mm,
    peak_side_n: process.peak_side_n,
    pressed_s: pressed_times_s(attempt.trace, attempt.end_step),
  };
}
