// Brings the drawn picture to its final size; steps along edges are smoothed when it was drawn at single size.
uniform sampler2D drawn;
uniform vec2 texel;      // 1 / size of the drawn picture
uniform float smoothing; // 1: smooth along edges, 0: plain

in vec2 ndc;
out vec4 colour;

const vec3 kBrightness = vec3(0.30, 0.59, 0.11);

void main() {
  vec2 uv = ndc * 0.5 + 0.5;
  vec3 here = textureLod(drawn, uv, 0.0).rgb;
  if (smoothing > 0.5) {
    // Each tap lies between four pixels, so the four of them are a smoothed gradient.
    vec3 a = textureLod(drawn, uv + texel * vec2(-0.5, -0.5), 0.0).rgb;
    vec3 b = textureLod(drawn, uv + texel * vec2(0.5, -0.5), 0.0).rgb;
    vec3 c = textureLod(drawn, uv + texel * vec2(-0.5, 0.5), 0.0).rgb;
    vec3 d = textureLod(drawn, uv + texel * vec2(0.5, 0.5), 0.0).rgb;
    vec2 gradient = vec2(dot(b + d - a - c, kBrightness), dot(c + d - a - b, kBrightness));
    float steepness = length(gradient);
    vec2 along = vec2(-gradient.y, gradient.x) / max(steepness, 1e-4) * 1.25;
    vec3 smoothed = textureLod(drawn, uv + texel * along, 0.0).rgb + textureLod(drawn, uv - texel * along, 0.0).rgb +
                    0.5 * (a + b + c + d) * 0.5 + here;
    here = mix(here, smoothed * 0.25, smoothstep(0.035, 0.16, steepness));
  }
  colour = vec4(here, 1.0);
}
