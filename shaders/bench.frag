// The bench and what is behind it: a matte surface in a pool of light that fades into the backdrop.
uniform sampler2D bench_light;  // r: ambient light, g: key light left by the specimen

in vec2 ndc;
out vec4 colour;

uniform sampler3D foam_map;

const float kLitHalfWidth = 48.0;

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
    float grain = textureLod(foam_map, p / 3.1, 1.0 + log2(1.0 + eye.w * length(p - eye.xyz) * 16.0)).a;
    vec3 albedo = bench.rgb * (0.97 + 0.06 * grain);
    float key = max(to_light.z, 0.0) * baked.g * past_tools(p);
    vec3 lit = albedo * (ambient_light(vec3(0, 0, 1)) * baked.r + kKeyLight * key);
    float pool = exp(-pow(distance_from_site / 62.0, 2.0));
    light = mix(backdrop.rgb, lit, pool);
  }
  colour = vec4(encoded(light), 1.0);
}
