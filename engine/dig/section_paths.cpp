#include "engine/dig/section_paths.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

namespace hummock::dig {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kTouch = 1e-8;  // m: a leg this near a node goes through it
constexpr double kSlack = 1e-9;  // m: legs may touch ground and floor

double reach_of_component(const VerticalSection& section, const BuriedGraph& graph) {
  std::vector<char> seen(graph.nodes.size(), 0);
  std::vector<int> open{graph.divider};
  seen[static_cast<std::size_t>(graph.divider)] = 1;
  double deepest = 0.0;
  while (!open.empty()) {
    const BuriedNode& n = graph.nodes[static_cast<std::size_t>(open.back())];
    open.pop_back();
    for (const int other : n.next) {
      const Vec2 q = graph.nodes[static_cast<std::size_t>(other)].at;
      if (!section.rock.empty() && !stays_above(section.rock, n.at, q, -kWeldDistance)) {
        return kInfinity;
      }
      deepest = std::max(deepest, greatest_depth(section.ground, n.at, q));
      if (seen[static_cast<std::size_t>(other)] != 0) continue;
      seen[static_cast<std::size_t>(other)] = 1;
      open.push_back(other);
    }
  }
  return deepest;
}

// Nearest point to p of a segment.
Vec2 nearest_on(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double t = dot(p - a, d) / dot(d, d);
  if (t <= 0.0) return a;
  if (t >= 1.0) return b;
  return a + d * t;
}

enum class Bank { inside, outside };

// One search: legs between floor and ground, from a bank or a point to the outside.
class Search {
 public:
  Search(const VerticalSection& section, const BuriedGraph& graph, GroundLine floor)
      : section_(section), graph_(graph), floor_(std::move(floor)), sectors_(graph.sectors) {
    add_floor_bumps();
    for (const auto& [i, j] : graph.edges) {
      const Vec2 a = graph.nodes[static_cast<std::size_t>(i)].at;
      const Vec2 b = graph.nodes[static_cast<std::size_t>(j)].at;
      walls_.push_back({a, b, i, j, std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y),
                        std::max(a.y, b.y)});
    }
  }

  Tunnel from_bank() {
    for (const Sector& s : sectors_) {
      if (s.inside) {
        start(s.at, 0.0);
      } else {
        const auto foot = foot_on(Bank::inside, s);
        start(foot.value_or(Vec2{}), foot ? distance(*foot, s.at) : kInfinity);
      }
    }
    return run();
  }

  Tunnel from_point(Vec2 p) {
    for (const Sector& s : sectors_) {
      const bool sees = looks_into(s, p - s.at) && clear(p, -1, s.at, s.node);
      start(p, sees ? distance(p, s.at) : kInfinity);
    }
    Sector own;
    own.at = p;
    if (const auto foot = foot_on(Bank::outside, own)) offer({p, *foot});
    return run();
  }

 private:
  // A buried piece with its box: a leg beside the box does not cross it.
  struct BoxedWall {
    Vec2 a, b;
    int i, j;
    double lo_x, hi_x, lo_y, hi_y;
  };
  struct Label {
    double length = kInfinity;
    Vec2 source;
    int before = -1;
    bool done = false;
  };

  void start(Vec2 source, double length) { labels_.push_back({length, source, -1, false}); }

  void add_floor_bumps() {
    for (std::size_t k = 1; k + 1 < floor_.size(); ++k) {
      const bool bump = cross(floor_[k] - floor_[k - 1], floor_[k + 1] - floor_[k]) < 0.0;
      if (!bump) continue;
      Sector s;
      s.at = floor_[k];
      sectors_.push_back(s);
    }
  }

  bool crosses_piece(Vec2 p, int node_p, Vec2 q, int node_q) const {
    const Vec2 d = q - p;
    const auto [lo_x, hi_x] = std::minmax(p.x, q.x);
    const auto [lo_y, hi_y] = std::minmax(p.y, q.y);
    for (const auto& [a, b, i, j, wall_lo_x, wall_hi_x, wall_lo_y, wall_hi_y] : walls_) {
      if (wall_lo_x > hi_x || wall_hi_x < lo_x || wall_lo_y > hi_y || wall_hi_y < lo_y) continue;
      if (i == node_p || i == node_q || j == node_p || j == node_q) continue;
      if ((cross(d, a - p) > 0.0) == (cross(d, b - p) > 0.0)) continue;
      if ((cross(b - a, p - a) > 0.0) != (cross(b - a, q - a) > 0.0)) return true;
    }
    return false;
  }

