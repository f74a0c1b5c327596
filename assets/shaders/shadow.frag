#version 330 core
// What lets a share of the light through keeps that share of the shadow map's dots: filtered, it
// throws a shadow of the right depth.
uniform float u_passes;
void main() {
  int k = (int(gl_FragCoord.x) & 3) + 4 * (int(gl_FragCoord.y) & 3);
  int order[16] = int[16](0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5);
  if ((float(order[k]) + 0.5) / 16.0 < u_passes) discard;
}
