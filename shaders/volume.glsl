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

vec3 surface_normal(vec3 p) {
  float h = box_min.w;
  vec3 g = vec3(coverage_at(p + vec3(h, 0, 0)) - coverage_at(p - vec3(h, 0, 0)),
                coverage_at(p + vec3(0, h, 0)) - coverage_at(p - vec3(0, h, 0)),
                coverage_at(p + vec3(0, 0, h)) - coverage_at(p - vec3(0, 0, h)));
  return -g / max(length(g), 1e-5);
}

// Ambient light that the specimen itself leaves at a surface point.
float open_sky(vec3 p, vec3 normal) {
  float open = 1.0;
  open *= 1.0 - 0.55 * coverage_near(p + normal * 0.7, 1.0);
  open *= 1.0 - 0.60 * coverage_near(p + normal * 1.5, 2.0);
  open *= 1.0 - 0.60 * coverage_near(p + normal * 3.2, 3.0);
  return open;
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
