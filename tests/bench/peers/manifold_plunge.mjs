// The plunge of bench_carve.cpp with manifold-3d: a ball subtracted from the mesh of a box; prints `name value` lines.
import createManifold from 'manifold-3d';

const kEdge = 240;
const kRadius = 16;
const kAdvance = 0.5;
const kCuts = 60;
const kSegments = 64;

/** Processor time of this process: a busy machine says the same. */
function processor_us() {
  const { user, system } = process.cpuUsage();
  return user + system;
}

const module = await createManifold();
module.setup();
const { Manifold } = module;
let box = Manifold.cube([kEdge, kEdge, kEdge], true);
const before = box.volume();
const ball = Manifold.sphere(kRadius, kSegments);
const times_us = [];
for (let i = 1; i <= kCuts; i += 1) {
  const begin = processor_us();
  const moved = ball.translate([0, 0, kEdge / 2 + kRadius - kAdvance * i]);
  const left = box.subtract(moved);
  left.numTri(); // operations are put off until something is asked
  times_us.push(processor_us() - begin);
  moved.delete();
  box.delete();
  box = left;
}
times_us.sort((a, b) => a - b);
console.log(`cut_median_us ${times_us[Math.floor(kCuts / 2)]}`);
console.log(`cut_count ${kCuts}`);
console.log(`removed_vox ${before - box.volume()}`);
console.log(`triangles ${box.numTri()}`);
