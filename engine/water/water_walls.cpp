#include "engine/water/water_walls.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/model/fence_foot.h"

namespace hummock::water {
namespace {

constexpr double kLeastGap = 1e-3;  // m, narrower does not count as letting water through
constexpr double kFree = -std::numeric_limits<double>::infinity();

struct OnPanel {
  const Panel* panel = nullptr;
  double t = 0.0;  // 0..1 from a to b
};

// Panels by the model edge they stand on, to find the one at a place.
class PanelFinder {
 public:
  explicit PanelFinder(const Model& model) : model_(model), by_edge_(model.outline.size()) {
    for (const Panel& p : model.panels) {
      const auto k = geom::nearest_on_edges(model.outline, geom::lerp(p.a, p.b, 0.5)).edge;
      by_edge_[static_cast<std::size_t>(k)].push_back(&p);
    }
  }
  OnPanel at(const geom::NearestOnEdge& place) const {
    OnPanel best;
    double nearest = 1e300;
    for (const Panel* p : by_edge_[static_cast<std::size_t>(place.edge)]) {
      const Vec2 along = p->b - p->a;
      const double t = std::clamp(
          dot(place.point - p->a, along) / std::max(dot(along, along), 1e-300), 0.0, 1.0);
      const double off = geom::distance(place.point, geom::lerp(p->a, p->b, t));
      if (off < nearest) {
        nearest = off;
        best = {p, t};
      }
    }
    return best;
  }

 private:
  const Model& model_;
  std::vector<std::vector<const Panel*>> by_edge_;
};

double between(double a, double b, double t) {
  return a + (b - a) * t;
}

// How far the fence's foot, or the gate's, stands off the ground.
double gap_under(const Model& model, const OnPanel& on, double ground) {
  if (on.panel->gate >= 0)
    return model.gateways[static_cast<std::size_t>(on.panel->gate)].leaf_foot - ground;
  const Section& section =
      model.site.boundary.sections[static_cast<std::size_t>(on.panel->section)];
  if (follows_ground(section)) return 0.0;
  return between(on.panel->foot_a, on.panel->foot_b, on.t) - ground;
}

bool at_open_joint(const Model& model, const OnPanel& on, const Section& section) {
  if (section.joint_gap < kLeastGap) return false;
  const double wide = geom::distance(on.panel->a, on.panel->b);
  return std::min(on.t, 1.0 - on.t) * wide <= model.ground.grid.cell;
}

double drain_level(const Model& model, Vec2 p, double ground) {
  double level = std::numeric_limits<double>::infinity();
  const Polygon& outline = model.site.boundary.outline;
  for (const Drain& d : model.site.boundary.drains) {
    const Vec2 a = outline[static_cast<std::size_t>(d.edge)];
    const Vec2 b = outline[(static_cast<std::size_t>(d.edge) + 1) % outline.size()];
    const double along = dot(p - a, geom::unit(b - a));
    // Widened so that a drain narrower than a cell still meets an edge of the grid.
    const double wider = model.ground.grid.cell;
    if (along < d.from - wider || along > d.from + d.width + wider) continue;
    if (geom::distance_to_segment(p, a, b) > wider) continue;
    level = std::min(level, ground + d.sill);
  }
  return level;
}

double level_to_pass(const Model& model, const PanelFinder& panels, Vec2 p, bool with_drains) {
  const geom::NearestOnEdge place = geom::nearest_on_edges(model.outline, p);
  const OnPanel on = panels.at(place);
  if (on.panel == nullptr) return kFree;
  const Section& section =
      model.site.boundary.sections[static_cast<std::size_t>(on.panel->section)];
  const bool gate = on.panel->gate >= 0;  // of the section's own make, without bands
  const double solid =
      gate ? (section.kind == SheetKind::mesh ? 0.0 : section.height) : solid_from_foot(section);
  if (solid <= 0.0) return kFree;
  const double ground = geom::height_at(model.ground, place.point);
  if (gap_under(model, on, ground) > kLeastGap || at_open_joint(model, on, section)) return kFree;
  const double top = between(on.panel->top_a, on.panel->top_b, on.t) - (section.height - solid);
  return with_drains ? std::min(top, drain_level(model, place.point, ground)) : top;
}

bool all_mesh(const Model& model) {
  return std::all_of(
      model.site.boundary.sections.begin(), model.site.boundary.sections.end(),
      [](const Section& s) { return s.kind == SheetKind::mesh && solid_from_foot(s) <= 0.0; });
}

}  // namespace

std::vector<geom::Crossing> solid_walls(const Model& model, const std::vector<std::uint8_t>& inside,
                                        bool with_drains) {
  std::vector<geom::Crossing> walls;
  if (model.panels.empty() || all_mesh(model)) return walls;
  const PanelFinder panels(model);
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
        const double level = level_to_pass(model, panels, mid, with_drains);
        if (level > std::max(model.ground.z[a], model.ground.z[b])) walls.push_back({a, b, level});
      }
    }
  }
  return walls;
}

}  // namespace hummock::water
