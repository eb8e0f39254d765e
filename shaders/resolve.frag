// Brings the drawn picture to its final size; steps along edges are smoothed when it was drawn at single size.
uniform sampler2D drawn;
uniform vec2 texel;      // 1 / size of the drawn picture
uniform float smoothing; // 1: smooth along edges, 0: plain

in vec2 ndc;
out vec4 colour;

float brightness(vec2 uv) { return dot(textureLod(drawn, uv, 0.0).rgb, vec3(0.30, 0.59, 0.11)); }

void main() {
  vec2 uv = ndc * 0.5 + 0.5;
  vec3 here = textureLod(drawn, uv, 0.0).rgb;
  if (smoothing > 0.5) {
    // Each tap lies between four pixels, so the four of them are a smoothed gradient.
    float a = brightness(uv + texel * vec2(-0.5, -0.5));
    float b = brightness(uv + texel * vec2(0.5, -0.5));
    float c = brightness(uv + texel * vec2(-0.5, 0.5));
    float d = brightness(uv + texel * vec2(0.5, 0.5));
    vec2 gradient = vec2(b + d - a - c, c + d - a - b);
    float steepness = length(gradient);
    float share = smoothstep(0.035, 0.16, steepness);
    if (share > 0.0) {
      vec2 along = vec2(-gradient.y, gradient.x) / steepness;
      vec3 smoothed = textureLod(drawn, uv + texel * along * 0.55, 0.0).rgb +
                      textureLod(drawn, uv - texel * along * 0.55, 0.0).rgb +
                      textureLod(drawn, uv + texel * along * 1.5, 0.0).rgb +
                      textureLod(drawn, uv - texel * along * 1.5, 0.0).rgb;
      here = mix(here, smoothed * 0.25, share);
    }
  }
  colour = vec4(here, 1.0);
}