  bool touches_node(Vec2 p, int node_p, Vec2 q, int node_q) const {
    const Vec2 d = q - p;
    const double len = length(d);
    for (std::size_t k = 0; k < graph_.nodes.size(); ++k) {
      if (static_cast<int>(k) == node_p || static_cast<int>(k) == node_q) continue;
      const Vec2 w = graph_.nodes[k].at - p;
      if (std::abs(cross(d, w)) > kTouch * len) continue;
      const double along = dot(d, w) / len;
      if (along > -kTouch && along < len + kTouch) return true;
    }
    return false;
  }

  // Is the straight leg free of pieces, below the ground and above the floor? `node`: -1 = none.
  bool clear(Vec2 p, int node_p, Vec2 q, int node_q) const {
    if (distance(p, q) < kSlack) return true;
    return !touches_node(p, node_p, q, node_q) && !crosses_piece(p, node_p, q, node_q) &&
           stays_below(section_.ground, p, q, kSlack) &&
           (floor_.empty() || stays_above(floor_, p, q, kSlack));
  }

  bool joined(const Sector& s, const Sector& r) const {
    if (s.node < 0 || r.node < 0) return false;
    const auto& next = graph_.nodes[static_cast<std::size_t>(s.node)].next;
    return std::find(next.begin(), next.end(), r.node) != next.end();
  }

  bool leg_free(const Sector& s, const Sector& r) const {
    if (joined(s, r)) {  // along a piece: both sectors on the same side of it
      const bool left = s.from_node == r.node && r.to_node == s.node;
      const bool right = s.to_node == r.node && r.from_node == s.node;
      return (left || right) && clear(s.at, s.node, r.at, r.node);
    }
    return looks_into(s, r.at - s.at) && looks_into(r, s.at - r.at) &&
           clear(s.at, s.node, r.at, r.node);
  }

  bool is_node(Vec2 p) const {
    return std::any_of(graph_.nodes.begin(), graph_.nodes.end(),
                       [&](const BuriedNode& n) { return n.at == p; });
  }

  bool foot_free(const Sector& s, Vec2 p) const {
    return !is_node(p) && looks_into(s, p - s.at) && clear(s.at, s.node, p, -1);
  }

  // The nearest visible point of a bank, surface nodes excepted (they have sectors of their own).
  std::optional<Vec2> foot_on(Bank bank, const Sector& s) const {
    std::vector<std::pair<double, Vec2>> feet;
    feet.reserve(graph_.surface.size());
    std::size_t nearest = 0;
    for (const SurfaceStep& step : graph_.surface) {
      if (step.covered || step.inside() != (bank == Bank::inside)) continue;
      const Vec2 p = nearest_on(s.at, step.a, step.b);
      feet.emplace_back(distance(s.at, p), p);
      if (feet.back().first < feet[nearest].first) nearest = feet.size() - 1;
    }
    if (feet.empty()) return std::nullopt;
    if (foot_free(s, feet[nearest].second)) return feet[nearest].second;
    std::sort(feet.begin(), feet.end(),
              [](const auto& p, const auto& q) { return p.first < q.first; });
    for (const auto& [d, p] : feet) {
      if (d >= best_) break;
      if (foot_free(s, p)) return p;
    }
    return std::nullopt;
  }

  void offer(std::vector<Vec2> path) {
    double len = 0.0;
    for (std::size_t k = 1; k < path.size(); ++k) len += distance(path[k - 1], path[k]);
    if (len >= best_) return;
    best_ = len;
    best_path_ = std::move(path);
    best_bends_.assign(best_path_.size() > 2 ? best_path_.size() - 2 : 0, 0);
  }

  void finish(int at) {
    const Sector& s = sectors_[static_cast<std::size_t>(at)];
    const double so_far = labels_[static_cast<std::size_t>(at)].length;
    if (so_far >= best_) return;
    Vec2 end = s.at;
    if (!s.outside) {
      const auto foot = foot_on(Bank::outside, s);
      if (!foot || so_far + distance(*foot, s.at) >= best_) return;
      end = *foot;
    }
    best_ = so_far + distance(s.at, end);
    trace(at, end);
  }

  void trace(int at, Vec2 end) {
    best_path_.assign(1, end);
    best_bends_.clear();
    Vec2 source;
    for (int k = at; k >= 0; k = labels_[static_cast<std::size_t>(k)].before) {
      const Sector& s = sectors_[static_cast<std::size_t>(k)];
      best_path_.push_back(s.at);
      best_bends_.push_back(s.node < 0 ? kRock
                                       : graph_.nodes[static_cast<std::size_t>(s.node)].kinds);
      source = labels_[static_cast<std::size_t>(k)].source;
    }
    best_path_.push_back(source);
    std::reverse(best_path_.begin(), best_path_.end());
    std::reverse(best_bends_.begin(), best_bends_.end());
    drop_empty_ends();
  }

