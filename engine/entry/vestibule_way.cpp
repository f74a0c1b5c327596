#include "engine/entry/vestibule_way.h"

#include <algorithm>
#include <cmath>

#include "engine/entry/entry.h"
#include "engine/keepers/walker.h"
#include "engine/usable/disc_places.h"
#include "geometry/plan/polygon.h"

namespace hummock::entry {
namespace {

constexpr double kStepAcross = 0.05;  // m; numeric, a setting
constexpr double kSpare = 0.02;  // m, of the disc in a vestibule of its width; numeric, a setting

bool may_stand_in(const Part& part, int gate) {
  const bool kind = part.kind == PartKind::object || part.kind == PartKind::house ||
                    part.kind == PartKind::planting || part.kind == PartKind::crown ||
                    part.kind == PartKind::den;
  const bool of_another =
      (part.kind == PartKind::vestibule || part.kind == PartKind::gate) && part.source != gate;
  return part.blocks_body && !part.mesh.empty() && (kind || of_another);
}

bool within(const Polygon& outline, const usable::PlanLine& line) {
  constexpr double kInside = 0.01;  // m: a wall that stands against its side is not in it
  for (int k = 0; k <= 16; ++k) {
    const Vec2 p = geom::lerp(line.a, line.b, k / 16.0);
    if (geom::contains(outline, p) && geom::distance_to_edges(outline, p) > kInside) return true;
  }
  return false;
}

// A way for the disc's middle from before the one gate to before the other, known to a step.
bool passes(const Polygon& box, double width, const std::vector<usable::PlanLine>& things) {
  const double half = 0.5 * width;
  std::vector<usable::PlanLine> lines = things;
  lines.push_back({box[1], box[2]});
  lines.push_back({box[3], box[0]});
  const usable::DiscPlaces places =
      usable::disc_places(box, lines, half - kStepAcross, kStepAcross);
  std::vector<int> ends(static_cast<std::size_t>(places.next),
                        0);  // 1: before the gate; 2: the other
  for (int j = 0; j < places.grid.ny; ++j)
    for (int i = 0; i < places.grid.nx; ++i) {
      const int part = places.part[places.grid.index(i, j)];
      if (part == usable::kNone) continue;
      const Vec2 p = places.grid.node(i, j);
      int& end = ends[static_cast<std::size_t>(part)];
      if (geom::distance_to_segment(p, box[0], box[1]) <= half) end |= 1;
      if (geom::distance_to_segment(p, box[2], box[3]) <= half) end |= 2;
    }
  return std::any_of(ends.begin(), ends.end(), [](int both) { return both == 3; });
}

}  // namespace

std::optional<std::string> stands_in_vestibule(const Model& model, const Gateway& g,
                                               const Gate& gate) {
  if (!gate.vestibule) return std::nullopt;
  const Vec2 out = -geom::left_of(geom::unit(g.b - g.a)) * gate.vestibule->depth;
  Polygon box{g.a, g.b, g.b + out, g.a + out};
  std::optional<std::string> name;
  std::vector<usable::PlanLine> things;
  for (const Part& part : model.parts) {
    if (!may_stand_in(part, g.gate)) continue;
    std::vector<usable::PlanLine> lines;
    usable::add_lines_of(model, part, kStep, keepers::kUpright, lines);
    std::erase_if(lines, [&](const auto& line) { return !within(box, line); });
    if (lines.empty()) continue;
    if (!name) name = part.name;
    things.insert(things.end(), lines.begin(), lines.end());
  }
  const double wide = geom::distance(g.a, g.b);
  if (!name || passes(box, std::min(keepers::kBarrowWidth, wide - kSpare), things))
    return std::nullopt;
  return name;
}

}  // namespace hummock::entry
