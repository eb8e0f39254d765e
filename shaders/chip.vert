// Crumbs of foam, one instance each.
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;

uniform vec4 crumbs[64];  // xyz: place, w: size

out vec3 world;
out vec3 world_normal;

void main() {
  vec4 crumb = crumbs[gl_InstanceID];
  float angle = float(gl_InstanceID) * 2.4;
  mat3 turned = mat3(cos(angle), sin(angle), 0.3, -sin(angle), cos(angle), 0.2, 0.1, -0.35, 0.8);
  world = crumb.xyz + turned * position * crumb.w;
  world_normal = turned * normal;
  gl_Position = world_to_clip * vec4(world, 1.0);
}
