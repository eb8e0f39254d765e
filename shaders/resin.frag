// Printed resin: pale, slightly see-through, with faint layers and bright edges.
in vec3 world;
in vec3 world_normal;
in vec2 surface_mark;
out vec4 colour;

void main() {
  vec3 view = normalize(world - eye.xyz);
  vec3 normal = normalize(world_normal);
  float facing = max(-dot(view, normal), 0.0);
  float edge = pow(1.0 - facing, 3.0);
  float height = (world_to_guide * vec4(world, 1.0)).z;
  float layers = 0.5 + 0.5 * sin(height * 62.8);
  float layer_share = clamp(0.10 / (eye.w * length(world - eye.xyz)) - 1.2, 0.0, 1.0) * (1.0 - abs(normal.z));
  bool is_sole = surface_mark.x < -0.5;
  vec3 albedo = (is_sole ? vec3(0.16, 0.17, 0.18) : vec3(0.70, 0.715, 0.705)) * (1.0 - 0.05 * layers * layer_share);
  float diffuse = 0.25 + 0.75 * max(dot(normal, to_light.xyz), 0.0);
  vec3 half_way = normalize(to_light.xyz - view);
  float gloss = pow(max(dot(normal, half_way), 0.0), 60.0);
  // A little light comes through from behind.
  vec3 lit = albedo * (ambient_light(normal) * 0.9 + kKeyLight * 0.42 * diffuse) + vec3(0.7) * gloss + vec3(mix(0.35, -0.30, to_light.w)) * edge;
  colour = vec4(encoded(lit), is_sole ? 0.97 : clamp(0.66 + 0.32 * edge + 0.4 * gloss, 0.0, 0.97));
}
