#include "engine/dig/lean_tunnels.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/nearest_on_ground.h"

namespace hummock::dig {

namespace {

constexpr double kWorth = 1e-4;  // of the length: less is not looked for

// Which half of the section.
enum class Bank { inside, outside };

Vec2 away_from_fence(const StationPlace& place, Bank bank) {
  return bank == Bank::inside ? place.plane.inwards : -outer_inwards(place);
}

// How a half should lean for its end leg, and by how much that would be shorter.
struct Wish {
  double lean = 0.0;  // rad
  double gain = 0.0;  // m
};

// `bend` and `end` of the tunnel's leg to the bank.
Wish wish_of(const Model& model, const StationPlace& place, Bank bank, Vec3 bend, Vec3 end) {
  constexpr double kMost = 60.0 * geom::kDegree;
  const Vec3 snow{0.0, 0.0, model.snow};  // the soil ends below it
  const double leg = geom::distance(bend, end);
  const auto nearest = geom::nearest_on_ground(model.ground, bend + snow,
                                               {place.plane.at, away_from_fence(place, bank)}, leg);
  if (!nearest) return {};
  const Vec3 to = *nearest - (bend + snow);
  if (to.z <= 0.0) return {};
  const Vec2 inwards = bank == Bank::inside ? place.plane.inwards : outer_inwards(place);
  const double aside = -dot(left_of(inwards), xy(to));
  return {std::clamp(std::atan2(aside, to.z), -kMost, kMost), leg - geom::length(to)};
}

// The lowest point in which the tunnel passes the upright line x = 0.
std::optional<double> lowest_under_fence(const std::vector<Vec2>& path) {
  constexpr double kOnLine = 1e-9;  // m
  std::optional<double> lowest;
  const auto offer = [&](double y) { lowest = lowest ? std::min(*lowest, y) : y; };
  for (std::size_t k = 0; k < path.size(); ++k) {
    if (std::abs(path[k].x) < kOnLine) offer(path[k].y);
    if (k == 0 || (path[k - 1].x > 0.0) == (path[k].x > 0.0)) continue;
    const double t = path[k - 1].x / (path[k - 1].x - path[k].x);
    offer(lerp(path[k - 1], path[k], t).y);
  }
  return lowest;
}

struct Aim {
  Lean lean;
  double gain = 0.0;
};

Aim aim_of(const Model& model, const StationPlace& place, const Dug& dug, bool from_point) {
  const std::vector<Vec3> path = laid_out(place, dug);
  const std::size_t last = path.size() - 1;
  const Wish out = wish_of(model, place, Bank::outside, path[last - 1], path[last]);
  if (from_point) return {{dug.tunnel.path.front().y, out.lean, out.lean}, out.gain};
  const auto level = lowest_under_fence(dug.tunnel.path);
  if (!level) return {};
  const Wish in = wish_of(model, place, Bank::inside, path[1], path[0]);
  return {{*level, in.lean, out.lean}, in.gain + out.gain};
}

// Halves of different lean have one point in common.
bool holds_together(const Lean& lean, const std::vector<Vec2>& path) {
  constexpr double kThrough = 1e-5;  // m
  const auto y = lowest_under_fence(path);
  return lean.one_plane() || (y && std::abs(*y - lean.level) < kThrough);
}

bool ends_right(const Model& model, const StationPlace& place, const std::vector<Vec3>& path,
                bool from_point) {
  constexpr double kOffLine = 1e-6;  // m
  const Vec2 in = xy(path.front()) + place.plane.inwards * kOffLine;
  const Vec2 out = xy(path.back()) - outer_inwards(place) * kOffLine;
  if (place.house < 0) {
    return (from_point || geom::contains(model.outline, in)) && !geom::contains(model.outline, out);
  }
  const auto& house = model.site.houses[static_cast<std::size_t>(place.house)].outline;
  return geom::contains(house, in) && !geom::contains(house, out);
}

double depth_of(const Model& model, const std::vector<Vec3>& path) {
  double depth = 0.0;
  for (std::size_t k = 1; k < path.size(); ++k) {
    const Vec3 a = path[k - 1], b = path[k];
    for (const double t : geom::ground_breaks(model.ground, xy(a), xy(b))) {
      const Vec3 p = lerp(a, b, t);
      depth = std::max(depth, geom::height_at(model.ground, xy(p)) - model.snow - p.z);
    }
  }
  return depth;
}

// Not open: none that is shorter.
Tunnel search(const Model& model, const BuriedParts& parts, const StationPlace& place,
              const Lean& lean, const Tunnel& upright, double max_depth, bool from_point) {
  const Vec2 start = upright.path.front();
  const double inside = from_point ? std::max(upright.length, start.x + 0.01) : upright.length;
  auto section = lean_section(model, parts, place, lean, inside, upright.length, max_depth);
  if (!section) return {};
  const SectionPaths paths(std::move(*section));
  Tunnel tunnel = from_point ? paths.shortest_from(start) : paths.shortest();
  if (!tunnel.open || tunnel.length >= upright.length || !holds_together(lean, tunnel.path)) {
    return {};
  }
  const std::vector<Vec3> path = laid_out(place, {tunnel, lean});
  if (!ends_right(model, place, path, from_point)) return {};
  tunnel.depth = depth_of(model, path);
  return tunnel;
}

}  // namespace

std::vector<Vec3> laid_out(const StationPlace& place, const Dug& dug) {
  std::vector<Vec3> path;
  for (const Vec2& p : dug.tunnel.path)
    path.push_back(on_lean(place, dug.lean.value_or(Lean{}), p));
  return path;
}

Dug leaning(const Model& model, const BuriedParts& parts, const StationPlace& place,
            const Tunnel& upright, double max_depth, bool from_point) {
  constexpr int kRounds = 3;  // what it bends round moves a little as the halves lean
  Dug best{upright, {}};
  for (int round = 0; round < kRounds; ++round) {
    const std::size_t points = best.tunnel.path.size();
    if (!best.tunnel.open || points < (from_point ? 2U : 3U)) break;
    const Aim aim = aim_of(model, place, best, from_point);
    if (aim.gain <= kWorth * best.tunnel.length) break;
    Dug dug{search(model, parts, place, aim.lean, best.tunnel, kInfinity, from_point), aim.lean};
    if (dug.tunnel.open && dug.tunnel.depth > max_depth + kSlack) {
      dug.tunnel = search(model, parts, place, aim.lean, best.tunnel, max_depth, from_point);
    }
    if (!dug.tunnel.open) break;
    best = dug;
  }
  return best;
}

}  // namespace hummock::dig
