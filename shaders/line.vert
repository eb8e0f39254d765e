// Line pieces of constant width on the picture, one instance each.
uniform vec4 ends[128];  // pairs; xyz: place, w: length along the line in mm
uniform vec2 picture;    // size in pixels
uniform float half_width;

out vec2 across_along;  // pixels from the middle, mm along the line

void main() {
  vec4 from = ends[gl_InstanceID * 2];
  vec4 to = ends[gl_InstanceID * 2 + 1];
  vec4 a = world_to_clip * vec4(from.xyz, 1.0);
  vec4 b = world_to_clip * vec4(to.xyz, 1.0);
  vec2 direction = (b.xy / b.w - a.xy / a.w) * picture;
  direction = direction / max(length(direction), 1e-4);
  vec2 normal = vec2(-direction.y, direction.x);
  float side = gl_VertexID % 2 == 0 ? -1.0 : 1.0;
  bool at_end = gl_VertexID >= 2;
  vec4 p = at_end ? b : a;
  float reach = half_width + 1.0;
  p.xy += (normal * side * reach) * 2.0 / picture * p.w;
  across_along = vec2(side * reach, at_end ? to.w : from.w);
  gl_Position = p;
}
