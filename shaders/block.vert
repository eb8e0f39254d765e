// The specimen's box; the fragment shader walks through it.
layout(location = 0) in vec3 corner;

out vec3 world;

void main() {
  world = mix(box_min.xyz, box_max.xyz, corner * 0.5 + 0.5);
  gl_Position = world_to_clip * vec4(world, 1.0);
}
