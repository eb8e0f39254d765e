// A piece of jaw: first shown surface along the ray, coloured by tissue; bone may be half clear.
in vec3 world;
out vec4 colour;

uniform vec4 reveal;  // x: 1 with gum, y: how clear the bone is, 0..1

void write_depth(vec3 p) {
  vec2 zw = vec2(world_to_clip[0][2], world_to_clip[0][3]) * p.x + vec2(world_to_clip[1][2], world_to_clip[1][3]) * p.y +
            vec2(world_to_clip[2][2], world_to_clip[2][3]) * p.z + vec2(world_to_clip[3][2], world_to_clip[3][3]);
  gl_FragDepth = 0.5 + 0.5 * zw.x / zw.y;
}

// Half at the shown surface. Without gum the surface is where density passes 350 mg/cm3.
float shown_at(vec3 p) {
  vec3 uvw = lattice(p);
  float left = textureLod(coverage_map, uvw, 0.0).r;
  if (reveal.x > 0.5) {
    return left;
  }
  return left * min(textureLod(material_map, uvw, 0.0).r * lattice_min.w / 700.0, 1.0);
}

vec3 shown_normal(vec3 p) {
  const vec2 k = vec2(1.0, -1.0);
  // Without gum the border is one voxel wide: a wider look round it hides the steps.
  float h = box_min.w * (reveal.x > 0.5 ? 1.0 : 2.4);
  vec3 g = k.xyy * shown_at(p + k.xyy * h) + k.yyx * shown_at(p + k.yyx * h) +
           k.yxy * shown_at(p + k.yxy * h) + k.xxx * shown_at(p + k.xxx * h);
  return -g / max(length(g), 1e-5);
}

bool is_kept(int tissue) { return tissue == kNerve || tissue == kEnamel || tissue == kDentine || tissue == kPulp || tissue == kTitanium; }

// Outward direction of what is kept in clear bone, from the labels around.
vec3 kept_normal(vec3 p) {
  float h = 1.6 * box_min.w;
  vec3 n = vec3(0.0);
  for (int i = 0; i < 6; ++i) {
    vec3 d = vec3(i < 2 ? 1.0 : 0.0, i == 2 || i == 3 ? 1.0 : 0.0, i > 3 ? 1.0 : 0.0) * (i % 2 == 0 ? 1.0 : -1.0);
    n += is_kept(tissue_at(lattice(p + d * h))) ? vec3(0.0) : d;
  }
  return n / max(length(n), 1e-4);
}

vec3 lit(vec3 albedo, vec3 normal, vec3 direction, float open, float key) {
  float fill = max(dot(normal, -direction), 0.0);
  return albedo * (ambient_light(normal) * 0.78 * open + kKeyLight * 0.42 * max(dot(normal, to_light.xyz), 0.0) * key +
                   vec3(0.17, 0.165, 0.155) * fill * open);
}

// The lamp mirrored in a wet or hard surface, and the sky along its edges.
float gloss(vec3 normal, vec3 direction, int tissue, float key) {
  float hard = tissue == kEnamel || tissue == kTitanium ? 1.0 : tissue == kGum ? 0.55 : 0.2;
  float lamp = max(dot(normal, normalize(to_light.xyz - direction)), 0.0);
  float rim = pow(1.0 - max(dot(normal, -direction), 0.0), 4.0);
  return hard * (0.55 * pow(lamp, 20.0 + 60.0 * hard) * key + 0.16 * rim);
}

// Section colour: spongy bone by its density, so that the trabeculae show.
vec3 cap_tone(vec3 p, int tissue) {
  vec3 tone = tissue_tone(tissue).rgb;
  float density = textureLod(material_map, lattice(p), 0.0).r * lattice_min.w;
  if (tissue == kCancellous) {
    tone = mix(vec3(0.50, 0.20, 0.16), vec3(0.90, 0.80, 0.64), smoothstep(60.0, 1300.0, density));
  }
  return tone * tone;
}

