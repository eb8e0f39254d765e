// Meshes placed by a rigid transform.
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec2 mark;

uniform mat4 placed;

out vec3 world;
out vec3 world_normal;
out vec2 surface_mark;

void main() {
  vec4 p = placed * vec4(position, 1.0);
  world = p.xyz;
  world_normal = mat3(placed) * normal;
  surface_mark = mark;
  gl_Position = world_to_clip * p;
}
