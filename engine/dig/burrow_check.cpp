#include "engine/dig/burrow_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>
#include <vector>

#include "engine/dig/station_tunnels.h"
#include "engine/dig/wider_ground.h"
#include "geometry/plan/polygon.h"

namespace hummock::dig {

namespace {

constexpr double kStep = 0.10;  // m between the points of the path that are looked at

// A point of the path, and the height its bottom comes down to at least, m.
struct Along {
  Vec2 p;
  double floor = 0.0;
};

// The burrow as it is walked along. How it falls is not said: its bottom is as deep below the
// ground straight above, and straight from each point of the path to the next, whichever is lower.
class BurrowPath {
 public:
  BurrowPath(const Model& model, const Burrow& burrow)
      : model_(model), bottom_(burrow.depth + 0.5 * burrow.diameter), line_{burrow.mouth} {
    line_.insert(line_.end(), burrow.path.begin(), burrow.path.end());
    reached_.push_back(0.0);
    for (std::size_t k = 1; k < line_.size(); ++k)
      reached_.push_back(reached_.back() + geom::distance(line_[k - 1], line_[k]));
  }

  double length() const { return reached_.back(); }
  double bottom() const { return bottom_; }

  Along at(double along) const {
    const auto next = std::upper_bound(reached_.begin(), reached_.end(), along);
    const auto k =
        std::clamp<std::ptrdiff_t>(next - reached_.begin(), 1, std::max<std::ptrdiff_t>(1, last()));
    if (last() == 0) return {line_[0], ground(line_[0]) - bottom_};
    const Vec2 a = line_[static_cast<std::size_t>(k - 1)], b = line_[static_cast<std::size_t>(k)];
    const double from = reached_[static_cast<std::size_t>(k - 1)];
    const double len = reached_[static_cast<std::size_t>(k)] - from;
    const double share = len > 0.0 ? std::clamp((along - from) / len, 0.0, 1.0) : 1.0;
    const Vec2 p = lerp(a, b, share);
    const double straight = ground(a) + (ground(b) - ground(a)) * share;
    return {p, std::min(ground(p), straight) - bottom_};
  }

  // Lengths along it, every kStep and at every corner.
  std::vector<double> places() const {
    std::vector<double> out{0.0};
    for (std::size_t k = 1; k < line_.size(); ++k) {
      const double len = reached_[k] - reached_[k - 1];
      const int n = std::max(1, static_cast<int>(std::ceil(len / kStep)));
      for (int i = 1; i <= n; ++i) out.push_back(reached_[k - 1] + len * i / n);
    }
    return out;
  }

 private:
  std::ptrdiff_t last() const { return static_cast<std::ptrdiff_t>(line_.size()) - 1; }
  double ground(Vec2 p) const { return geom::height_at(model_.ground, p) - model_.snow; }

