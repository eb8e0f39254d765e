// Values that hold for one whole picture, and what every surface shader shares. Lengths in mm, site frame.
precision highp float;
precision highp int;
precision highp sampler3D;

layout(std140) uniform Frame {
  mat4 world_to_clip;
  mat4 clip_to_world;
  mat4 world_to_guide;
  vec4 eye;            // w: mm per pixel at a distance of 1 mm
  vec4 to_light;       // unit; w: 1 in the light theme
  vec4 drill_tip;      // w: radius of the body, 0 without a drill
  vec4 drill_axis;     // unit, out of the bone; w: height of the point
  vec4 drill_lengths;  // x: end of the body, y: shank radius, z: lower edge of the head, w: head radius
  vec4 guide_soles[4]; // middles of the soles in the guide's frame, at (+x+y, -x+y, -x-y, +x-y)
  vec4 guide;          // y: middle of the plate, w: hub radius
  vec4 cut;            // normal toward the removed side, zero when nothing is cut; w: offset
  vec4 box_min;        // tight box of the specimen; w: voxel
  vec4 box_max;        // w: height of the bench
  vec4 lattice_min;    // outer corner of the voxel lattice; w: largest density of the texture
  vec4 lattice_scale;  // 1 / extent of the lattice
  vec4 start_mark;     // w: arm length of the ink cross, 0 without
  vec4 backdrop;       // linear colour far away
  vec4 bench;          // linear albedo of the bench
};

// Rounds of a loop that stands for a branch. Software GL walks through both sides of every branch, but leaves
// a loop that none of its pixels needs.
int once(bool wanted) { return wanted ? 1 : 0; }

const vec3 kKeyLight = vec3(2.05, 1.98, 1.86);
const vec3 kSkyLight = vec3(0.50, 0.53, 0.58);
const vec3 kGroundLight = vec3(0.25, 0.235, 0.22);

vec3 ambient_light(vec3 normal) {
  return mix(kGroundLight, kSkyLight, 0.5 + 0.5 * normal.z);
}

// Linear light to what the texture stores: a gentle shoulder, then a square root, which is near the
// usual transfer curve and cheap in software.
vec3 encoded(vec3 linear) {
  vec3 c = max(linear, 0.0);
  return sqrt(c * (1.0 + c * 0.11) / (1.0 + c * 0.52));
}

// Light left by a capsule between the point and the light; softer the farther away it is.
float past_capsule(vec3 p, vec3 a, vec3 b, float radius) {
  vec3 axis = b - a;
  vec3 from = p - a;
  float aa = dot(axis, axis);
  float al = dot(axis, to_light.xyz);
  float af = dot(axis, from);
  float lf = dot(to_light.xyz, from);
  float denominator = aa - al * al;
  float s = denominator > 1e-4 ? clamp((af - al * lf) / denominator, 0.0, 1.0) : 0.5;
  float t = max(s * al - lf, 0.0);
  s = clamp((af + al * t) / aa, 0.0, 1.0);
  t = max(s * al - lf, 0.0);
  float gap = length(from + to_light.xyz * t - axis * s) - radius;
  float soft = 0.06 + 0.085 * t;
  return smoothstep(-soft, soft, gap);
}

// For the same reason scenes without a guide have programs without one.
#ifdef WITH_GUIDE
// The foot in the same quarter round the sleeve.
vec3 nearest_sole(vec2 q) {
  return (q.y > 0.0 ? (q.x > 0.0 ? guide_soles[0] : guide_soles[1]) : (q.x > 0.0 ? guide_soles[3] : guide_soles[2])).xyz;
}

// Distance in the plane to the outline of the guide: hub, and the arm and foot of this quarter.
float guide_outline(vec2 q) {
  float hub = length(q) - guide.w;
  vec2 f = nearest_sole(q).xy;
  float arm = length(q - f * clamp(dot(q, f) / dot(f, f), 0.0, 1.0)) - 1.9;
  float foot = length(max(abs(q - f) - vec2(1.4), 0.0)) - 0.8;
  return min(hub, min(arm, foot));
}

float past_guide(vec3 p) {
  vec3 q = (world_to_guide * vec4(p, 1.0)).xyz;
  vec3 l = mat3(world_to_guide) * to_light.xyz;
  float t = (guide.y - q.z) / l.z;
  if (t < 0.05) {
    return 1.0;
  }
  float gap = guide_outline(q.xy + l.xy * t);
  float soft = 0.05 + 0.09 * t;
  return mix(0.42, 1.0, smoothstep(-soft, soft, gap));
}

// Ambient light left under the soles of the guide's feet; a gap lets some in from the side.
float beside_feet(vec3 p) {
  vec3 q = (world_to_guide * vec4(p, 1.0)).xyz;
  vec3 sole = nearest_sole(q.xy);
  float gap = max(sole.z - q.z, 0.0);
  float outside = length(max(abs(q.xy - sole.xy) - vec2(2.0), 0.0));
  return mix(0.14 + 0.55 * min(gap, 1.0), 1.0, smoothstep(0.0, 0.45 + 1.1 * gap, outside));
}
#else
float past_guide(vec3 p) { return 1.0; }
float beside_feet(vec3 p) { return 1.0; }
#endif

// Share of the key light that reaches a point past drill, handpiece and guide.
float past_tools(vec3 p) {
  vec3 a = drill_axis.xyz;
  vec3 tip = drill_tip.xyz;
  float r = drill_tip.w;
  vec3 head = tip + a * drill_lengths.z;
  float light = past_capsule(p, tip + a * (drill_axis.w + 0.35 * r), head, r * 0.92) *
                past_capsule(p, head + a * 3.5, head + a * 9.5, drill_lengths.w);
  return past_guide(p) * (r > 0.0 ? light : 1.0);
}

// The same for points far below the handpiece, where only its head matters.
float past_handpiece(vec3 p) {
  if (drill_tip.w <= 0.0) {
    return 1.0;
  }
  vec3 a = drill_axis.xyz;
  return past_capsule(p, drill_tip.xyz + a * (drill_lengths.z + 3.0), drill_tip.xyz + a * (drill_lengths.z + 12.0),
                      drill_lengths.w);
}

// Ambient light left beside the drill.
float beside_drill(vec3 p, vec3 normal) {
  if (drill_tip.w <= 0.0) {
    return 1.0;
  }
  vec3 q = p - drill_tip.xyz;
  float h = clamp(dot(q, drill_axis.xyz), 0.5 * drill_axis.w, drill_lengths.z);
  vec3 away = q - h * drill_axis.xyz;
  float d = max(length(away), 1e-3);
  float r = drill_tip.w;
  float facing = clamp(0.6 - 0.6 * dot(normal, away / d), 0.0, 1.0);
  return 1.0 - 0.75 * facing * clamp(r * r / (d * d), 0.0, 1.0) ;
}
