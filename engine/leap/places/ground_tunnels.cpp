#include "engine/leap/places/ground_tunnels.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "engine/barrier/house_ways.h"
#include "engine/leap/passages/burrow_ways.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

constexpr int kNone = -1;
constexpr double kJustBeneath = 0.02;    // m
constexpr double kDeeper = 0.05;         // m, from one depth tried to the next; numeric
constexpr std::size_t kMostParts = 64;   // beyond, only from the first; numeric, a limit of work
constexpr std::size_t kMostTries = 200;  // tunnels to one part; numeric, a limit of work

// A tunnel to be tried: between two squares.
struct Way {
  double length = 0.0;  // m, on plan between the squares' rims
  std::size_t from = 0, to = 0;
  friend bool operator<(const Way& a, const Way& b) {
    return a.length != b.length ? a.length < b.length : a.to < b.to;
  }
};

class Tunnels {
 public:
  Tunnels(const Model& model, const PlaceRules& rules, const SquareSampler& squares,
          BlockGrid<int>& piece)
      : model_(model),
        rules_(rules),
        digs_(rules.digs),
        sampler_(squares),
        piece_(piece),
        nx_(squares.squares().nx),
        ny_(squares.squares().ny),
        side_(squares.squares().side),
        house_(nx_, ny_, kNone) {}

  int run(int pieces) {
    first_room_ = static_cast<std::size_t>(pieces);
    first_burrow_ = first_room_ + number_rooms();
    for (const Burrow& burrow : model_.site.burrows)
      burrows_.push_back(burrow_ways(rules_, sampler_, piece_, burrow));
    const std::size_t all = first_burrow_ + burrows_.size();
    std::vector<int> of(first_room_, kNone);
    const std::size_t starts = first_room_ <= kMostParts ? first_room_ : 1;
    for (std::size_t k = 0; k < starts; ++k) {
      if (of[k] != kNone) continue;
      std::vector<char> home(all, 0);
      home[k] = 1;
      while ((digs() && (join_some(home) || walk_through(home))) || go_through_burrows(home)) {
      }
      for (std::size_t p = 0; p < first_room_; ++p)
        if (home[p] != 0 && of[p] == kNone) of[p] = static_cast<int>(k);
    }
    forget_rooms();
    return number_again(of);
  }

 private:
  // The squares of each room that floors of earth lie in are a part of their own, after the yard's.
  std::size_t number_rooms() {
    const auto& houses = model_.site.houses;
    if (houses.empty() || !digs()) return 0;
    ways_ = barrier::open_ways(model_, rules_.least_opening);
    room_ = barrier::rooms_of(model_, ways_);
    for (std::size_t h = 0; h < houses.size(); ++h)
      if (!houses[h].solid_floor) lay_floor(static_cast<int>(h));
    return static_cast<std::size_t>(*std::max_element(room_.begin(), room_.end())) + 1;
  }

  void lay_floor(int h) {
    const auto& outline = model_.site.houses[static_cast<std::size_t>(h)].outline;
    const geom::Box2 box = geom::bounds(outline);
    for (int j = sampler_.row(box.lo.y); j <= sampler_.row(box.hi.y); ++j)
      for (int i = sampler_.column(box.lo.x); i <= sampler_.column(box.hi.x); ++i) {
        if (sampler_.state(i, j) != kHouse || !geom::contains(outline, point(index(i, j))))
          continue;
        house_.set(i, j, h);
        piece_.set(i, j, static_cast<int>(first_room_) + room_[static_cast<std::size_t>(h)]);
      }
  }

  void forget_rooms() {
    const auto none = [&](int bi, int bj) { return house_.is_whole(bi, bj, kNone); };
    by_rows(nx_, ny_, none, [&](int i, int j) {
      if (house_.at(i, j) != kNone) piece_.set(i, j, kNone);
    });
  }

  // Out of rooms it has dug into, and into others to dig out of, by doors and vents that it passes.
  bool walk_through(std::vector<char>& home) const {
    bool any = false;
    for (const barrier::HouseWay& way : ways_) {
      if (way.beyond.kind != barrier::SpaceKind::yard) continue;
      const auto room =
          first_room_ + static_cast<std::size_t>(room_[static_cast<std::size_t>(way.house)]);
      const Vec2 out = -geom::left_of(geom::unit(way.b - way.a));
      const int n = std::max(1, static_cast<int>(std::ceil(geom::distance(way.a, way.b) / side_)));
      for (int k = 0; k < n; ++k)
        for (const double before : {barrier::kBeyondWall, side_})
          any |= pass(room, lerp(way.a, way.b, (k + 0.5) / n) + out * before, home);
    }
    return any;
  }

  // Between a room and the ground at p.
  bool pass(std::size_t room, Vec2 p, std::vector<char>& home) const {
    const int part = piece_.at(sampler_.column(p.x), sampler_.row(p.y));
    if (part == kNone || home[static_cast<std::size_t>(part)] == home[room]) return false;
    home[static_cast<std::size_t>(part)] = home[room] = 1;
    return true;
  }

