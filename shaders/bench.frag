// The bench and what is behind it: a matte surface in a pool of light that fades into the backdrop.
uniform sampler2D bench_light;  // r: ambient light, g: key light left by the specimen

in vec2 ndc;
out vec4 colour;

const float kLitHalfWidth = 48.0;

float pow2(float x) { return x * x; }

void main() {
  vec4 far = clip_to_world * vec4(ndc, 1.0, 1.0);
  vec3 direction = normalize(far.xyz / far.w - eye.xyz);
  vec3 light = backdrop.rgb;
  if (direction.z < -1e-4) {
    vec3 p = eye.xyz + direction * ((box_max.w - eye.z) / direction.z);
    float distance_from_site = length(p.xy);
    vec2 uv = 0.5 + 0.5 * p.xy / kLitHalfWidth;
    vec2 baked = mix(vec2(1.0), texture(bench_light, uv).rg,
                     1.0 - smoothstep(0.86, 1.0, max(abs(p.x), abs(p.y)) / kLitHalfWidth));
    float key = max(to_light.z, 0.0) * baked.g * past_handpiece(p);
    vec3 lit = bench.rgb * (ambient_light(vec3(0, 0, 1)) * baked.r + kKeyLight * key);
    float pool = 1.0 / (1.0 + pow2(pow2(distance_from_site / 58.0)));
    light = mix(backdrop.rgb, lit, pool);
  }
  // Half a step of noise hides the steps of the long gradient.
  float noise = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5;
  colour = vec4(encoded(light) + noise / 255.0, 1.0);
}
