#include "engine/water/water_walls.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "engine/model/fence_foot.h"
#include "engine/water/clear_drain.h"

namespace hummock::water {
namespace {

using barrier::Look;
using barrier::Stretch;
using barrier::StretchKind;

constexpr double kLeastGap = 1e-3;  // m, narrower does not count as letting water through
constexpr double kFree = -std::numeric_limits<double>::infinity();

struct OnWall {
  const Stretch* wall = nullptr;
  double t = 0.0;  // 0..1 from a to b
};

// Walls by the side of the outline they stand on, to find the one at a place.
class WallFinder {
 public:
  explicit WallFinder(const Model& model)
      : walls_(walls_in_the_way(model)), by_side_(model.outline.size()) {
    for (const Stretch& s : walls_) by_side_[static_cast<std::size_t>(s.side)].push_back(&s);
  }
  OnWall at(const geom::NearestOnEdge& place) const {
    OnWall best;
    double nearest = 1e300;
    for (const Stretch* s : by_side_[static_cast<std::size_t>(place.edge)]) {
      const Vec2 along = s->b - s->a;
      const double t = std::clamp(
          dot(place.point - s->a, along) / std::max(dot(along, along), 1e-300), 0.0, 1.0);
      const double off = geom::distance(place.point, geom::lerp(s->a, s->b, t));
      if (off < nearest) {
        nearest = off;
        best = {s, t};
      }
    }
    return best;
  }

 private:
  std::vector<Stretch> walls_;
  std::vector<std::vector<const Stretch*>> by_side_;
};

double between(double a, double b, double t) {
  return a + (b - a) * t;
}

// How far the fence's foot, or the gate's, stands off the ground.
double gap_under(const OnWall& on, const Section& section, double ground) {
  if (on.wall->kind == StretchKind::gate) return on.wall->foot_a - ground;
  if (follows_ground(section)) return 0.0;
  return between(on.wall->foot_a, on.wall->foot_b, on.t) - ground;
}

bool at_open_joint(const Model& model, const OnWall& on, const Section& section) {
  if (section.joint_gap < kLeastGap) return false;
  const double wide = geom::distance(on.wall->a, on.wall->b);
  return std::min(on.t, 1.0 - on.t) * wide <= model.ground.grid.cell;
}

// Height of each drain's way in above the ground; nothing where it is not counted.
std::vector<std::optional<double>> ways_in(const Model& model, Drains drains) {
  std::vector<std::optional<double>> sills;
  for (const Drain& d : model.site.boundary.drains) {
    if (drains == Drains::clear) sills.push_back(clear_sill(model, d));
    if (drains == Drains::all) sills.emplace_back(d.sill);
    if (drains == Drains::none) sills.emplace_back();
  }
  return sills;
}

double drain_level(const Model& model, const std::vector<std::optional<double>>& sills, Vec2 p,
                   double ground) {
  double level = std::numeric_limits<double>::infinity();
  const Polygon& outline = model.site.boundary.outline;
  for (std::size_t k = 0; k < sills.size(); ++k) {
    if (!sills[k]) continue;
    const Drain& d = model.site.boundary.drains[k];
    const Vec2 a = outline[static_cast<std::size_t>(d.edge)];
    const Vec2 b = outline[(static_cast<std::size_t>(d.edge) + 1) % outline.size()];
    const double along = dot(p - a, geom::unit(b - a));
    // Widened so that a drain narrower than a cell still meets an edge of the grid.
    const double wider = model.ground.grid.cell;
    if (along < d.from - wider || along > d.from + d.width + wider) continue;
    if (geom::distance_to_segment(p, a, b) > wider) continue;
    level = std::min(level, ground + *sills[k]);
  }
  return level;
}

double level_to_pass(const Model& model, const WallFinder& walls,
                     const std::vector<std::optional<double>>& sills, Vec2 p) {
  const geom::NearestOnEdge place = geom::nearest_on_edges(model.outline, p);
  const OnWall on = walls.at(place);
  if (on.wall == nullptr) return kFree;
  const Section& section = model.site.boundary.sections[static_cast<std::size_t>(on.wall->section)];
  const bool gate = on.wall->kind == StretchKind::gate;  // of the section's make, without bands
  const double solid =
      gate ? (section.kind == SheetKind::mesh ? 0.0 : section.height) : solid_from_foot(section);
  if (solid <= 0.0) return kFree;
  const double ground = geom::height_at(model.ground, place.point);
  if (gap_under(on, section, ground) > kLeastGap || at_open_joint(model, on, section)) return kFree;
  const double top = between(on.wall->top_a, on.wall->top_b, on.t) - (section.height - solid);
  return std::min(top, drain_level(model, sills, place.point, ground));
}

bool all_mesh(const Model& model) {
  return std::all_of(
      model.site.boundary.sections.begin(), model.site.boundary.sections.end(),
      [](const Section& s) { return s.kind == SheetKind::mesh && solid_from_foot(s) <= 0.0; });
}

}  // namespace

Look look(const Stretch& s) {
  if (s.told_elsewhere) return Look::told_elsewhere;
  switch (s.kind) {
    case StretchKind::panel:
    case StretchKind::gate:
      return s.stands ? Look::walked : Look::nothing_stands;
    case StretchKind::vestibule_wall:
    case StretchKind::second_gate:
    case StretchKind::house_wall:
    case StretchKind::house_door:
      return Look::not_counted;
    case StretchKind::roof_edge:
      return Look::in_the_air;
  }
  return Look::walked;
}

std::vector<Stretch> walls_in_the_way(const Model& model) {
  std::vector<Stretch> walls;
  for (const barrier::Chain& chain : barrier::barrier_of(model).chains) {
    for (const barrier::Run& run : runs_of(chain, barrier::Join::panel, look)) {
      walls.push_back(run.whole);
    }
  }
  return walls;
}

std::vector<geom::Crossing> solid_walls(const Model& model, const std::vector<std::uint8_t>& inside,
                                        Drains drains) {
  std::vector<geom::Crossing> walls;
  if (model.panels.empty() || all_mesh(model)) return walls;
  const WallFinder finder(model);
  const std::vector<std::optional<double>> sills = ways_in(model, drains);
  const geom::Grid& g = model.ground.grid;
  constexpr std::array<std::array<int, 2>, 3> kEdges{{{1, 0}, {0, 1}, {-1, 1}}};
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t a = g.index(i, j);
      for (const auto& [di, dj] : kEdges) {
        if (!g.holds(i + di, j + dj)) continue;
        const std::size_t b = g.index(i + di, j + dj);
        if (inside[a] == inside[b]) continue;
        const Vec2 mid = geom::lerp(g.node(i, j), g.node(i + di, j + dj), 0.5);
        const double level = level_to_pass(model, finder, sills, mid);
        if (level > std::max(model.ground.z[a], model.ground.z[b])) walls.push_back({a, b, level});
      }
    }
  }
  return walls;
}

}  // namespace hummock::water
