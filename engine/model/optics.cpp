#include "engine/model/optics.h"

#include <cmath>

namespace hummock {

double mesh_openness(double aperture, double wire) {
  const double pitch = aperture + wire;
  return pitch > 0.0 ? (aperture / pitch) * (aperture / pitch) : 0.0;
}

void set_sheet(Part& part, SheetKind kind, double aperture, double wire,
               const std::string& surface) {
  part.surface = surface_named(surface, kind == SheetKind::mesh ? Surface::mesh : Surface::smooth);
  if (kind == SheetKind::glass) {
    part.openness = kGlassLight;
    part.sight = 1.0;
  } else if (kind == SheetKind::mesh) {
    part.openness = mesh_openness(aperture, wire);
    part.sight = part.openness;
    part.aperture = aperture;
    part.wire = wire;
  }
}

Surface surface_named(const std::string& name, Surface otherwise) {
  for (Surface s : {Surface::mesh, Surface::smooth, Surface::rock, Surface::wood, Surface::bark,
                    Surface::earth, Surface::leaf, Surface::water}) {
    if (name == to_string(s)) return s;
  }
  return otherwise;
}

double density_for_cover(double cover, double height) {
  constexpr double kG = 0.5;
  return -std::log(1.0 - std::min(cover, 0.999)) / (kG * height);
}

}  // namespace hummock
