// The shallowest way across a basin.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "engine/water/basins.h"
#include "engine/water/neighbours.h"
#include "geometry/disjoint_sets.h"

namespace hummock::water {
namespace {

// Union-find in which every set knows up to one shore it touches.
class Shores {
 public:
  explicit Shores(std::size_t n) : sets_(n), shore_(n, -1) {}
  // True when this joins two different shores.
  bool touch(std::size_t n, std::int32_t shore) {
    std::int32_t& mine = shore_[sets_.root(n)];
    if (mine >= 0 && mine != shore) return true;
    mine = shore;
    return false;
  }
  bool join(std::size_t a, std::size_t b) {
    const std::size_t p = sets_.root(a), q = sets_.root(b);
    if (p == q) return false;
    const std::int32_t sp = shore_[p], sq = shore_[q];
    sets_.join(p, q);
    shore_[std::min(p, q)] = sp >= 0 ? sp : sq;
    return sp >= 0 && sq >= 0 && sp != sq;
  }

 private:
  geom::DisjointSets sets_;
  std::vector<std::int32_t> shore_;
};

struct Basin {
  std::vector<std::size_t> nodes;  // wet, shallow first
  double level = 0.0;
};

// Only what lies inside the boundary is waded; a basin wholly outside is taken as it is.
Basin basin_nodes(const Model& model, std::size_t index, const std::vector<std::int32_t>& wet,
                  const std::vector<std::uint8_t>& inside) {
  Basin b;
  b.level = *model.site.waters[index].level;
  for (const bool all : {false, true}) {
    for (std::size_t n = 0; n < wet.size(); ++n)
      if (wet[n] == static_cast<std::int32_t>(index) + 1 && (all || inside[n] != 0))
        b.nodes.push_back(n);
    if (!b.nodes.empty()) break;
  }
  std::sort(b.nodes.begin(), b.nodes.end(), [&](std::size_t p, std::size_t q) {
    const double zp = model.ground.z[p], zq = model.ground.z[q];
    return zp != zq ? zp > zq : p < q;
  });
  return b;
}

// Adds the basin's nodes from shallow to deep until two shores join; the depth then, or −1.
// `shore_of(node, neighbour)` names the shore a neighbour outside the basin is, or −1.
template <class ShoreOf>
double flood_to_cross(const Model& model, const Basin& basin, const std::vector<char>& allowed,
                      const ShoreOf& shore_of) {
  const geom::Grid& g = model.ground.grid;
  std::vector<std::int32_t> at(g.size(), -1);
  for (std::size_t k = 0; k < basin.nodes.size(); ++k)
    at[basin.nodes[k]] = static_cast<std::int32_t>(k);
  Shores sets(basin.nodes.size());
  for (std::size_t k = 0; k < basin.nodes.size(); ++k) {
    if (allowed[k] == 0) continue;
    const std::size_t n = basin.nodes[k];
    const int i = static_cast<int>(n % static_cast<std::size_t>(g.nx));
    const int j = static_cast<int>(n / static_cast<std::size_t>(g.nx));
    bool across = false;
    for (const Step& s : kSteps) {
      if (!g.holds(i + s.di, j + s.dj)) continue;
      const std::size_t v = g.index(i + s.di, j + s.dj);
      const std::int32_t other = at[v];
      if (other < 0) {
        const std::int32_t shore = shore_of(v);
        if (shore >= 0) across = sets.touch(k, shore) || across;
      } else if (static_cast<std::size_t>(other) < k && allowed[static_cast<std::size_t>(other)]) {
        across = sets.join(k, static_cast<std::size_t>(other)) || across;
      }
    }
    if (across) return basin.level - model.ground.z[n];
  }
  return -1.0;
}

struct Axis {
  Vec2 centre, along;
  double lo = 0.0, hi = 0.0;  // of the nodes along it
};

// The basin's long axis: the principal direction of its wet nodes; x when it has none.
Axis long_axis(const geom::Grid& g, const Basin& basin) {
  const auto place = [&](std::size_t n) {
    return g.node(static_cast<int>(n % static_cast<std::size_t>(g.nx)),
                  static_cast<int>(n / static_cast<std::size_t>(g.nx)));
  };
  Axis axis;
  for (const std::size_t n : basin.nodes) axis.centre = axis.centre + place(n);
  axis.centre = axis.centre * (1.0 / static_cast<double>(basin.nodes.size()));
  double xx = 0.0, xy = 0.0, yy = 0.0;
  for (const std::size_t n : basin.nodes) {
    const Vec2 d = place(n) - axis.centre;
    xx += d.x * d.x;
    xy += d.x * d.y;
    yy += d.y * d.y;
  }
  const bool round = std::hypot(xx - yy, 2.0 * xy) < 1e-3 * (xx + yy);
  const double turn = round ? 0.0 : 0.5 * std::atan2(2.0 * xy, xx - yy);
  axis.along = {std::cos(turn), std::sin(turn)};
  for (const std::size_t n : basin.nodes) {
    const double u = dot(place(n) - axis.centre, axis.along);
    axis.lo = std::min(axis.lo, u);
    axis.hi = std::max(axis.hi, u);
  }
  return axis;
}

double across_the_middle(const Model& model, const Basin& basin) {
  const geom::Grid& g = model.ground.grid;
  const Axis axis = long_axis(g, basin);
  const auto from_centre = [&](std::size_t n) {
    return g.node(static_cast<int>(n % static_cast<std::size_t>(g.nx)),
                  static_cast<int>(n / static_cast<std::size_t>(g.nx))) -
           axis.centre;
  };
  const double middle = 0.5 * (axis.lo + axis.hi), quarter = 0.25 * (axis.hi - axis.lo);
  std::vector<char> in_band(basin.nodes.size());
  for (std::size_t k = 0; k < basin.nodes.size(); ++k)
    in_band[k] =
        std::abs(dot(from_centre(basin.nodes[k]), axis.along) - middle) <= quarter + 1e-9 * g.cell;
  return flood_to_cross(model, basin, in_band, [&](std::size_t v) {
    return cross(axis.along, from_centre(v)) > 0.0 ? 1 : 0;
  });
}

}  // namespace

Crossover shallowest_way(const Model& model, std::size_t index,
                         const std::vector<std::int32_t>& wet, const DryPieces& dry) {
  const Basin basin = basin_nodes(model, index, wet, dry.inside);
  if (basin.nodes.empty()) return {};
  const auto& body = model.site.species.body.value;
  const double cell = model.ground.grid.cell;
  const double room = body[0] * body[1] / (cell * cell);  // nodes the animal covers
  const std::vector<char> all(basin.nodes.size(), 1);
  const double parted = flood_to_cross(model, basin, all, [&](std::size_t v) {
    const std::int32_t piece = dry.of_node[v];
    return piece >= 0 && dry.nodes_in[static_cast<std::size_t>(piece)] >= room ? piece : -1;
  });
  if (parted >= 0.0) return {parted, true};
  return {std::max(0.0, across_the_middle(model, basin)), false};
}

}  // namespace hummock::water