  bool join_some(std::vector<char>& home) {
    std::vector<std::vector<Way>> ways(home.size());
    for (const Way& way : ways_from(home))
      ways[static_cast<std::size_t>(part(way.to))].push_back(way);
    bool any = false;
    for (std::size_t k = 0; k < ways.size(); ++k) {
      std::sort(ways[k].begin(), ways[k].end());
      if (ways[k].size() > kMostTries) ways[k].resize(kMostTries);
      if (std::none_of(ways[k].begin(), ways[k].end(), [&](const Way& w) { return dug(w); }))
        continue;
      home[k] = any = true;
    }
    return any;
  }

  // In by the mouth, up from any place of the path, or down to one and out.
  bool go_through_burrows(std::vector<char>& home) const {
    bool any = false;
    for (std::size_t b = 0; b < burrows_.size(); ++b) {
      char& in = home[first_burrow_ + b];
      for (const std::size_t n : burrows_[b].mouth) any |= share(in, n, home);
      for (std::size_t c = 0; c < b; ++c)
        if (home[first_burrow_ + c] != in &&
            burrows_meet(rules_, model_.site.burrows[b], model_.site.burrows[c]))
          in = home[first_burrow_ + c] = any = true;
      std::vector<std::size_t> tries(first_burrow_, 0);  // to each part, the nearest squares first
      for (const WayUp& up : burrows_[b].ups) {
        const auto to = static_cast<std::size_t>(part(up.to));
        if (home[to] == in || ++tries[to] > kMostTries) continue;
        if (dug_up(up)) any |= share(in, up.to, home);
      }
    }
    return any;
  }

  bool digs() const { return digs_.length > 0.0 && digs_.depth > 0.0; }

  // Both are the animal's once one is.
  bool share(char& in, std::size_t n, std::vector<char>& home) const {
    char& its = home[static_cast<std::size_t>(part(n))];
    if (its == in) return false;
    its = in = 1;
    return true;
  }

  // As `dug`, with one end in the open: how deep the burrow runs there is not known.
  bool dug_up(const WayUp& up) const {
    if (!within_the_yard(up.from, point(up.to))) return false;
    const Footing foot = footing_of({up.length, up.to, up.to});
    for (int k = 0;; ++k) {
      const double try_at = k == 0 ? kJustBeneath : std::min(k * kDeeper, digs_.depth);
      const double depth = std::max(try_at, foot.depth);
      if (depth > digs_.depth || std::max(up.length, foot.width) + depth > digs_.length)
        return false;
      if (free_at(up.from, point(up.to), depth)) return true;
      if (depth >= digs_.depth) return false;
    }
  }

  bool at_home(const std::vector<char>& home, std::size_t n) const {
    return part(n) != kNone && home[static_cast<std::size_t>(part(n))] != 0;
  }

  // From the nearest square at home to every other within the tunnel's length, by rings.
  std::vector<Way> ways_from(const std::vector<char>& home) const {
    struct Ring {
      double far;
      std::size_t at, from;
      bool operator<(const Ring& o) const { return far != o.far ? far > o.far : at > o.at; }
    };
    std::priority_queue<Ring> open;
    BlockGrid<char> done(nx_, ny_, 0);
    by_rows(
        nx_, ny_, [&](int bi, int bj) { return home_all_about(home, bi, bj); },
        [&](int i, int j) {
          bool at_rim = false;
          const std::size_t n = index(i, j);
          if (!at_home(home, n)) return;
          spread(n, [&](std::size_t to) { at_rim = at_rim || !at_home(home, to); });
          if (at_rim) open.push({0.0, n, n});
        });
    std::vector<Way> out;
    while (!open.empty()) {
      const Ring r = open.top();
      open.pop();
      if (done.at(column(r.at), row(r.at)) != 0) continue;
      done.set(column(r.at), row(r.at), 1);
      if (part(r.at) != kNone && !at_home(home, r.at))
        out.push_back({std::max(0.0, r.far - side_), r.from, r.at});
      spread(r.at, [&](std::size_t to) {
        const double far = geom::distance(point(to), point(r.from));
        if (done.at(column(to), row(to)) == 0 && !at_home(home, to) && far - side_ <= digs_.length)
          open.push({far, to, r.from});
      });
    }
    return out;
  }

  template <class Visit>
  void spread(std::size_t n, const Visit& visit) const {
    const int i = column(n), j = row(n);
    for (int b = std::max(0, j - 1); b <= std::min(ny_ - 1, j + 1); ++b)
      for (int a = std::max(0, i - 1); a <= std::min(nx_ - 1, i + 1); ++a)
        if (a != i || b != j) visit(index(a, b));
  }

  // Told by whole blocks: nothing of it is at home, or all of it and all about it is.
  bool home_all_about(const std::vector<char>& home, int bi, int bj) const {
    const auto of_block = [&](int a, int b) -> std::optional<bool> {
      if (a < 0 || b < 0 || a >= piece_.across() || b >= piece_.up()) return true;
      const std::optional<int> whole = piece_.whole(a, b);
      if (!whole) return std::nullopt;
      return *whole != kNone && home[static_cast<std::size_t>(*whole)] != 0;
    };
    const std::optional<bool> own = of_block(bi, bj);
    if (!own || !*own) return own.has_value();
    for (int b = bj - 1; b <= bj + 1; ++b)
      for (int a = bi - 1; a <= bi + 1; ++a)
        if (!of_block(a, b).value_or(false)) return false;
    return true;
  }

