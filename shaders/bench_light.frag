// Bakes once per specimen what light it leaves on the bench around it.
in vec2 ndc;
out vec4 light;

const float kLitHalfWidth = 48.0;
const int kDirections = 40;

float reached(vec3 p, vec3 direction) {
  float left = 1.0;
  // Enter at the near side of the specimen's box, leave at its far side.
  vec3 inverse = 1.0 / direction;
  vec3 a = (box_min.xyz - p) * inverse;
  vec3 b = (box_max.xyz - p) * inverse;
  vec3 low = min(a, b);
  vec3 high = max(a, b);
  float begin = max(max(low.x, low.y), max(low.z, 0.02));
  float end = min(high.x, min(high.y, high.z));
  if (end <= begin) {
    return 1.0;
  }
  float stride = (end - begin) / 9.0;
  for (int i = 0; i < 9; ++i) {
    left = min(left, 1.0 - coverage_near(p + direction * (begin + (float(i) + 0.5) * stride), 1.0));
  }
  return left;
}

void main() {
  vec3 p = vec3(ndc * kLitHalfWidth, box_max.w + 0.02);
  float ambient = 0.0;
  float weight = 0.0;
  for (int i = 0; i < kDirections; ++i) {
    // Cosine-weighted directions on a golden spiral.
    float u = (float(i) + 0.5) / float(kDirections);
    float angle = 2.399963 * float(i);
    vec3 d = vec3(sqrt(u) * vec2(cos(angle), sin(angle)), sqrt(1.0 - u));
    ambient += reached(p, d + vec3(1e-4));
    weight += 1.0;
  }
  float key = 0.0;
  for (int i = 0; i < 24; ++i) {
    // A round lamp of about 6 degrees.
    float angle = 2.399963 * float(i);
    vec2 offset = 0.11 * sqrt((float(i) + 0.5) / 24.0) * vec2(cos(angle), sin(angle));
    key += reached(p, normalize(to_light.xyz + vec3(offset, 0.0)));
  }
  light = vec4(ambient / weight, key / 24.0, 0.0, 1.0);
}
