// A crumb of foam.
in vec3 world;
in vec3 world_normal;
out vec4 colour;

uniform vec4 tone;

void main() {
  vec3 normal = normalize(world_normal);
  float key = 0.15 + 0.85 * max(dot(normal, to_light.xyz), 0.0);
  colour = vec4(encoded(tone.rgb * (ambient_light(normal) + kKeyLight * 0.8 * key)), 1.0);
}
