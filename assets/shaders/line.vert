#version 330 core
layout(location = 0) in vec3 in_position;
layout(location = 1) in vec4 in_colour;
uniform mat4 u_view_projection;
uniform float u_nearer;  // pulled towards the eye, so that lines on a surface are not lost in it
out vec4 v_colour;
void main() {
  v_colour = in_colour;
  gl_Position = u_view_projection * vec4(in_position, 1.0);
  gl_Position.z -= u_nearer * gl_Position.w;
}
