// A section as a scan shows it: density times what is left, between two levels, from black to white. Or a film: what
// parallel rays across the plane lose on their way.
in vec2 ndc;
out vec4 colour;

uniform vec3 centre;       // in the picture's middle
uniform vec3 right;        // half the picture's width as a vector
uniform vec3 up;           // half the picture's height
uniform float pixel_mm;
uniform vec4 window;       // x: density drawn black, y: white, z: 1 single voxels, 0 smooth, w: share of tissue colours
uniform vec4 body_top[3];  // middle of the upper end; w: radius, 0 without a body
uniform vec4 body_down[3]; // unit, into the bone; w: length
uniform vec4 body_point;   // heights of the points
uniform float beam_mm;     // length of the rays of a film; 0: a section

// What 40 keV lose in cortical bone (0.6655 cm2/g), in iron (3.629 cm2/g, 7.874 g/cm3) and in titanium (2.214 cm2/g,
// 4.51 g/cm3), per mg/cm3 and mm, and per mm; about what reaches a film at 60 to 70 kV. Source: Hubbell, Seltzer, NISTIR 5632, X-ray mass attenuation coefficients.
const float kBoneLoss = 0.6655e-4;
const float kPinLoss = 2.858;
const float kTitaniumLoss = 0.9985;

// Signed distance to a cylinder with a point, right where it is 0.
float body_gap(vec3 p, vec4 top, vec4 down, float point) {
  vec3 q = p - top.xyz;
  float depth = dot(q, down.xyz);
  float out_mm = length(q - depth * down.xyz);
  float cone = ((out_mm - top.w) * point + (depth - down.w) * top.w) / length(vec2(point, top.w));
  return max(max(out_mm - top.w, -depth), cone);
}

// Share of the rays that is lost: white where nothing comes through. The first body is a pin of metal.
float film(vec3 p) {
  const int kSamples = 128;
  vec3 along = normalize(cross(right, up));
  float step_mm = beam_mm / float(kSamples);
  float loss = 0.0;
  for (int i = 0; i < kSamples; ++i) {
    vec3 q = p + ((float(i) + 0.5) * step_mm - 0.5 * beam_mm) * along;
    vec3 uvw = lattice(q);
    if (body_top[0].w > 0.0 && body_gap(q, body_top[0], body_down[0], body_point.x) < 0.0) {
      loss += kPinLoss * step_mm;
    } else if (all(greaterThan(uvw, vec3(0.0))) && all(lessThan(uvw, vec3(1.0)))) {
      float loss_per_mm = tissue_at(uvw) == kTitanium ? kTitaniumLoss : kBoneLoss * textureLod(material_map, uvw, 0.0).r * lattice_min.w;
      loss += loss_per_mm * step_mm * textureLod(coverage_map, uvw, 0.0).r;
    }
  }
  return 1.0 - exp(-loss);
}

void main() {
  vec3 p = centre + right * ndc.x + up * ndc.y;
  if (beam_mm > 0.0) {
    colour = vec4(vec3(film(p)), 1.0);
    return;
  }
  vec3 uvw = lattice(p);
  vec3 size = vec3(textureSize(coverage_map, 0));
  vec3 voxel = (floor(uvw * size) + 0.5) / size;
  vec3 at = window.z > 0.5 ? voxel : uvw;
  float left = textureLod(coverage_map, at, 0.0).r;
  float density = textureLod(material_map, at, 0.0).r * lattice_min.w * left;
  bool outside = any(lessThan(uvw, vec3(0.0))) || any(greaterThan(uvw, vec3(1.0)));
  float grey = outside ? 0.0 : clamp((density - window.x) / max(window.y - window.x, 1.0), 0.0, 1.0);
  vec3 tone = vec3(grey);
  if (window.w > 0.0 && !outside && left > 0.5) {
    vec4 tint = tissue_tone(tissue_at(uvw));
    tone = mix(tone, tint.rgb * mix(0.45, 1.0, grey), window.w * tint.a);
  }
  for (int i = 0; i < 3; ++i) {
    if (body_top[i].w > 0.0) {
      float gap = body_gap(p, body_top[i], body_down[i], body_point[i]);
      float steep = max(length(vec2(dFdx(gap), dFdy(gap))), 0.02 * pixel_mm);
      float away = abs(gap) / steep;
      float along = dot(p - body_top[i].xyz, body_down[i].xyz);
      float shown = i != 1 || fract(along * 0.9) < 0.6 ? 1.0 : 0.0;
      vec3 core = i == 0 ? vec3(1.0) : i == 1 ? vec3(1.0, 0.77, 0.42) : vec3(0.72, 0.8, 0.95);
      tone = mix(tone, vec3(0.55, 0.78, 0.82), i == 0 && gap < 0.0 ? 0.16 : 0.0);
      tone = mix(tone, vec3(0.0), shown * clamp(2.6 - away, 0.0, 1.0));
      tone = mix(tone, core, shown * clamp(1.5 - away, 0.0, 1.0));
    }
  }
  colour = vec4(tone, 1.0);
}
