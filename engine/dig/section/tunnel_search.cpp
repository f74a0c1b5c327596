#include "engine/dig/section/tunnel_search.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/convex_hull_cgal.h"

namespace hummock::dig {

namespace {

using Foot = OpenGround::Foot;

// By hull: convex, counter-clockwise. One of fewer than three corners is not asked.
bool under(const geom::Polygon& hull, Vec2 p) {
  if (hull.size() < 3) return true;
  for (std::size_t k = 0; k < hull.size(); ++k) {
    const Vec2 a = hull[k], b = hull[(k + 1) % hull.size()];
    const bool above = b.x < a.x && p.x >= b.x && p.x <= a.x;
    if (above && p.y <= lerp(b, a, (p.x - b.x) / (a.x - b.x)).y + kSlack) return true;
  }
  return false;
}

class Search {
 public:
  Search(const SearchedGround& searched, const GroundLine& floor)
      : ground_(searched.ground),
        graph_(searched.graph),
        obstacles_(searched.obstacles),
        floor_(floor),
        inside_(searched.inside),
        outside_(searched.outside),
        sectors_(searched.graph.sectors) {
    add_floor_bumps();
    labels_.resize(sectors_.size());
    bound_.resize(sectors_.size());
  }

  Tunnel from_bank() {
    for (std::size_t k = 0; k < sectors_.size(); ++k) {
      const Sector& s = sectors_[k];
      if (s.inside) {
        start(k, s.at, 0.0);
        continue;
      }
      const auto foot = foot_on(inside_, s, kInfinity);
      start(k, foot.value_or(Vec2{}), foot ? distance(*foot, s.at) : kInfinity);
    }
    search();
    return result();
  }

  Tunnel from_point(Vec2 p) {
    add_ground_notches(p);
    for (std::size_t k = 0; k < sectors_.size(); ++k) {
      const Sector& s = sectors_[k];
      const bool sees = !is_useless_leg(s, p - s.at, s.outside) && looks_into(s, p - s.at) &&
                        clear(p, -1, s.at, s.node);
      start(k, p, sees ? distance(p, s.at) : kInfinity);
    }
    search();
    // Straight up, where that is shorter.
    Sector own;
    own.at = p;
    if (const auto foot = foot_on(outside_, own, best_)) offer({p, *foot});
    return result();
  }

 private:
  struct Label {
    Vec2 source;
    int before = -1;
  };

  // bound_: the length so far, −1 when nothing shorter can come.
  void start(std::size_t k, Vec2 source, double length) {
    labels_[k] = {source, -1};
    bound_[k] = length;
  }

  void add_floor_bumps() {
    for (std::size_t k = 1; k + 1 < floor_.size(); ++k) {
      const Vec2 before = floor_[k] - floor_[k - 1], after = floor_[k + 1] - floor_[k];
      if (cross(before, after) >= 0.0) continue;
      Sector s;
      s.at = floor_[k];
      s.first = geom::unit(after);
      s.second = geom::unit(-before);
      s.width = geom::kPi + std::atan2(-cross(before, after), dot(before, after));
      sectors_.push_back(s);
    }
  }

  // Where the open ground inside falls and rises again. From the bank a tunnel begins there, and
  // outside it ends there; one that is dug on from a point must pass below. It bends at none above
  // the hull of all else it may pass: from one of those to the next, below notches only, it is the
  // graph of a function of x that curves upwards, and the upper side of the hull curves downwards.
  void add_ground_notches(Vec2 p) {
    std::vector<Vec2> else_passed{p};
    for (const Sector& s : sectors_) else_passed.push_back(s.at);
    for (const Vec2 v : ground_) {
      else_passed.push_back(v);
      if (v.x > 0.0) break;
    }
    const geom::Polygon hull = geom::convex_hull(else_passed);
    for (std::size_t k = 1; k + 1 < ground_.size(); ++k) {
      const Vec2 before = ground_[k] - ground_[k - 1], after = ground_[k + 1] - ground_[k];
      if (ground_[k].x <= 0.0 || cross(before, after) <= 0.0 || !under(hull, ground_[k])) continue;
      Sector s;
      s.node = Sector::kNotch;
      s.at = ground_[k];
      s.first = geom::unit(-before);
      s.second = geom::unit(after);
      s.width = geom::kPi + std::atan2(cross(before, after), dot(before, after));
      sectors_.push_back(s);
    }
    labels_.resize(sectors_.size());
    bound_.resize(sectors_.size());
  }

  static std::uint32_t kinds_of(const BuriedGraph& graph, const Sector& s) {
    if (s.node == Sector::kNotch) return 0;
    return s.node < 0 ? kRock : graph.nodes[static_cast<std::size_t>(s.node)].kinds;
  }

