#include "engine/model/build/bands.h"

#include <algorithm>

namespace hummock {
namespace {

constexpr double kNoHeight = 1e-9;  // m

// The part of the wall between two lines, metres below its top; `low` below the foot = down to it.
Wall between(const Wall& whole, double low, double high) {
  Wall wall = raised_foot(whole, whole.top_a - low, whole.top_b - low);
  wall.top_a = whole.top_a - high;
  wall.top_b = whole.top_b - high;
  return wall;
}

}  // namespace

std::vector<Band> bands_of(const Section& section) {
  std::vector<Band> bands = section.bands;
  if (section.cap > 0.0) {
    Band cap;
    cap.from = section.height - section.cap;
    cap.to = section.height;
    bands.push_back(cap);
  }
  std::sort(bands.begin(), bands.end(),
            [](const Band& a, const Band& b) { return a.from < b.from; });
  return bands;
}

SheetKind kind_at_foot(const Section& section) {
  const std::vector<Band> bands = bands_of(section);
  if (!bands.empty() && bands.front().from <= kNoHeight) return bands.front().kind;
  return section.kind;
}

double solid_from_foot(const Section& section) {
  double done = 0.0;
  for (const Band& band : bands_of(section)) {
    if (band.from > done + kNoHeight && section.kind == SheetKind::mesh) return done;
    if (band.kind == SheetKind::mesh) return band.from;
    done = band.to;
  }
  return section.kind == SheetKind::mesh ? std::min(done, section.height) : section.height;
}

void append_faces(Faces& faces, const Section& section, const Wall& wall) {
  const std::vector<Band> bands = bands_of(section);
  faces.resize(bands.size() + 1);
  if (bands.empty()) {
    append_wall(faces[0], wall);
    return;
  }
  constexpr double kDown = 1e9;  // m, below any foot
  double done = kDown;           // below the top, down to which faces are laid from below
  const auto lay = [&](geom::Mesh& face, double high) {
    if (done - high > kNoHeight) append_wall(face, between(wall, done, high));
    done = high;
  };
  for (std::size_t k = 0; k < bands.size(); ++k) {
    const bool at_foot = bands[k].from <= kNoHeight;
    if (!at_foot) lay(faces[0], section.height - bands[k].from);
    const double high = section.height - bands[k].to;
    lay(faces[k + 1], high <= kNoHeight ? 0.0 : high);
  }
  lay(faces[0], 0.0);
}

}  // namespace hummock