void main() {
  vec3 direction = normalize(world - eye.xyz);
  vec3 inverse = 1.0 / (direction + vec3(equal(direction, vec3(0.0))) * 1e-6);
  vec3 a = (box_min.xyz - eye.xyz) * inverse;
  vec3 b = (box_max.xyz - eye.xyz) * inverse;
  vec3 low = min(a, b);
  vec3 high = max(a, b);
  float t = max(max(low.x, low.y), max(low.z, 0.0));
  float end = min(high.x, min(high.y, high.z));
  bool starts_on_cut = false;
  if (dot(cut.xyz, cut.xyz) > 0.5) {
    float outside = dot(eye.xyz + direction * t, cut.xyz) - cut.w;
    float slope = dot(direction, cut.xyz);
    if (outside > 0.0) {
      if (slope > -1e-5) {
        discard;
      }
      t -= outside / slope;
      starts_on_cut = true;
    } else if (slope > 1e-5) {
      end = min(end, t - outside / slope);
    }
  }
  if (end <= t) {
    discard;
  }

  float voxel = box_min.w;
  vec3 p = eye.xyz + direction * t;
  int first = tissue_at(lattice(p));
  if (starts_on_cut && coverage_at(p) >= 0.5 && (reveal.x > 0.5 || first != kGum)) {
    write_depth(p);
    colour = vec4(encoded(cap_tone(p, first) * 0.95), 1.0);
    return;
  }
  float before = t;
  float s_before = 0.0;
  float s = shown_at(p);
  bool hit = s >= 0.5;
  for (int i = 0; i < 320 && !hit && t < end; ++i) {
    before = t;
    s_before = s;
    float stride = voxel * 0.9;
    for (int k = 0; k < once(s <= 0.0); ++k) {
      stride = coverage_near(eye.xyz + direction * t, 3.0) <= 0.0 ? voxel * 4.0 : voxel * 1.25;
    }
    t += stride;
    s = shown_at(eye.xyz + direction * t);
    hit = s >= 0.5;
  }
  if (!hit) {
    discard;
  }
  for (int i = 0; i < 3; ++i) {
    float middle = mix(before, t, clamp((0.5 - s_before) / max(s - s_before, 1e-4), 0.05, 0.95));
    float at_middle = shown_at(eye.xyz + direction * middle);
    if (at_middle >= 0.5) {
      t = middle;
      s = at_middle;
    } else {
      before = middle;
      s_before = at_middle;
    }
  }

  p = eye.xyz + direction * t;
  write_depth(p);
  vec3 normal = shown_normal(p);
  int tissue = tissue_at(lattice(p - normal * voxel));
  if (reveal.x < 0.5 && tissue == kGum) {
    // Within the ramp between gum and bone: what lies under it.
    tissue = tissue_at(lattice(p - normal * 2.2 * voxel));
    tissue = tissue == kGum ? kCortical : tissue;
  }
  vec3 tone = tissue_tone(tissue).rgb;
  // Gum that is not shown shades nothing: without it the specimen leaves its own light whole.
  float open = reveal.x > 0.5 ? open_sky(p, normal) : 0.85;
  float feet = beside_feet(p);
  float key = 0.0;  // what is turned from the lamp needs no walk toward it
  for (int k = 0; k < once(dot(normal, to_light.xyz) > 0.0); ++k) {
    key = past_tools(p) * feet * (reveal.x > 0.5 ? past_specimen(p, normal) : 1.0);
  }
  open *= beside_drill(p, normal) * feet;
  vec3 surface = lit(tone * tone, normal, direction, open, key) + gloss(normal, direction, tissue, key) * open;
  float clear = is_kept(tissue) ? 0.0 : reveal.y;
  if (clear > 0.0) {
    // Edges stay firm, faces let the eye through to nerve and roots.
    float facing = abs(dot(normal, direction));
    float veil = mix(0.85, 1.0 - clear, smoothstep(0.0, 0.55, facing));
    vec3 inside = backdrop.rgb + vec3(0.10, 0.09, 0.085);
    for (int i = 0; i < 200 && t < end; ++i) {
      t += voxel * 1.5;
      vec3 q = eye.xyz + direction * t;
      if (is_kept(tissue_at(lattice(q)))) {
        vec3 found = tissue_tone(tissue_at(lattice(q))).rgb;
        inside = lit(found * found, kept_normal(q), direction, 0.8, 1.0);
        break;
      }
    }
    surface = mix(inside, surface, veil);
  }
  colour = vec4(encoded(surface), 1.0);
}
