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

float edge(float distance_mm) { return clamp(distance_mm / pixel_mm + 0.5, 0.0, 1.0); }

void main() {
  vec3 p = centre + right * ndc.x + up * ndc.y;
  vec3 uvw = lattice(p);
  vec2 material = textureLod(material_map, uvw, 0.0).rg;
  float left = coverage_at(p);
  float outer = inside_mm(material.g);
  float body = edge(outer);
  float solid = min(edge(inside_mm(left)), body);
  float density = material.r * lattice_min.w;

  // Denser is lighter, as on a radiograph.
  float grey = 0.30 + 0.46 * smoothstep(0.0, 900.0, density);
  float share_dense = smoothstep(130.0, 620.0, density);
  float grain_soft = textureLod(foam_map, p / 7.6, log2(max(pixel_mm * 6.3, 1.0))).a;
  float grain_dense = textureLod(foam_map, p.yzx / 2.9 + 0.37, log2(max(pixel_mm * 16.5, 1.0))).a;
  grey *= mix(0.86 + 0.16 * grain_soft, 0.92 + 0.09 * grain_dense, share_dense);
  vec3 tone = vec3(grey);

  // A fine edge where the material ends.
  float line = max(pixel_mm * 1.3, 0.06);
  float wall = smoothstep(0.0, line, inside_mm(left));
  tone *= mix(0.72, 1.0, wall);

  vec3 void_tone = vec3(0.055, 0.058, 0.064);
  vec3 mouth = mix(void_tone, vec3(0.30), 1.0 - smoothstep(0.0, line, outer));
  vec3 inside = mix(mouth, tone, solid);
  colour = vec4(mix(background, inside, body), 1.0);
}
