// The specimen: first surface along the ray, found in the coverage texture, shaded as cut foam.
in vec3 world;
out vec4 colour;

const vec3 kSoftTone = vec3(0.60, 0.545, 0.455);
const vec3 kDenseTone = vec3(0.385, 0.325, 0.25);
const vec3 kInk = vec3(0.028, 0.030, 0.045);

float stroke(float distance_mm, float half_width, float footprint) {
  return clamp((half_width - distance_mm) / footprint + 0.5, 0.0, 1.0);
}

float ink_cross(vec2 q, float arm, float footprint) {
  vec2 a = abs(q);
  float line = max(stroke(a.x, 0.17, footprint) * stroke(a.y, arm, footprint),
                   stroke(a.y, 0.17, footprint) * stroke(a.x, arm, footprint));
  return line;
}

void write_depth(vec3 p) {
  vec2 zw = vec2(world_to_clip[0][2], world_to_clip[0][3]) * p.x + vec2(world_to_clip[1][2], world_to_clip[1][3]) * p.y +
            vec2(world_to_clip[2][2], world_to_clip[2][3]) * p.z + vec2(world_to_clip[3][2], world_to_clip[3][3]);
  gl_FragDepth = 0.5 + 0.5 * zw.x / zw.y;
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

  // Walk: short steps on the ramp, long ones where the averages say that nothing is near.
  float voxel = box_min.w;
  float before = t;
  float s_before = 0.0;
  float s = coverage_at(eye.xyz + direction * t);
  bool capped = starts_on_cut && s >= 0.5;
  if (!capped) {
    bool hit = s >= 0.5;
    for (int i = 0; i < 320 && !hit && t < end; ++i) {
      before = t;
      s_before = s;
      float stride = voxel * 0.9;
      for (int k = 0; k < once(s <= 0.0); ++k) {
        stride = coverage_near(eye.xyz + direction * t, 3.0) <= 0.0 ? voxel * 4.0 : voxel * 1.25;
      }
      t += stride;
      s = coverage_at(eye.xyz + direction * t);
      hit = s >= 0.5;
    }
    if (!hit) {
      discard;
    }
    for (int i = 0; i < 2 && abs(s - 0.5) > 0.04; ++i) {
      // The ramp is straight, so the chord is close at once.
      float middle = mix(before, t, clamp((0.5 - s_before) / max(s - s_before, 1e-4), 0.05, 0.95));
      float at_middle = coverage_at(eye.xyz + direction * middle);
      if (at_middle >= 0.5) {
        t = middle;
        s = at_middle;
      } else {
        before = middle;
        s_before = at_middle;
      }
    }
  }

  vec3 p = eye.xyz + direction * t;
  write_depth(p);
  vec3 normal = capped ? cut.xyz : surface_normal(p);
  float footprint = eye.w * t;
  vec3 inside = p - normal * voxel;
  vec2 material = textureLod(material_map, lattice(inside), 0.0).rg;
  float density = material.r * lattice_min.w;
  float share_dense = smoothstep(130.0, 620.0, density);
  // One level of detail for the whole picture, so that no border between two runs across a face.
  vec4 cells = foam_cells(p, share_dense, eye.w * length(eye.xyz));

  // The glue plane: where density changes within a fraction of a millimetre, on one and the same surface.
  float near_by = length(fwidth(p)) < 8.0 * footprint ? 1.0 : 0.0;
  float glue = near_by * smoothstep(0.10, 0.45, fwidth(material.r) / footprint);

  vec3 albedo = mix(kSoftTone, kDenseTone, share_dense);
  albedo *= mix(0.70, 1.04, cells.w);
  albedo = mix(albedo, albedo * vec3(0.62, 0.58, 0.50), 0.7 * glue);

  if (capped) {
    // A clean section: paler, with a fine dark edge along the hole.
    vec3 cap = mix(albedo, vec3(dot(albedo, vec3(0.35, 0.5, 0.15))), 0.15);
    cap *= mix(0.35, 1.0, smoothstep(0.55, 0.99, s));
    colour = vec4(encoded(cap * (ambient_light(normal) * 0.75 + kKeyLight * 0.42)), 1.0);
    return;
  }

  bool drilled = textureLod(material_map, lattice(p + normal * 1.6 * voxel), 0.0).g > 0.5;
  if (!drilled && start_mark.w > 0.0 && normal.z > 0.5) {
    float ink = ink_cross(p.xy - start_mark.xy, start_mark.w, footprint);
    albedo = mix(albedo, kInk, ink * mix(0.70, 0.96, cells.w));
  }
  if (drilled) {
    albedo *= 0.92;
  }

  vec3 slope = cells.xyz - normal * dot(cells.xyz, normal);
  vec3 bumped = normalize(normal - slope * (drilled ? 0.30 : 0.42));
  float feet = beside_feet(p);
  float open = open_sky(p, normal) * beside_drill(p, normal) * feet;
  for (int k = 0; k < once(drilled); ++k) {
    // Deeper down less of the sky is seen.
    vec3 q = p + normal * 0.8;
    float hidden = coverage_near(q + vec3(0.0, 0.0, 1.6), 3.0) + coverage_near(q + vec3(0.0, 0.0, 5.0), 3.0);
    open *= 1.0 / (1.0 + 2.2 * hidden * hidden);
  }
  float key = max(dot(bumped, to_light.xyz), 0.0) * smoothstep(-0.05, 0.15, dot(normal, to_light.xyz));
  for (int k = 0; k < once(key > 0.0); ++k) {
    key *= past_specimen(p, normal) * past_tools(p) * feet;
  }
  float fill = max(dot(bumped, -direction), 0.0);
  // Light thrown back by the bench dies off upward; contact with the bench is dark.
  float above_bench = p.z - box_max.w;
  float contact = normal.z < 0.5 ? mix(0.55, 1.0, smoothstep(0.0, 5.0, above_bench)) : 1.0;
  vec3 light = ambient_light(bumped) * (open * contact) + kKeyLight * key + vec3(0.30, 0.29, 0.27) * fill * open;
  colour = vec4(encoded(albedo * light), 1.0);
}
