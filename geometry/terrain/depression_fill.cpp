#include "geometry/terrain/depression_fill.h"

#include <algorithm>
#include <array>
#include <limits>
#include <queue>
#include <span>
#include <stdexcept>
#include <utility>

#include "geometry/mesh/prism_volume.h"

namespace hummock::geom {

namespace {

struct Step {
  int di, dj;
};
// The first six are the edges of the triangulation: its diagonal runs from (i+1, j) to (i, j+1).
constexpr std::array<Step, 8> kSteps{
    {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {-1, 1}, {1, -1}, {1, 1}, {-1, -1}}};

std::span<const Step> steps_of(Neighbours neighbours) {
  return {kSteps.data(), neighbours == Neighbours::eight ? 8U : 6U};
}

// Crossings by pair of nodes, with a flag a node so that most edges ask nothing.
class CrossingTable {
 public:
  CrossingTable(const std::vector<Crossing>& crossings, std::size_t nodes)
      : sorted_(crossings), touched_(nodes, 0) {
    for (Crossing& c : sorted_) {
      if (c.a >= nodes || c.b >= nodes)
        throw std::invalid_argument("fill_depressions: a crossing names a node off the grid");
      if (c.a > c.b) std::swap(c.a, c.b);
      touched_[c.a] = touched_[c.b] = 1;
    }
    std::sort(sorted_.begin(), sorted_.end(), before);
  }
  // The level water must reach to pass from a to b.
  double level(std::size_t a, std::size_t b) const {
    double need = -std::numeric_limits<double>::infinity();
    if (!touched_[a] || !touched_[b]) return need;
    const Crossing key{std::min(a, b), std::max(a, b), need};
    auto it = std::lower_bound(sorted_.begin(), sorted_.end(), key, before);
    for (; it != sorted_.end() && it->a == key.a && it->b == key.b; ++it)
      need = std::max(need, it->level);
    return need;
  }

