#version 330 core
// One shader for every surface; u_pattern tells which.
in vec3 v_position;
in vec3 v_normal;
in vec3 v_sun;
in float v_open;

uniform vec4 u_colour;
uniform int u_pattern;       // 0 plain, 1 wire mesh, 2 glass, 3 leaves, 4 water, 5 ground
uniform vec2 u_mesh;         // m: clear opening, wire
uniform vec4 u_tint;         // mixed in by its alpha: chosen, pointed at, verdict
uniform vec3 u_to_sun;       // unit; z <= 0: no sun
uniform int u_shadow_taps;   // 0 none, 1, 4
uniform vec3 u_eye;
uniform vec3 u_forward;
uniform int u_flat;          // parallel projection
uniform sampler2DShadow u_shadow;

uniform sampler2D u_inside;  // share inside the boundary, over the ground's grid
uniform vec4 u_ground;       // x0, y0, 1/width, 1/height
uniform vec4 u_outside;      // colour of the ground beyond
uniform float u_grid;        // m between grid lines, 0 = none
uniform float u_contour;     // m between contours, 0 = none

uniform int u_layer;         // 0 none, 1 raster, 2 slope of this surface, 3 one value
uniform sampler2D u_values;
uniform vec4 u_value_grid;   // x0, y0, 1/cell, unused
uniform ivec2 u_value_size;
uniform vec2 u_range;        // low, high
uniform float u_one_value;
uniform sampler2D u_scale;
uniform vec4 u_section;      // colour of what is cut through

out vec4 out_colour;

float sun_share() {
  if (u_shadow_taps == 0) return 1.0;
  float bias = 0.0015;
  if (u_shadow_taps == 1) return texture(u_shadow, vec3(v_sun.xy, v_sun.z - bias));
  vec2 texel = 1.0 / vec2(textureSize(u_shadow, 0));
  float sum = 0.0;
  for (int i = 0; i < 4; ++i) {
    vec2 shift = vec2(float(i & 1) * 2.0 - 1.0, float(i >> 1) * 2.0 - 1.0) * texel;
    sum += texture(u_shadow, vec3(v_sun.xy + shift, v_sun.z - bias));
  }
  return sum * 0.25;
}

// Width of lines met from 0 to x, lines `width` wide starting every `pitch`.
float line_sum(float x, float pitch, float width) {
  float whole = floor(x / pitch);
  return whole * width + min(x - whole * pitch, width);
}

// Share of a pixel covered by such lines, box-filtered: no moiré however far the fence.
float lines(float x, float pitch, float width) {
  float w = max(fwidth(x), 1e-5);
  if (w > 4.0 * pitch) return width / pitch;
  return clamp((line_sum(x + 0.5 * w, pitch, width) - line_sum(x - 0.5 * w, pitch, width)) / w, 0.0, 1.0);
}

// A hairline that keeps its width in pixels and fades when lines crowd.
float hairline(float x, float pitch) {
  float w = max(fwidth(x), 1e-6);
  float d = abs(mod(x + 0.5 * pitch, pitch) - 0.5 * pitch);
  return clamp(1.0 - d / w, 0.0, 1.0) * clamp(1.5 - 4.0 * w / pitch, 0.0, 1.0);
}

bool layer_value(out float value) {
  if (u_layer == 3) { value = u_one_value; return value == value; }
  vec2 at = (v_position.xy - u_value_grid.xy) * u_value_grid.z;
  ivec2 cell = ivec2(floor(at));
  vec2 f = at - vec2(cell);
  float sum = 0.0, weight = 0.0;
  for (int k = 0; k < 4; ++k) {
    ivec2 corner = ivec2(k & 1, k >> 1);
    ivec2 node = clamp(cell + corner, ivec2(0), u_value_size - 1);
    float v = texelFetch(u_values, node, 0).r;
    float w = (corner.x == 1 ? f.x : 1.0 - f.x) * (corner.y == 1 ? f.y : 1.0 - f.y);
    if (v == v && abs(v) < 1e30) { sum += w * v; weight += w; }
  }
  value = sum / max(weight, 1e-6);
  return weight > 0.5;
}

