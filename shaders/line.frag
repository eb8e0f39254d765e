// Line with a core and a casing of another tone, dashed or not.
in vec2 across_along;
out vec4 colour;

uniform float half_width;
uniform vec4 core;
uniform vec4 casing;
uniform vec2 dash;  // mm: period, drawn part; period 0: unbroken

void main() {
  float d = abs(across_along.x);
  float shape = clamp(half_width - d + 0.5, 0.0, 1.0);
  if (dash.x > 0.0) {
    float at = mod(across_along.y, dash.x);
    float width = max(fwidth(across_along.y), 1e-4);
    shape *= clamp(min(at, dash.y - at) / width + 0.5, 0.0, 1.0);
  }
  vec4 tone = mix(casing, core, clamp(half_width * 0.55 - d + 0.5, 0.0, 1.0));
  colour = vec4(tone.rgb, tone.a * shape);
}
