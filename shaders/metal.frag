// Steel: a studio of soft lamps seen in it, with printed depth lines and numbers on the drill.
in vec3 world;
in vec3 world_normal;
in vec2 surface_mark;
out vec4 colour;

uniform sampler2D glyph_map;   // distance to the strokes of 0-9 and the point, 0.5 on the stroke's edge
uniform vec4 tint;             // rgb: reflectance, a: 0 polished to 1 brushed
uniform vec4 print_lines[16];  // x: height above the tip, y: half width, z: coded number, w: digit height
uniform int print_count;
uniform vec3 print_side;       // unit: right of the drill as the eye sees it

// Light that comes from a direction of the studio.
vec3 studio(vec3 d, float blur) {
  vec3 room = mix(vec3(0.07, 0.066, 0.062), vec3(0.34, 0.36, 0.39), smoothstep(-0.35 - blur, 0.55 + blur, d.z));
  float lamp = smoothstep(0.80 - 0.35 * blur, 0.93 + 0.05 * blur, dot(d, to_light.xyz));
  vec3 back = normalize(vec3(-to_light.y, to_light.x, 0.25));
  float strip = smoothstep(0.62 - 0.3 * blur, 0.86, abs(dot(d, back)));
  float horizon = exp(-d.z * d.z / (0.012 + 0.06 * blur));
  return room * (1.0 - 0.45 * horizon) + vec3(2.3, 2.2, 2.05) * lamp * (1.0 - 0.45 * blur) + vec3(0.95, 0.98, 1.05) * strip * (1.0 - 0.4 * blur);
}

float glyph(float code, vec2 cell) {
  if (cell.x < 0.0 || cell.x > 1.0 || cell.y < 0.0 || cell.y > 1.0) {
    return 0.0;
  }
  return textureLod(glyph_map, vec2((code + cell.x) / 11.0, cell.y), 0.0).r;
}

// x: ink of the printed lines and numbers, y: matt ground behind the numbers.
vec2 print_at(vec3 p) {
  vec3 q = p - drill_tip.xyz;
  float height = dot(q, drill_axis.xyz);
  vec3 away = q - height * drill_axis.xyz;
  float radius = max(length(away), 1e-3);
  vec3 front = cross(drill_axis.xyz, print_side);
  float angle = atan(dot(away, print_side), -dot(away, front));
  float arc = angle * drill_tip.w;
  float footprint = eye.w * length(p - eye.xyz);
  float ink = 0.0;
  float matt = 0.0;
  for (int i = 0; i < print_count; ++i) {
    vec4 line = print_lines[i];
    ink = max(ink, clamp((line.y - abs(height - line.x)) / footprint + 0.5, 0.0, 1.0));
    if (line.w > 0.0) {
      float middle = line.x + line.y + 0.16 + 0.5 * line.w;
      // Numbers too small to be read would only be noise.
      float readable = smoothstep(5.0, 9.0, line.w / footprint);
      matt = max(matt, (0.4 + 0.6 * readable) * clamp((0.5 * line.w + 0.10 - abs(height - middle)) / footprint + 0.5, 0.0, 1.0));
      float count = floor(line.z / 1728.0);
      float code = line.z - count * 1728.0;
      float width = line.w * 0.62;
      vec2 cell = vec2(arc / width + count * 0.5, (height - line.x - line.y - 0.16) / line.w);
      float place = floor(cell.x);
      float digit = place < 0.5 ? floor(code / 144.0) : place < 1.5 ? mod(floor(code / 12.0), 12.0) : mod(code, 12.0);
      if (place >= 0.0 && place < count) {
        float field = glyph(digit, vec2(cell.x - place, cell.y));
        float sharp = clamp(line.w * 0.30 / max(footprint, 0.01), 1.0, 12.0);
        ink = max(ink, readable * clamp((field - 0.5) * sharp + 0.5, 0.0, 1.0));
      }
    }
  }
  return vec2(ink, matt);
}

void main() {
  vec3 view = normalize(world - eye.xyz);
  vec3 normal = normalize(world_normal);
  if (dot(normal, view) > 0.0) {
    normal = -normal;
  }
  vec2 printed = print_count > 0 ? print_at(world) : vec2(0.0);
  vec3 mirrored = reflect(view, normal);
  float facing = max(-dot(view, normal), 0.0);
  float fresnel = pow(1.0 - facing, 5.0);
  vec3 reflectance = mix(tint.rgb, vec3(0.92), fresnel);

  // Hidden from the sky inside the hole; by the block on the way to the lamp.
  float open = 1.0;
  if (in_box(world)) {
    open *= 1.0 - 0.8 * coverage_near(world + normal * 0.8, 1.0);
    open *= 1.0 - 0.7 * coverage_near(world + normal * 1.2 + vec3(0, 0, 1.5), 2.0);
    open *= 1.0 - 0.6 * coverage_near(world + vec3(0, 0, 4.0), 3.0);
    // A specimen that is cut open lets light in.
    open = mix(open, 1.0, 0.7 * dot(cut.xyz, cut.xyz));
  } else {
    open *= 1.0 - 0.55 * coverage_near(world + mirrored * 2.0, 2.0);
  }
  float key = open < 0.35 ? 0.0 : past_guide(world);
  vec3 light = studio(mirrored, tint.a) * open;
  float diffuse = max(dot(normal, to_light.xyz), 0.0);
  vec3 lit = reflectance * light * mix(0.55, 1.0, key) +
             tint.rgb * (0.05 + 0.22 * tint.a) * (ambient_light(normal) * open + kKeyLight * diffuse * key * open);
  // Light from behind along the edges sets the metal off from the block.
  lit += vec3(0.30, 0.32, 0.36) * fresnel * open;
  // The ground of the numbers still shows the flutes.
  vec3 from_axis = world - drill_tip.xyz;
  from_axis -= dot(from_axis, drill_axis.xyz) * drill_axis.xyz;
  float cavity = smoothstep(0.50, 0.93, length(from_axis) / max(drill_tip.w, 1e-3));
  vec3 ground = vec3(0.50) * mix(0.38, 1.0, cavity) * (ambient_light(normal) * open + kKeyLight * 0.55 * (0.25 + 0.75 * diffuse) * key * open);
  lit = mix(lit, ground, 0.72 * printed.y);
  lit = mix(lit, vec3(0.012) + lit * 0.06, printed.x);
  colour = vec4(encoded(lit), 1.0);
}