  // A tunnel that starts or ends in a surface node has that node twice.
  void drop_empty_ends() {
    if (best_path_.size() > 2 && best_path_[0] == best_path_[1]) {
      best_path_.erase(best_path_.begin());
      best_bends_.erase(best_bends_.begin());
    }
    if (best_path_.size() > 2 && best_path_.back() == best_path_[best_path_.size() - 2]) {
      best_path_.pop_back();
      best_bends_.pop_back();
    }
  }

  int nearest_open() const {
    int at = -1;
    for (std::size_t k = 0; k < labels_.size(); ++k) {
      if (labels_[k].done || labels_[k].length >= best_) continue;
      if (at < 0 || labels_[k].length < labels_[static_cast<std::size_t>(at)].length) {
        at = static_cast<int>(k);
      }
    }
    return at;
  }

  void relax(int at) {
    const Sector& s = sectors_[static_cast<std::size_t>(at)];
    const double so_far = labels_[static_cast<std::size_t>(at)].length;
    for (std::size_t k = 0; k < sectors_.size(); ++k) {
      Label& label = labels_[k];
      const double through = so_far + distance(s.at, sectors_[k].at);
      if (label.done || through >= label.length || through >= best_) continue;
      if (!leg_free(s, sectors_[k])) continue;
      label.length = through;
      label.before = at;
    }
  }

  Tunnel run() {
    for (int at = nearest_open(); at >= 0; at = nearest_open()) {
      labels_[static_cast<std::size_t>(at)].done = true;
      finish(at);
      relax(at);
    }
    Tunnel tunnel;
    tunnel.open = best_ < kInfinity;
    if (!tunnel.open) return tunnel;
    tunnel.length = best_;
    tunnel.path = best_path_;
    tunnel.bends = best_bends_;
    for (std::size_t k = 1; k < best_path_.size(); ++k) {
      tunnel.depth =
          std::max(tunnel.depth, greatest_depth(section_.ground, best_path_[k - 1], best_path_[k]));
    }
    return tunnel;
  }

  const VerticalSection& section_;
  const BuriedGraph& graph_;
  GroundLine floor_;
  std::vector<Sector> sectors_;
  std::vector<BoxedWall> walls_;
  std::vector<Label> labels_;
  double best_ = kInfinity;
  std::vector<Vec2> best_path_;
  std::vector<std::uint32_t> best_bends_;
};

bool keeps_above(const GroundLine& floor, const std::vector<Vec2>& path) {
  for (std::size_t k = 1; k < path.size(); ++k) {
    if (!stays_above(floor, path[k - 1], path[k], kSlack)) return false;
  }
  return true;
}

// The floor a tunnel may not break: rock, and the depth limit.
GroundLine floor_under(const VerticalSection& section, double max_depth) {
  if (max_depth == kInfinity) return section.rock;
  const GroundLine limit = lowered(section.ground, max_depth);
  return section.rock.empty() ? limit : upper_of(limit, section.rock);
}

// Most tunnels never touch the floor; the search with its many corners is for those that would.
template <class Run>
Tunnel least_above_floor(const VerticalSection& section, const BuriedGraph& graph, double max_depth,
                         Run run) {
  Tunnel tunnel = run(Search(section, graph, {}));
  const GroundLine floor = floor_under(section, max_depth);
  if (floor.empty() || !tunnel.open || keeps_above(floor, tunnel.path)) return tunnel;
  return run(Search(section, graph, floor));
}

}  // namespace

SectionPaths::SectionPaths(VerticalSection section)
    : section_(std::move(section)),
      graph_(make_buried_graph(section_.ground, section_.pieces)),
      least_depth_(reach_of_component(section_, graph_)) {}

Tunnel SectionPaths::shortest(double max_depth) const {
  if (least_depth_ > max_depth + kSlack || least_depth_ == kInfinity) return {};
  return least_above_floor(section_, graph_, max_depth, [](Search s) { return s.from_bank(); });
}

Tunnel SectionPaths::shortest_from(Vec2 start, double max_depth) const {
  return least_above_floor(section_, graph_, max_depth,
                           [start](Search s) { return s.from_point(start); });
}

}  // namespace hummock::dig
