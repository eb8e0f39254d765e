// The specimen's textures and how surfaces find them.

uniform sampler3D coverage_map;  // r: what is left, 0.5 at the surface; mip levels hold averages
uniform sampler3D material_map;  // r: density, g: coverage before anything was removed
uniform sampler3D foam_map;      // rgb: slope of the cell walls, a: wall (1) to pore (0)

vec3 lattice(vec3 p) { return (p - lattice_min.xyz) * lattice_scale.xyz; }

float coverage_at(vec3 p) { return textureLod(coverage_map, lattice(p), 0.0).r; }

float coverage_near(vec3 p, float level) { return textureLod(coverage_map, lattice(p), level).r; }

bool in_box(vec3 p) {
  return all(greaterThan(p, box_min.xyz)) && all(lessThan(p, box_max.xyz));
}

// From the four corners of a tetrahedron: exact for a plane, like six axis samples, but cheaper.
vec3 surface_normal(vec3 p) {
  const vec2 k = vec2(1.0, -1.0);
  float h = 0.75 * box_min.w;
  vec3 g = k.xyy * coverage_at(p + k.xyy * h) + k.yyx * coverage_at(p + k.yyx * h) +
           k.yxy * coverage_at(p + k.yxy * h) + k.xxx * coverage_at(p + k.xxx * h);
  return -g / max(length(g), 1e-5);
}

// Turned against the faces, so that the repeats of the texture do not line up with them.
const mat3 kTurned = mat3(0.7539, 0.5221, -0.3989, -0.2704, 0.8098, 0.5207, 0.5949, -0.2847, 0.7517);

// Cell walls of the foam: slope (xyz) and wall height (w). Dense foam has the smaller cells.
vec4 foam_cells(vec3 p, float share_dense, float footprint) {
  const float kSoftTile = 3.3;
  const float kDenseTile = 1.7;
  vec3 q = kTurned * p;
  vec4 soft = textureLod(foam_map, q / kSoftTile, log2(max(footprint * 48.0 / kSoftTile, 1.0)));
  vec4 dense = textureLod(foam_map, q.yzx / kDenseTile + 0.37, log2(max(footprint * 48.0 / kDenseTile, 1.0)));
  dense.xyz = dense.zxy;
  // The coarse cells of the soft foam have a fine grain of their own.
  soft = vec4(soft.xyz + 0.35 * (dense.xyz - 0.5), soft.w * mix(1.0, dense.w, 0.35));
  vec4 cells = mix(soft, dense, share_dense);
  cells.xyz = (cells.xyz * 2.0 - 1.0) * kTurned;
  return cells;
}

// Ambient light that the specimen itself leaves at a surface point.
float open_sky(vec3 p, vec3 normal) {
  return (1.0 - 0.75 * coverage_near(p + normal * 1.0, 1.0)) * (1.0 - 0.72 * coverage_near(p + normal * 2.6, 3.0));
}

// Key light that the specimen itself leaves.
float past_specimen(vec3 p, vec3 normal) {
  vec3 q = p + normal * 0.35;
  float light = 1.0;
  float t = 0.25;
  for (int i = 0; i < 9; ++i) {
    vec3 s = q + to_light.xyz * t;
    if (!in_box(s)) {
      break;
    }
    light = min(light, 1.0 - coverage_near(s, min(0.4 + 0.35 * float(i), 2.6)));
    t *= 1.55;
  }
  return smoothstep(0.15, 0.95, light);
}