  const Model& model_;
  double bottom_;  // m below the ground
  std::vector<Vec2> line_;
  std::vector<double> reached_;  // m along, by corner
};

bool leaves(const Model& model, const Burrow& burrow) {
  Vec2 from = burrow.mouth;
  if (!geom::contains(model.outline, from)) return true;
  for (const Vec2& to : burrow.path) {
    if (!geom::contains(model.outline, to)) return true;
    for (std::size_t k = 0; k < model.outline.size(); ++k) {
      const Vec2 a = model.outline[k];
      const Vec2 b = model.outline[(k + 1) % model.outline.size()];
      if (geom::segments_meet(from, to, a, b)) return true;
    }
    from = to;
  }
  return false;
}

struct Past {
  StationPlace place;
  double x = 0.0;  // m from the fence to the point
};

// The way from p past one edge: the plane through p and the edge's nearest point, square to the
// fence or through a corner.
Past past_edge(const Model& model, std::size_t edge, Vec2 p) {
  const Vec2 a = model.outline[edge];
  const Vec2 b = model.outline[(edge + 1) % model.outline.size()];
  const Vec2 d = b - a;
  const Vec2 point = lerp(a, b, std::clamp(dot(p - a, d) / dot(d, d), 0.0, 1.0));
  Past past;
  past.x = geom::distance(p, point);
  past.place.plane.at = point;
  past.place.plane.inwards =
      past.x > 1e-9 ? (p - point) * (1.0 / past.x) : left_of(geom::unit(b - a));
  past.place.gateway = gateway_at(model, point);
  return past;
}

// Past the ends of what is buried beside p: under a gate, or where a skirt is less deep.
void add_askew(const Model& model, const std::vector<PlaceOfChange>& changes, Vec2 p, double reach,
               std::vector<Past>& ways) {
  for (const PlaceOfChange& change : changes) {
    const Vec2 way = p - change.place.plane.at;
    Past past{change.place, geom::length(way)};
    if (past.x > reach || past.x < 1e-9 || dot(way, change.towards_other) <= 0.0) continue;
    past.place.plane.inwards = way * (1.0 / past.x);
    if (limits_at(model, past.place).inside >= past.x) ways.push_back(past);
  }
}

// Past every edge within reach that no other edge lies before; the nearest always.
std::vector<Past> ways_from(const Model& model, const std::vector<PlaceOfChange>& changes, Vec2 p,
                            double reach) {
  std::vector<Past> ways;
  const auto nearest = static_cast<std::size_t>(geom::nearest_on_edges(model.outline, p).edge);
  for (std::size_t e = 0; e < model.outline.size(); ++e) {
    Past past = past_edge(model, e, p);
    if (e != nearest && past.x > reach) continue;
    if (e != nearest && limits_at(model, past.place).inside < past.x) continue;
    ways.push_back(past);
  }
  add_askew(model, changes, p, reach, ways);
  return ways;
}

// Does it run through an apron that lies above its bottom?
bool meets_apron(const Model& model, const BuriedParts& parts, const StationPlace& place, double x,
                 double bottom) {
  const VerticalSection s = section_at(model, parts, place, x + 0.05, 0.05);
  return std::any_of(s.pieces.begin(), s.pieces.end(), [&](const Piece& p) {
    if (p.kind != kApron && p.kind != kFooting) return false;
    const double lo = std::min(p.a.x, p.b.x), hi = std::max(p.a.x, p.b.x);
    return lo <= x && x <= hi && std::max(p.a.y, p.b.y) >= bottom;
  });
}

// The house through whose footing the burrow runs, empty = none: its plan meets the footing's. Like
// the barrier's, whatever its depth: the burrow is open from the ground down.
std::string footing_met(const Model& model, const Burrow& burrow, const BurrowPath& path) {
  for (const House& house : model.site.houses) {
    if (!house.footing) continue;
    const double reach = 0.5 * (house.footing->width + burrow.diameter);
    for (const double along : path.places()) {
      if (geom::distance_to_edges(house.outline, path.at(along).p) < reach) return house.name;
    }
  }
  return {};
}

std::string metres(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f m", value);
  return text;
}

}  // namespace

namespace {

constexpr double kAnyDepth = 1e300;  // m

// A place of the burrow from which it may be dug on.
struct Start {
  StationPlace place;
  double along = 0.0;      // m, along the burrow
  double from_line = 0.0;  // m, of its middle from the fence
  Shaft shaft;
};

// Those within reach of the fence at a place of the burrow.
class Starts {
 public:
  Starts(const Model& model, const BurrowPath& path, double half_width, double reach)
      : model_(model),
        path_(path),
        changes_(places_of_change(model)),
        half_width_(half_width),
        reach_(reach) {}

  void add_at(double along, std::vector<Start>& starts) const {
    const auto [p, floor] = path_.at(along);
    for (const auto& [place, x] : ways_from(model_, changes_, p, reach_ + half_width_)) {
      const double near = std::max(0.0, x - half_width_);
      starts.push_back({place, along, x, {near, path_.bottom(), floor}});
    }
  }

