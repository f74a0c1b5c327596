#version 330 core
in float v_up;
uniform vec4 u_low;
uniform vec4 u_high;
out vec4 out_colour;
void main() {
  out_colour = mix(u_low, u_high, clamp(0.5 + 0.5 * v_up, 0.0, 1.0));
}
