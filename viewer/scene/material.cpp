#include "viewer/scene/material.h"

#include <algorithm>

namespace hummock::viewer {
namespace {

Colour of_surface(Surface surface) {
  switch (surface) {
    case Surface::rock:
      return hex("#9C9A93");
    case Surface::wood:
      return hex("#AE8E66");
    case Surface::bark:
      return hex("#85705A");
    case Surface::earth:
      return hex("#A18B6D");
    case Surface::leaf:
      return hex("#87996A");
    case Surface::water:
      return hex("#6E9AA6");
    case Surface::mesh:
      return hex("#3F4B4E");
    case Surface::smooth:
      break;
  }
  return hex("#B9B2A5");
}

void as_sheet(Drawable& d, const Part& part) {
  if (part.surface == Surface::mesh || part.aperture > 0.0) {
    d.pattern = Pattern::mesh;
    d.colour = of_surface(Surface::mesh);
    d.colour.a = 0.8F;
    d.aperture = part.aperture > 0.0 ? part.aperture : 0.03;
    d.wire = part.wire > 0.0 ? part.wire : 0.003;
    d.see_through = true;
  } else if (part.sight > 0.8 && !part.closed) {
    d.pattern = Pattern::glass;
    d.colour = hex("#9CC0C4");
    d.colour.a = 0.30F;
    d.see_through = true;
  }
}

}  // namespace

void dress(Drawable& d, const Part& part) {
  d.colour = of_surface(part.surface);
  d.closed = part.closed;
  d.passes = std::clamp(part.openness, 0.0, 1.0);
  switch (part.kind) {
    case PartKind::crown:
    case PartKind::planting:
      d.pattern = Pattern::leaves;
      d.colour = part.kind == PartKind::crown ? hex("#82966A") : hex("#9AA673");
      d.colour.a = 0.80F;
      d.see_through = true;
      d.passes = 0.3;
      d.closed = false;
      break;
    case PartKind::water:
      d.pattern = Pattern::water;
      d.colour = of_surface(Surface::water);
      d.colour.a = 0.72F;
      d.see_through = true;
      d.closed = false;
      d.passes = 1.0;
      break;
    case PartKind::post:
      d.colour = hex("#6D6A63");
      break;
    case PartKind::house:
    case PartKind::den:
      d.colour = hex("#B8A48C");
      break;
    case PartKind::surrounding:
      // There for its shade; faint, so that it never hides the yard.
      d.colour = part.leaf_density > 0.0 ? hex("#9DA98A") : hex("#BDB8AE");
      d.colour.a = 0.22F;
      d.see_through = true;
      d.closed = false;
      break;
    case PartKind::footing:
      d.colour = hex("#A7A39B");
      break;
    default:
      if (!part.closed || part.surface == Surface::mesh) as_sheet(d, part);
  }
}

}  // namespace hummock::viewer