 private:
  static bool before(const Crossing& p, const Crossing& q) {
    if (p.a != q.a) return p.a < q.a;
    if (p.b != q.b) return p.b < q.b;
    return p.level < q.level;
  }
  std::vector<Crossing> sorted_;
  std::vector<char> touched_;
};

struct Pending {
  double level;
  std::size_t node;
  bool operator>(const Pending& o) const {
    return level != o.level ? level > o.level : node > o.node;
  }
};

// The flood's front: a heap, and a plain queue for nodes at the level just taken.
struct Front {
  std::priority_queue<Pending, std::vector<Pending>, std::greater<>> heap;
  std::vector<Pending> pit;
  std::size_t pit_head = 0;
  bool empty() const { return heap.empty() && pit_head == pit.size(); }
  Pending take() {
    if (pit_head < pit.size()) return pit[pit_head++];
    pit.clear();
    pit_head = 0;
    const Pending p = heap.top();
    heap.pop();
    return p;
  }
};

void seed(const Heightfield& ground, const FillOptions& options, std::vector<double>& level,
          Front& front) {
  const Grid& g = ground.grid;
  const auto add = [&](std::size_t n) {
    if (level[n] == ground.z[n]) return;
    level[n] = ground.z[n];
    front.heap.push({level[n], n});
  };
  for (int i = 0; i < g.nx; ++i) {
    add(g.index(i, 0));
    add(g.index(i, g.ny - 1));
  }
  for (int j = 0; j < g.ny; ++j) {
    add(g.index(0, j));
    add(g.index(g.nx - 1, j));
  }
  for (const std::size_t n : options.outlets) add(n);
}

}  // namespace

std::vector<double> fill_depressions(const Heightfield& ground, const FillOptions& options) {
  const Grid& g = ground.grid;
  std::vector<double> level(g.size(), std::numeric_limits<double>::infinity());
  const CrossingTable crossings(options.crossings, g.size());
  const auto steps = steps_of(options.neighbours);
  Front front;
  seed(ground, options, level, front);
  while (!front.empty()) {
    const Pending now = front.take();
    if (now.level > level[now.node]) continue;  // reached lower since
    const int i = static_cast<int>(now.node % static_cast<std::size_t>(g.nx));
    const int j = static_cast<int>(now.node / static_cast<std::size_t>(g.nx));
    for (const Step& s : steps) {
      if (!g.holds(i + s.di, j + s.dj)) continue;
      const std::size_t v = g.index(i + s.di, j + s.dj);
      if (level[v] <= now.level) continue;
      const double reached = std::max({now.level, ground.z[v], crossings.level(now.node, v)});
      if (reached >= level[v]) continue;
      level[v] = reached;
      if (reached == now.level)
        front.pit.push_back({reached, v});
      else
        front.heap.push({reached, v});
    }
  }
  return level;
}

namespace {

// Gives every wet node connected to `start` at the same level the label of the list's last entry.
void label_pond(const Heightfield& ground, const std::vector<double>& filled, std::size_t start,
                Depressions& out) {
  const Grid& g = ground.grid;
  const auto id = static_cast<std::int32_t>(out.list.size());
  Depression pond{start, filled[start], 0.0, 0.0, 0.0};
  std::vector<std::size_t> open{start};
  out.label[start] = id;
  while (!open.empty()) {
    const std::size_t n = open.back();
    open.pop_back();
    const double depth = filled[n] - ground.z[n];
    if (depth > pond.depth || (depth == pond.depth && n < pond.lowest)) {
      pond.depth = depth;
      pond.lowest = n;
    }
    const int i = static_cast<int>(n % static_cast<std::size_t>(g.nx));
    const int j = static_cast<int>(n / static_cast<std::size_t>(g.nx));
    for (const Step& s : steps_of(Neighbours::triangulated)) {
      if (!g.holds(i + s.di, j + s.dj)) continue;
      const std::size_t v = g.index(i + s.di, j + s.dj);
      if (out.label[v] >= 0 || filled[v] != filled[n] || !(filled[v] > ground.z[v])) continue;
      out.label[v] = id;
      open.push_back(v);
    }
  }
  out.list.push_back(pond);
}

// Adds the water over one triangle to the pond or ponds at its corners.
void add_triangle(const Heightfield& ground, const std::array<std::size_t, 3>& corner,
                  double plan_area, Depressions& out) {
  std::int32_t id = -1;
  bool split = false;
  for (const std::size_t n : corner) {
    if (out.label[n] < 0) continue;
    split = split || (id >= 0 && out.label[n] != id);
    id = out.label[n];
  }
  const double level = out.list[static_cast<std::size_t>(id)].level;
  for (const std::size_t n : corner) split = split || (out.label[n] < 0 && ground.z[n] < level);
  if (!split) {
    const PrismSums s = prism(plan_area, level - ground.z[corner[0]], level - ground.z[corner[1]],
                              level - ground.z[corner[2]]);
    Depression& pond = out.list[static_cast<std::size_t>(id)];
    pond.area_m2 += s.above_area_m2;
    pond.volume_m3 += s.above_m3;
    return;
  }
  for (const std::size_t n : corner) {
    if (out.label[n] < 0) continue;
    Depression& pond = out.list[static_cast<std::size_t>(out.label[n])];
    pond.area_m2 += plan_area / 3.0;
    pond.volume_m3 += plan_area / 3.0 * (pond.level - ground.z[n]);
  }
}

}  // namespace

Depressions find_depressions(const Heightfield& ground, const std::vector<double>& filled,
                             const std::function<bool(Vec2)>& counts) {
  const Grid& g = ground.grid;
  if (filled.size() != g.size())
    throw std::invalid_argument("find_depressions: levels and ground differ in size");
  Depressions out;
  out.label.assign(g.size(), -1);
  for (std::size_t n = 0; n < g.size(); ++n)
    if (out.label[n] < 0 && filled[n] > ground.z[n]) label_pond(ground, filled, n, out);
  const double half = 0.5 * g.cell * g.cell;
  const double third = g.cell / 3.0;
  for (int j = 0; j + 1 < g.ny; ++j) {
    for (int i = 0; i + 1 < g.nx; ++i) {
      const std::size_t a = g.index(i, j), b = g.index(i + 1, j);
      const std::size_t c = g.index(i + 1, j + 1), d = g.index(i, j + 1);
      const Vec2 p = g.node(i, j);
      const auto count = [&](const std::array<std::size_t, 3>& t, Vec2 centroid) {
        if (out.label[t[0]] < 0 && out.label[t[1]] < 0 && out.label[t[2]] < 0) return;
        if (!counts || counts(centroid)) add_triangle(ground, t, half, out);
      };
      count({a, b, d}, {p.x + third, p.y + third});
      count({c, d, b}, {p.x + 2.0 * third, p.y + 2.0 * third});
    }
  }
  return out;
}

}  // namespace hummock::geom
