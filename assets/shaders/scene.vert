#version 330 core
layout(location = 0) in vec3 in_position;
layout(location = 1) in vec3 in_normal;
layout(location = 2) in float in_open;  // share of the sky not hidden close by

uniform mat4 u_view_projection;
uniform mat4 u_place;     // a thing being dragged, before the model is built anew
uniform mat4 u_sun;       // into the shadow map, 0..1
uniform vec4 u_cut;       // n·p + d < 0 is cut away; n = 0: no cut

out vec3 v_position;
out vec3 v_normal;
out vec3 v_sun;
out float v_open;

void main() {
  vec4 p = u_place * vec4(in_position, 1.0);
  v_position = p.xyz;
  v_normal = mat3(u_place) * in_normal;
  vec4 s = u_sun * p;
  v_sun = s.xyz;
  v_open = in_open;
  gl_Position = u_view_projection * p;
  gl_ClipDistance[0] = dot(u_cut.xyz, p.xyz) + u_cut.w;
}