  int part(std::size_t n) const { return piece_.at(column(n), row(n)); }
  std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(nx_) +
           static_cast<std::size_t>(i);
  }
  int column(std::size_t n) const { return static_cast<int>(n) % nx_; }
  int row(std::size_t n) const { return static_cast<int>(n) / nx_; }
  Vec2 point(std::size_t n) const { return sampler_.surface().at(column(n), row(n), 0.5, 0.5); }

  // Can this one be dug, at some depth?
  bool dug(const Way& way) const {
    const Footing foot = footing_of(way);
    if (foot.depth > digs_.depth) return false;
    if (!within_the_yard(point(way.from), point(way.to))) return false;
    for (int k = 0;; ++k) {
      const double try_at = k == 0 ? kJustBeneath : std::min(k * kDeeper, digs_.depth);
      const double depth = std::max(try_at, foot.depth);
      if (std::max(way.length, foot.width) + 2.0 * depth > digs_.length) return false;
      if (free_at(point(way.from), point(way.to), depth)) return true;
      if (depth >= digs_.depth) return false;
    }
  }

  // What lies under the walls of the houses that it leads from, to or beneath.
  Footing footing_of(const Way& way) const {
    Footing most{0.0, 0.0};
    for (const House& house : model_.site.houses) {
      if (!house.footing || !meets(house.outline, way)) continue;
      most.depth = std::max(most.depth, house.footing->depth);
      most.width = std::max(most.width, house.footing->width);
    }
    return most;
  }

  bool meets(const Polygon& plan, const Way& way) const {
    const Vec2 from = point(way.from), to = point(way.to);
    return geom::contains(plan, from) ||
           !all_along(from, to, [&](Vec2, Vec2 p) { return !geom::contains(plan, p); });
  }

  template <class Each>
  bool all_along(Vec2 a, Vec2 b, const Each& holds) const {
    const int steps = std::max(1, static_cast<int>(std::ceil(geom::distance(a, b) / side_)));
    for (int k = 0; k < steps; ++k)
      if (!holds(geom::lerp(a, b, static_cast<double>(k) / steps),
                 geom::lerp(a, b, (k + 1.0) / steps)))
        return false;
    return true;
  }

  // Not out of the yard; under the bed of a water as under other ground.
  bool within_the_yard(Vec2 a, Vec2 b) const {
    return all_along(a, b, [&](Vec2, Vec2 p) {
      return sampler_.state(sampler_.column(p.x), sampler_.row(p.y)) != kOutside;
    });
  }

  bool free_at(Vec2 a, Vec2 b, double depth) const {
    return all_along(a, b, [&](Vec2 p, Vec2 q) {
      const Vec3 from = at_height(p, geom::height_at(model_.ground, p) - depth);
      const Vec3 to = at_height(q, geom::height_at(model_.ground, q) - depth);
      const auto hits = model_.body_scene->all_hits({from, to - from, 0.0, 1.0});
      return std::all_of(hits.begin(), hits.end(),
                         [](const geom::Hit& hit) { return hit.id == kGroundId; });
    });
  }

  // Parts that are one get the number of their first; the others go on in their order.
  int number_again(const std::vector<int>& of) {
    std::vector<int> number(of.size(), kNone);
    int next = 0;
    for (std::size_t k = 0; k < of.size(); ++k) {
      const bool joined = of[k] != kNone && of[k] != static_cast<int>(k);
      number[k] = joined ? number[static_cast<std::size_t>(of[k])] : next++;
    }
    piece_.map([&](int p) { return p != kNone ? number[static_cast<std::size_t>(p)] : p; });
    return next;
  }

  const Model& model_;
  const PlaceRules& rules_;
  Digging digs_;
  const SquareSampler& sampler_;
  BlockGrid<int>& piece_;
  int nx_, ny_;
  double side_;
  std::size_t first_room_ = 0;    // parts from here on are rooms
  std::size_t first_burrow_ = 0;  // and from here on drawn burrows
  std::vector<BurrowWays> burrows_;
  std::vector<barrier::HouseWay> ways_;  // that its head passes
  std::vector<int> room_;                // of each house
  BlockGrid<int> house_;                 // by square, with a floor of earth; kNone
};

}  // namespace

int join_by_tunnels(const Model& model, const PlaceRules& rules, const SquareSampler& squares,
                    int pieces, BlockGrid<int>& piece) {
  const bool digs = rules.digs.length > 0.0 && rules.digs.depth > 0.0;
  if (pieces < 2 || (!digs && model.site.burrows.size() < 2)) return pieces;
  return Tunnels(model, rules, squares, piece).run(pieces);
}

}  // namespace hummock::leap
