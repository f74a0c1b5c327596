#version 330 core
layout(location = 0) in vec3 in_position;
uniform mat4 u_place;
uniform mat4 u_sun_clip;
void main() {
  gl_Position = u_sun_clip * u_place * vec4(in_position, 1.0);
}
