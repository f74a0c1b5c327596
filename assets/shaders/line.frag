#version 330 core
in vec4 v_colour;
uniform float u_strength;
out vec4 out_colour;
void main() {
  out_colour = vec4(v_colour.rgb, v_colour.a * u_strength);
}
