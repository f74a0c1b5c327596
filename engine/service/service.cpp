#include "engine/service/service.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "engine/service/shared.h"
#include "engine/usable/thing_lines.h"
#include "engine/usable/usable_ground.h"
#include "geometry/plan/polygon.h"
#include "geometry/plan/polygon_cells.h"
#include "geometry/terrain/terrain_metrics.h"

namespace hummock::service {
namespace {

using Nodes = std::vector<std::uint8_t>;  // 1 or 0 for each node
using Offset = std::pair<int, int>;

std::vector<Offset> disc(double cell) {
  const double radius = 0.5 * kBarrowWidth;
  const int n = static_cast<int>(radius / cell);
  std::vector<Offset> out;
  for (int j = -n; j <= n; ++j)
    for (int i = -n; i <= n; ++i)
      if (std::hypot(i, j) * cell <= radius) out.emplace_back(i, j);
  return out;
}

// Ground a wheel can be on.
Nodes firm(const Model& model, const Nodes& inside) {
  const geom::Grid& g = model.ground.grid;
  const geom::Raster slope = geom::slope(model.ground);
  const usable::UsableGround ground(model);
  const auto steepest = static_cast<float>(std::atan(kSteepest));
  Nodes out(g.size(), 0);
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t n = g.index(i, j);
      if (inside[n] == 0 || slope.at(i, j) > steepest) continue;
      const Vec2 p = g.node(i, j);
      const bool wet = ground.water_depth(p, model.ground.at(i, j)) > 0.0;
      out[n] = !wet && !ground.in_solid(p) ? 1 : 0;
    }
  return out;
}

bool all_under(const geom::Grid& g, const Nodes& nodes, const std::vector<Offset>& shape, int i,
               int j) {
  return std::all_of(shape.begin(), shape.end(), [&](const Offset& o) {
    return g.holds(i + o.first, j + o.second) && nodes[g.index(i + o.first, j + o.second)] != 0;
  });
}

// Where the disc's middle can be, no nearer than its rim to a thing, however thin, but for a cell.
Nodes middles(const Model& model, const Nodes& firm, const std::vector<Offset>& shape) {
  const geom::Grid& g = model.ground.grid;
  const double clear = 0.5 * kBarrowWidth - g.cell;
  const std::vector<double> thin = usable::distance_to_lines(
      g, usable::thing_lines(model, keepers::kRolledOver, kBarrowHeight), std::max(clear, 0.0));
  Nodes out(g.size(), 0);
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i)
      if (thin[g.index(i, j)] > clear && all_under(g, firm, shape, i, j)) out[g.index(i, j)] = 1;
  return out;
}

// Middles from which the disc stands in the gate's opening, or within two cells of it.
std::vector<Offset> before_gate(const geom::Grid& g, const Nodes& can, const Gateway& gate) {
  const double near = 0.5 * kBarrowWidth + 2.0 * g.cell;
  std::vector<Offset> out;
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i)
      if (can[g.index(i, j)] != 0 &&
          geom::distance_to_segment(g.node(i, j), gate.a, gate.b) <= near)
        out.emplace_back(i, j);
  return out;
}

void spread(const geom::Grid& g, const Nodes& can, std::vector<Offset> open, Nodes& reached) {
  for (const Offset& o : open) reached[g.index(o.first, o.second)] = 1;
  while (!open.empty()) {
    const auto [i, j] = open.back();
    open.pop_back();
    for (const auto& [a, b] : {Offset{i + 1, j}, {i - 1, j}, {i, j + 1}, {i, j - 1}}) {
      if (!g.holds(a, b) || can[g.index(a, b)] == 0 || reached[g.index(a, b)] != 0) continue;
      reached[g.index(a, b)] = 1;
      open.emplace_back(a, b);
    }
  }
}

Nodes from_the_gates(const Model& model, const Nodes& can, std::vector<GateRow>& rows) {
  const geom::Grid& g = model.ground.grid;
  Nodes reached(g.size(), 0);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    GateRow& row = rows[k];
    const std::vector<Offset> starts = before_gate(g, can, model.gateways[k]);
    row.reaches = row.wide_enough && row.barrow.goes() && !starts.empty();
    if (row.reaches) spread(g, can, starts, reached);
  }
  return reached;
}

geom::Raster under_the_disc(const geom::Grid& g, const Nodes& inside, const Nodes& reached,
                            const std::vector<Offset>& shape) {
  geom::Raster out(g);
  for (std::size_t n = 0; n < inside.size(); ++n)
    if (inside[n] != 0) out.values[n] = 0.0F;
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      if (reached[g.index(i, j)] == 0) continue;
      for (const auto& [a, b] : shape) out.at(i + a, j + b) = 1.0F;
    }
  return out;
}

Polygon outline_of(const Den& d) {
  const Vec2 u = Vec2{std::cos(d.turn), std::sin(d.turn)} * (0.5 * d.size.x);
  const Vec2 v = Vec2{-std::sin(d.turn), std::cos(d.turn)} * (0.5 * d.size.y);
  return {d.at - u - v, d.at + u - v, d.at + u + v, d.at - u + v};
}

double away(const geom::Raster& reached, const Polygon& outline) {
  const geom::Grid& g = reached.grid;
  double least = std::numeric_limits<double>::infinity();
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      if (!(reached.at(i, j) > 0.5F)) continue;
      const Vec2 p = g.node(i, j);
      least =
          std::min(least, geom::contains(outline, p) ? 0.0 : geom::distance_to_edges(outline, p));
    }
  return least;
}

Place place_of(const geom::Raster& reached, const std::string& name, const char* kind,
               const Polygon& outline) {
  const geom::Box2 box = geom::bounds(outline);
  const double least = away(reached, outline);
  return {name, kind, (box.lo + box.hi) * 0.5, least <= kArm, true, {}, least};
}

std::vector<Place> tended(const Site& site, const geom::Raster& reached) {
  std::vector<Place> out;
  for (const Den& d : site.dens) out.push_back(place_of(reached, d.name, "den", outline_of(d)));
  for (const House& h : site.houses) out.push_back(place_of(reached, h.name, "house", h.outline));
  for (const Water& w : site.waters) out.push_back(place_of(reached, w.name, "water", w.outline));
  return out;
}

}  // namespace

Result analyse(const Model& model) {
  const geom::Grid& g = model.ground.grid;
  const std::vector<Offset> shape = disc(g.cell);
  const Nodes inside = geom::nodes_inside(g, model.outline);
  const Nodes can = middles(model, firm(model, inside), shape);
  Result out;
  out.gates = ask_at_the_gates(model);
  out.reached = under_the_disc(g, inside, from_the_gates(model, can, out.gates), shape);
  const auto under = std::count_if(out.reached.values.begin(), out.reached.values.end(),
                                   [](float v) { return v > 0.5F; });
  out.reached_area_m2 = static_cast<double>(under) * g.cell * g.cell;
  out.reached_share =
      std::min(1.0, out.reached_area_m2 / std::abs(geom::signed_area(model.outline)));
  out.places = tended(model.site, out.reached);
  if (out.places.empty() && out.reached_area_m2 == 0.0)
    out.places.push_back(place_of(out.reached, "the yard", "yard", model.outline));
  mark_shared_places(model, out.places);
  out.narrowest_gate_m = std::numeric_limits<double>::infinity();
  for (const GateRow& row : out.gates)
    out.narrowest_gate_m = std::min(out.narrowest_gate_m, row.width_m);
  return out;
}

}  // namespace hummock::service