  bool clear(Vec2 p, int node_p, Vec2 q, int node_q) const {
    return obstacles_.clear(ground_, p, node_p, q, node_q) &&
           (floor_.empty() || distance(p, q) < kSlack || stays_above(floor_, p, q, kSlack));
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

  // `an_end`: of the tunnel, which does not bend there.
  static bool is_useless_leg(const Sector& s, Vec2 d, bool an_end) {
    const Useless how = is_useless(s, d);
    return how == Useless::into || (how == Useless::no_bend && !an_end);
  }

  bool foot_free(const Sector& s, Vec2 p) const {
    return looks_into(s, p - s.at) && clear(s.at, s.node, p, -1);
  }

  // The nearest visible point of a bank, surface nodes excepted (they have sectors of their own),
  // of those that a shortest tunnel may have; none when all are `limit` or farther away.
  std::optional<Vec2> foot_on(const OpenGround& bank, const Sector& s, double limit) {
    bank.feet_of(s, limit, feet_);
    const auto nearer = [](const Foot& p, const Foot& q) { return p.distance2 < q.distance2; };
    const auto nearest = std::min_element(feet_.begin(), feet_.end(), nearer);
    if (nearest == feet_.end()) return std::nullopt;
    if (foot_free(s, nearest->at)) return nearest->at;
    const auto farther = [](const Foot& p, const Foot& q) { return p.distance2 > q.distance2; };
    std::make_heap(feet_.begin(), feet_.end(), farther);
    for (auto end = feet_.end(); end != feet_.begin(); --end) {
      if (foot_free(s, feet_.front().at)) return feet_.front().at;
      std::pop_heap(feet_.begin(), end, farther);
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

  void finish(std::size_t at, double so_far) {
    const Sector& s = sectors_[at];
    if (so_far >= best_) return;
    Vec2 end = s.at;
    if (!s.outside) {
      const auto foot = foot_on(outside_, s, best_ - so_far);
      if (!foot || so_far + distance(*foot, s.at) >= best_) return;
      end = *foot;
    }
    best_ = so_far + distance(s.at, end);
    trace(static_cast<int>(at), end);
  }

  void trace(int at, Vec2 end) {
    best_path_.assign(1, end);
    best_bends_.clear();
    Vec2 source;
    for (int k = at; k >= 0; k = labels_[static_cast<std::size_t>(k)].before) {
      const Sector& s = sectors_[static_cast<std::size_t>(k)];
      best_path_.push_back(s.at);
      best_bends_.push_back(kinds_of(graph_, s));
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

  std::optional<std::size_t> nearest_open() const {
    std::optional<std::size_t> at;
    double least = best_;
    for (std::size_t k = 0; k < bound_.size(); ++k) {
      if (bound_[k] < 0.0 || bound_[k] >= least) continue;
      least = bound_[k];
      at = k;
    }
    return at;
  }

  void relax(std::size_t at, double so_far) {
    const Sector& s = sectors_[at];
    for (std::size_t k = 0; k < sectors_.size(); ++k) {
      const double room = std::min(bound_[k], best_) - so_far;
      if (room <= 0.0) continue;
      const Sector& r = sectors_[k];
      const Vec2 d = r.at - s.at;
      if (dot(d, d) > room * room * (1.0 + 1e-12)) continue;
      if (is_useless_leg(s, d, s.inside) || is_useless_leg(r, -d, r.outside)) continue;
      const double through = so_far + distance(s.at, r.at);
      if (through >= bound_[k] || through >= best_ || !leg_free(s, r)) continue;
      bound_[k] = through;
      labels_[k].before = static_cast<int>(at);
    }
  }

  void search() {
    for (auto at = nearest_open(); at; at = nearest_open()) {
      const double so_far = bound_[*at];
      bound_[*at] = -1.0;
      finish(*at, so_far);
      relax(*at, so_far);
    }
  }

  Tunnel result() const {
    Tunnel tunnel;
    tunnel.open = best_ < kInfinity;
    if (!tunnel.open) return tunnel;
    tunnel.length = best_;
    tunnel.path = best_path_;
    tunnel.bends = best_bends_;
    for (std::size_t k = 1; k < best_path_.size(); ++k) {
      tunnel.depth =
          std::max(tunnel.depth, greatest_depth(ground_, best_path_[k - 1], best_path_[k]));
    }
    return tunnel;
  }

  const GroundLine& ground_;
  const BuriedGraph& graph_;
  const SectionObstacles& obstacles_;
  const GroundLine& floor_;
  const OpenGround &inside_, &outside_;
  std::vector<Sector> sectors_;
  std::vector<Label> labels_;
  std::vector<double> bound_;
  std::vector<Foot> feet_;
  double best_ = kInfinity;
  std::vector<Vec2> best_path_;
  std::vector<std::uint32_t> best_bends_;
};

}  // namespace

Tunnel shortest_from_bank(const SearchedGround& searched, const GroundLine& floor) {
  return Search(searched, floor).from_bank();
}

Tunnel shortest_from_point(const SearchedGround& searched, const GroundLine& floor, Vec2 from) {
  return Search(searched, floor).from_point(from);
}

bool keeps_above(const GroundLine& floor, const std::vector<Vec2>& path) {
  if (floor.empty()) return true;
  for (std::size_t k = 1; k < path.size(); ++k) {
    if (!stays_above(floor, path[k - 1], path[k], kSlack)) return false;
  }
  return true;
}

}  // namespace hummock::dig
