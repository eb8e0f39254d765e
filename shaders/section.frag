// A section in true scale: material as grey, the hole dark, edges placed from the coverage.
in vec2 ndc;
out vec4 colour;

uniform vec3 centre;     // in the picture's middle
uniform vec3 right;      // half the picture's width as a vector
uniform vec3 up;         // half the picture's height
uniform float pixel_mm;
uniform vec3 background; // as stored

// Signed distance to the surface in mm from coverage, good within a voxel of it.
float inside_mm(float coverage) { return (coverage - 0.5) * 2.0 * box_min.w; }

// One pixel wide, but no wider than coverage can tell: in a coarse picture a hole would turn grey.
float edge(float distance_mm) { return clamp(distance_mm / min(pixel_mm, 2.0 * box_min.w) + 0.5, 0.0, 1.0); }

void main() {
  vec3 p = centre + right * ndc.x + up * ndc.y;
  vec3 uvw = lattice(p);
  // Density changes in steps: a steeper curve between the voxels keeps the glue plane crisp.
  vec3 size = vec3(textureSize(material_map, 0));
  vec3 cell = uvw * size - 0.5;
  vec3 share = smoothstep(0.2, 0.8, fract(cell));
  float stepped = textureLod(material_map, (floor(cell) + share + 0.5) / size, 0.0).r;
  vec2 material = vec2(stepped, textureLod(material_map, uvw, 0.0).g);
  float left = coverage_at(p);
  float outer = inside_mm(material.g);
  float body = edge(outer);
  float solid = min(edge(inside_mm(left)), body);
  float density = material.r * lattice_min.w;

  // Denser is lighter, as on a radiograph.
  float grey = 0.30 + 0.46 * smoothstep(0.0, 900.0, density);
  float share_dense = smoothstep(130.0, 620.0, density);
  grey *= 0.90 + 0.11 * foam_cells(p, share_dense, pixel_mm).w;
  vec3 tone = vec3(grey);

  // A fine edge where the material ends, for the same reason no wider.
  float line = min(max(pixel_mm * 1.3, 0.06), 0.9 * box_min.w);
  float wall = smoothstep(0.0, line, inside_mm(left));
  tone *= mix(0.72, 1.0, wall);

  vec3 void_tone = vec3(0.055, 0.058, 0.064);
  vec3 mouth = mix(void_tone, vec3(0.30), 1.0 - smoothstep(0.0, line, outer));
  vec3 inside = mix(mouth, tone, solid);
  colour = vec4(mix(background, inside, body), 1.0);
}