 private:
  const Model& model_;
  const BurrowPath& path_;
  std::vector<PlaceOfChange> changes_;
  double half_width_, reach_;  // m
};

bool nearer(const Start& a, const Start& b) {
  return a.shaft.x < b.shaft.x;
}

struct Least {
  std::optional<double> length;  // m
  Start from;
};

// The nearest first: no tunnel is shorter than the way to the fence, so those farther off than the
// shortest so far need no look.
void take_shorter(const Model& model, const BuriedParts& parts, const std::vector<Start>& starts,
                  double dig_depth, bool closer, Least& least) {
  constexpr double kRounding = 1.0 + 1e-12;
  for (const Start& start : starts) {
    if (least.length && start.shaft.x > *least.length * kRounding) break;
    const Tunnel tunnel = from_burrow(model, parts, start.place, start.shaft, dig_depth, closer);
    if (tunnel.open && tunnel.length < least.length.value_or(1e300)) least = {tunnel.length, start};
  }
}

// Looked at closer about the shortest, along the burrow and then down it.
std::optional<double> least_to_dig(const Model& model, const BuriedParts& parts,
                                   const Starts& along, const std::vector<Start>& starts,
                                   double dig_depth) {
  constexpr double kEnough = 5e-3;  // m
  Least least;
  take_shorter(model, parts, starts, dig_depth, false, least);
  for (double step = 0.5 * kStep; least.length && step > kEnough; step *= 0.5) {
    std::vector<Start> about;
    along.add_at(least.from.along - step, about);
    along.add_at(least.from.along + step, about);
    std::stable_sort(about.begin(), about.end(), nearer);
    take_shorter(model, parts, about, dig_depth, false, least);
  }
  if (least.length) take_shorter(model, parts, {least.from}, dig_depth, true, least);
  return least.length;
}

}  // namespace

BurrowRow check_burrow(const Model& model, const BuriedParts& parts, const Burrow& burrow) {
  BurrowRow row;
  row.name = burrow.name;
  const BurrowPath path(model, burrow);
  const double dig_depth = model.site.species.dig_depth.value;
  const double dig_length = model.site.species.dig_length.value;
  const double counts = reach_that_counts(model) + parts.widest();
  const Starts along(model, path, 0.5 * burrow.diameter, counts);
  std::vector<Start> starts;
  for (const double place : path.places()) along.add_at(place, starts);
  std::stable_sort(starts.begin(), starts.end(), nearer);
  row.distance_to_barrier_m = starts.front().shaft.x;
  const auto near_end = std::find_if(starts.begin(), starts.end(),
                                     [&](const Start& s) { return s.shaft.x > counts; });
  starts.erase(near_end, starts.end());  // farther off than any tunnel that counts
  const bool apron = std::any_of(starts.begin(), starts.end(), [&](const Start& s) {
    return meets_apron(model, parts, s.place, s.from_line, s.shaft.floor);
  });
  row.left_to_dig_m = least_to_dig(model, parts, along, starts, dig_depth);
  row.left_at_any_depth_m = least_to_dig(model, parts, along, starts, kAnyDepth);
  if (leaves(model, burrow)) {
    row.within = false;
    row.left_to_dig_m = row.left_at_any_depth_m = 0.0;
    row.note = "leaves the yard under the barrier";
  } else if (const std::string house = footing_met(model, burrow, path); !house.empty()) {
    row.within = false;
    row.note = "runs through the footing of " + house;
  } else if (apron) {
    row.within = false;
    row.note = "runs through the apron or the footing";
  } else if (row.left_to_dig_m && dig_length > 0.0 && dig_depth > 0.0 &&
             *row.left_to_dig_m <= dig_length) {
    row.within = false;
    row.note = "leaves only " + metres(*row.left_to_dig_m) + " to dig to the ground outside";
  } else if (row.left_to_dig_m) {
    row.note = metres(*row.left_to_dig_m) + " still to dig to the ground outside";
  } else {
    row.note = "farther from the barrier than the animal digs";
  }
  return row;
}

}  // namespace hummock::dig
