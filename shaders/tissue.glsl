// Tissue labels of a piece of jaw, in the order of specimen/tissue.h, and the colour of each.
uniform sampler3D tissue_map;

const int kCortical = 1;
const int kCancellous = 2;
const int kCanalWall = 3;
const int kNerve = 4;
const int kEnamel = 5;
const int kDentine = 6;
const int kPulp = 7;
const int kLigament = 8;
const int kGum = 9;
const int kMembrane = 10;
const int kTitanium = 14;

int tissue_at(vec3 uvw) { return int(textureLod(tissue_map, uvw, 0.0).r * 255.0 + 0.5); }

// rgb: as stored; a: how much of it belongs over a grey picture.
vec4 tissue_tone(int tissue) {
  if (tissue == kNerve) return vec4(1.0, 0.80, 0.20, 1.0);
  if (tissue == kGum) return vec4(0.86, 0.47, 0.47, 0.9);
  if (tissue == kMembrane) return vec4(0.78, 0.42, 0.62, 1.0);
  if (tissue == kPulp) return vec4(0.82, 0.36, 0.34, 0.9);
  if (tissue == kLigament) return vec4(0.72, 0.40, 0.44, 0.7);
  if (tissue == kEnamel) return vec4(0.97, 0.97, 0.94, 0.3);
  if (tissue == kTitanium) return vec4(0.56, 0.62, 0.70, 0.9);
  if (tissue == kDentine) return vec4(0.93, 0.85, 0.66, 0.5);
  if (tissue == kCanalWall) return vec4(0.95, 0.88, 0.62, 0.5);
  if (tissue == kCancellous) return vec4(0.85, 0.60, 0.48, 0.25);
  return vec4(0.93, 0.89, 0.80, tissue == kCortical ? 0.25 : 0.0);
}
