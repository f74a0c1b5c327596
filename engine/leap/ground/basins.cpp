#include "engine/leap/ground/basins.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/disjoint_sets.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

// Half of the eight neighbours: the others ask from their side.
constexpr std::array<std::pair<int, int>, 4> kAhead{{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};
constexpr double kOpen = -1e300;

class Finder {
 public:
  Finder(const Model& model, double step, double top) : model_(model), step_(step), top_(top) {}

  Basins run(std::size_t most) {
    lay_lattice(most);
    if (out_.lattice.size() == 0) return std::move(out_);
    mark_near();
    for (auto& heights : between_) heights.assign(out_.lattice.size(), kOpen);
    tbb::parallel_for(0, out_.lattice.ny, [&](int j) { ask_row(j); });
    number_basins();
    gather_saddles();
    return std::move(out_);
  }

 private:
  // Off the faces of things that stand on round figures.
  void lay_lattice(std::size_t most) {
    constexpr double kOffX = 0.2741, kOffY = 0.3419;  // steps
    const geom::Box2 box = geom::bounds(model_.outline);
    geom::Grid g{box.lo.x - kOffX * step_, box.lo.y - kOffY * step_, step_, 0, 0};
    const double nx = std::ceil((box.hi.x - g.x0) / step_) + 1.0;
    const double ny = std::ceil((box.hi.y - g.y0) / step_) + 1.0;
    if (nx * ny > static_cast<double>(most)) return;
    g.nx = static_cast<int>(nx);
    g.ny = static_cast<int>(ny);
    out_.lattice = g;
  }

  // A thing that hangs clear of the ground parts nothing.
  void mark_near() {
    const geom::Grid& g = out_.lattice;
    out_.near.assign(g.size(), 0);
    double highest = -1e300;
    for (const double z : model_.ground.z) highest = std::max(highest, z);
    const auto at = [&](double v, double from, int count) {
      return std::clamp(static_cast<int>(std::floor((v - from) / step_)), 0, count - 1);
    };
    for (const Part& part : model_.parts) {
      if (!part.blocks_body || part.kind == PartKind::ground || part.mesh.empty()) continue;
      const geom::Box3 b = geom::bounds(part.mesh);
      if (b.lo.z > highest + step_) continue;
      const int i1 = at(b.hi.x + 2.0 * step_, g.x0, g.nx);
      const int j1 = at(b.hi.y + 2.0 * step_, g.y0, g.ny);
      for (int j = at(b.lo.y - step_, g.y0, g.ny); j <= j1; ++j)
        for (int i = at(b.lo.x - step_, g.x0, g.nx); i <= i1; ++i) out_.near[g.index(i, j)] = 1;
    }
  }

  double ground(int i, int j) const {
    return geom::height_at(model_.ground, out_.lattice.node(i, j));
  }

  void ask_row(int j) {
    const geom::Grid& g = out_.lattice;
    for (int i = 0; i < g.nx; ++i) {
      if (out_.near[g.index(i, j)] == 0) continue;
      for (std::size_t k = 0; k < kAhead.size(); ++k) {
        const int a = i + kAhead[k].first, b = j + kAhead[k].second;
        if (g.holds(a, b)) between_[k][g.index(i, j)] = height_between(i, j, a, b);
      }
    }
  }

  double height_between(int i, int j, int a, int b) const {
    const Vec2 p = out_.lattice.node(i, j), q = out_.lattice.node(a, b);
    const double foot = std::max(ground(i, j), ground(a, b));
    double stands = kOpen;
    const double rungs = (top_ - foot) / step_ + 1.0;
    for (int k = 0; k < rungs; ++k) {
      const double z = foot + (kFootOfRays + k) * step_;
      const Vec3 from = at_height(p, z);
      if (!model_.body_scene->occluded({from, at_height(q, z) - from, 0.0, 1.0})) break;
      stands = z;
    }
    return stands;
  }

  template <class Visit>
  void each_step(const Visit& visit) const {
    const geom::Grid& g = out_.lattice;
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i)
        for (std::size_t k = 0; k < kAhead.size(); ++k) {
          const int a = i + kAhead[k].first, b = j + kAhead[k].second;
          if (g.holds(a, b)) visit(g.index(i, j), g.index(a, b), between_[k][g.index(i, j)]);
        }
  }

  void number_basins() {
    geom::DisjointSets sets(out_.lattice.size());
    each_step([&](std::size_t p, std::size_t q, double height) {
      if (height == kOpen) sets.join(p, q);
    });
    out_.of.assign(out_.lattice.size(), -1);
    for (std::size_t n = 0; n < out_.of.size(); ++n) {
      int& number = out_.of[sets.root(n)];
      if (number < 0) number = out_.count++;
      out_.of[n] = number;
    }
  }

  void gather_saddles() {
    each_step([&](std::size_t p, std::size_t q, double height) {
      const auto [a, b] = std::minmax(out_.of[p], out_.of[q]);
      const geom::Grid& g = out_.lattice;
      const auto node = [&](std::size_t n) {
        return g.node(static_cast<int>(n) % g.nx, static_cast<int>(n) / g.nx);
      };
      if (a != b) out_.saddles.push_back({height, a, b, node(p), node(q)});
    });
    std::stable_sort(out_.saddles.begin(), out_.saddles.end(),
                     [](const Saddle& s, const Saddle& t) {
                       if (s.height != t.height) return s.height < t.height;
                       return s.a != t.a ? s.a < t.a : s.b < t.b;
                     });
  }

  const Model& model_;
  double step_, top_;
  Basins out_;
  std::array<std::vector<double>, 4> between_;
};

}  // namespace

Basins find_basins(const Model& model, double step, double top, std::size_t most) {
  return Finder(model, step, top).run(most);
}

}  // namespace hummock::leap
