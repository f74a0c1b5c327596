#version 330 core
out float v_up;
void main() {
  vec2 p = vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1)) * 4.0 - 1.0;
  v_up = p.y;
  gl_Position = vec4(p, 0.999999, 1.0);
}
