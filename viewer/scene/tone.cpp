#include "viewer/scene/tone.h"

namespace hummock::viewer::tone {

Colour paper() {
  return hex("#F5F2EB");
}
Colour paper_deep() {
  return hex("#E8E3D8");
}
Colour ink() {
  return hex("#2B302E");
}
Colour ink_soft() {
  return hex("#6A6E69");
}
Colour hair() {
  return hex("#D2CCBE");
}
Colour accent() {
  return hex("#22707A");
}
Colour short_of() {
  return hex("#B4451F");
}
Colour tight() {
  return hex("#C58A17");
}
Colour met() {
  return hex("#2C7C74");
}
Colour unknown() {
  return hex("#8B8B84");
}
Colour sky_low() {
  return hex("#E9E6DE");
}
Colour sky_high() {
  return hex("#D3DCDF");
}
Colour ground_inside() {
  return hex("#BDB08C");
}
Colour ground_outside() {
  return hex("#D0CABC");
}
Colour soil() {
  return hex("#9A8468");
}
Colour cut_through() {
  return hex("#7A6A58");
}

}  // namespace hummock::viewer::tone