void main() {
  vec3 to_eye = u_flat == 1 ? -u_forward : normalize(u_eye - v_position);
  vec3 n = normalize(v_normal);
  vec4 base = u_colour;
  bool sheet = u_pattern == 1 || u_pattern == 2 || u_pattern == 3;
  if (!gl_FrontFacing) {
    // Seen from behind: a sheet's other side, or the inside of something cut through.
    if (!sheet && u_section.a > 0.5) { out_colour = vec4(u_section.rgb, 1.0); return; }
  }
  if (sheet && dot(n, to_eye) < 0.0) n = -n;

  if (u_pattern == 5) {
    vec2 uv = (v_position.xy - u_ground.xy) * u_ground.zw;
    float inside = smoothstep(0.35, 0.65, texture(u_inside, uv).r);
    base = mix(u_outside, base, inside);
  } else if (u_pattern == 1) {
    vec3 across = abs(n.z) > 0.95 ? vec3(1, 0, 0) : normalize(cross(vec3(0, 0, 1), n));
    vec3 along = cross(n, across);
    vec2 at = vec2(dot(v_position, across), dot(v_position, along));
    at = vec2(at.x + at.y, at.x - at.y) * 0.70710678;
    // Drawn wires are no thinner than 4 mm so that a fence reads as a fence.
    float pitch = u_mesh.x + u_mesh.y;
    float wire = max(u_mesh.y, 0.16 * pitch);
    float a = lines(at.x, pitch, wire);
    float b = lines(at.y, pitch, wire);
    base.a *= a + b - a * b;
  }

  vec3 colour = base.rgb;
  float value;
  bool layered = false;
  if (u_layer == 2) {
    value = degrees(acos(clamp(n.z, 0.0, 1.0)));
    layered = true;
  } else if (u_layer != 0) {
    layered = layer_value(value);
  }
  if (layered) {
    float t = clamp((value - u_range.x) / max(u_range.y - u_range.x, 1e-9), 0.0, 1.0);
    colour = texture(u_scale, vec2((t * 255.0 + 0.5) / 256.0, 0.5)).rgb;
  }
  colour = pow(mix(colour, u_tint.rgb, u_tint.a), vec3(2.2));

  float facing = max(dot(n, u_to_sun), 0.0);
  if (u_pattern == 3) facing = 0.35 + 0.65 * (0.5 + 0.5 * dot(n, u_to_sun));
  float up = smoothstep(-0.02, 0.06, u_to_sun.z);
  float sun = up * facing * (u_shadow_taps == 0 ? 1.0 : sun_share());
  vec3 sky = mix(vec3(0.30, 0.28, 0.25), vec3(0.50, 0.54, 0.60), 0.5 + 0.5 * n.z);
  float open = mix(0.35, 1.0, v_open);
  vec3 light = sky * open * 1.05 + vec3(0.78, 0.72, 0.62) * sun;
  // Under a map the light is gentler: the colours must be read against the legend.
  if (layered) light = mix(vec3(1.0), light, 0.28);
  vec3 lit = colour * light;

  if (u_pattern == 2 || u_pattern == 4) {
    float grazing = pow(1.0 - abs(dot(n, to_eye)), 3.0);
    base.a = mix(base.a, min(1.0, base.a + 0.45), grazing);
    lit += vec3(0.25) * grazing;
  }
  lit = pow(lit, vec3(1.0 / 2.2));

  if (u_pattern == 5) {
    float mark = 0.0;
    if (u_grid > 0.0) {
      float fine = max(hairline(v_position.x, u_grid), hairline(v_position.y, u_grid));
      float bold = max(hairline(v_position.x, 5.0 * u_grid), hairline(v_position.y, 5.0 * u_grid));
      mark = max(0.10 * fine, 0.22 * bold);
    }
    if (u_contour > 0.0 && n.z < 0.9999)
      mark = max(mark, 0.30 * hairline(v_position.z + 0.25 * u_contour, u_contour));
    lit = mix(lit, vec3(0.16, 0.15, 0.13), mark);
  }
  out_colour = vec4(lit, base.a);
}
