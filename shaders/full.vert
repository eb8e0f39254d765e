// Covers the picture with one triangle at the far end of the depth range.
out vec2 ndc;

void main() {
  ndc = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
  gl_Position = vec4(ndc, 1.0, 1.0);
}
