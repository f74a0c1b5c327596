#include "engine/dig/station_tunnels.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/dig/lean_tunnels.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::dig {

namespace {

constexpr double kShaftStep = 0.1;       // m
constexpr double kShaftEnough = 2.5e-3;  // m, of a shaft looked at closer

struct View {
  double inside, outside;
};

View view(const Limits& limits, double reach) {
  return {std::min(reach, limits.inside), std::min(reach, limits.outside)};
}

struct Looked {
  double least_depth = 0.0;
  Tunnel tunnel;
  JoinedReach joined;
};

// A section cut short loses tunnels that start or end farther from the fence than `near`, never one
// shorter than this. From the farthest place on a bank of what is joined to the fence's foot, E,
// draw a line up to the ground: with the ground and what joins E to the fence it closes a region.
// A tunnel that starts on that bank starts beyond E, or in the region and leaves it through that
// line: so it comes at least from as far as E to the fence, and then as far as `near`.
double least_lost(const Looked& look, const Limits& limits, double near) {
  const double outside = limits.outside > near ? near + look.joined.to_x : kInfinity;
  const double inside = limits.inside > near ? near - look.joined.from_x : kInfinity;
  return std::min(outside, inside);
}

bool wide_enough(const Looked& look, const Limits& limits, double near) {
  return look.tunnel.open && look.tunnel.length <= least_lost(look, limits, near);
}

bool is_shut(const Looked& look, double max_depth) {
  return look.least_depth > max_depth || std::isinf(look.least_depth);
}

// Does what is buried run on where the section was cut short?
bool runs_on(const VerticalSection& section, const Limits& limits, double near) {
  const double lo = limits.outside > near ? section.ground.front().x : -1e300;
  const double hi = limits.inside > near ? section.ground.back().x : 1e300;
  return std::any_of(section.pieces.begin(), section.pieces.end(), [&](const Piece& p) {
    return std::min(p.a.x, p.b.x) < lo || std::max(p.a.x, p.b.x) > hi;
  });
}

// How far is looked, as shares of the first whole look; up to it the points of the ground are its
// own.
constexpr double kLooks[] = {0.15, 0.3, 0.6, 1.0, 1.5, 2.0, 3.0, 4.5, 6.0, 8.0};

// Is the look far enough? `runs_on`: what is buried, when it is cut short.
bool is_enough(const Looked& look, const Limits& limits, double max_depth, double near,
               double first, bool runs_on) {
  if (runs_on && near < first) return false;
  return is_shut(look, max_depth) || wide_enough(look, limits, near);
}

// As far as no shorter tunnel can have been lost; and the least depth is that of all that is
// joined, so look on where what is buried runs on, at least as far as the first whole look.
Looked look_at(const Model& model, const BuriedParts& parts, const StationPlace& place,
               const Limits& limits, double max_depth) {
  const double first = 0.3 + parts.widest() + 2.0 * parts.deepest();
  double wanted = 0.0;  // m, nearer than that is in vain
  for (const double share : kLooks) {
    const double near = share * first;
    const bool whole = near >= limits.inside && near >= limits.outside;
    const bool last = share == kLooks[std::size(kLooks) - 1] || whole;
    if (near < wanted && !last) continue;
    const View v = view(limits, std::max(near, first));
    VerticalSection section = section_at(model, parts, place, v.inside, v.outside, near);
    const bool on = runs_on(section, limits, near);
    // A long tunnel goes round what runs on: only the nearest look may find a short one.
    if (on && !last && share > kLooks[0] && wanted != first) continue;
    const SectionPaths paths(std::move(section));
    Looked look{paths.least_depth(), paths.shortest(max_depth), paths.joined()};
    if (last || is_enough(look, limits, max_depth, near, first, on)) return look;
    // What is buried ends well within the first look, so a way not open at twice that stays shut:
    // near a corner the aprons of both edges cover all the ground inside.
    if (!look.tunnel.open && share >= 2.0) return look;
    wanted = wide_enough(look, limits, near) ? first : look.tunnel.length;
  }
  return {};
}

}  // namespace

std::string weakness_in_words(const Tunnel& tunnel, const StationPlace& place) {
  if (!tunnel.open) return "closed by rock, liner or the neighbouring edge";
  std::uint32_t all = 0;
  std::string apron;
  for (std::size_t k = 0; k < tunnel.bends.size(); ++k) {
    all |= tunnel.bends[k];
    if ((tunnel.bends[k] & kApron) == 0 || (tunnel.bends[k] & (kSkirt | kFooting)) != 0) continue;
    apron = tunnel.path[k + 1].x > 0.0 ? "round the apron's inner edge"
                                       : "round the apron's outer edge";
  }
  const char* under = nullptr;
  if ((all & kSkirt) != 0) under = "under the skirt";
  if ((all & kFooting) != 0) under = "under the footing";
  if (under == nullptr && (all & (kPanel | kGate)) != 0) under = "under the panel's foot";
  std::string words = apron;
  if (under != nullptr) words += (words.empty() ? "" : " and ") + std::string(under);
  if ((all & kRock) != 0) words += ", close over the rock";
  if (!words.empty()) return words;
  if (place.house >= 0) return "under the house wall, nothing known to be buried";
  if (place.gateway >= 0) return "under the gate, no footing";
  return "nothing is buried here";
}

Station measure_station(const Model& model, const BuriedParts& parts, const StationPlace& place,
                        bool with_tunnel) {
  const double dig_depth = model.site.species.dig_depth.value;
  Station station;
  station.at = place.plane.at;
  station.section = place.section;
  station.thing = thing_at(model, place);
  station.way_out = place.way_out;
  if (place.house >= 0 && model.site.houses[static_cast<std::size_t>(place.house)].solid_floor) {
    station.closed = true;
    station.least_depth_m = station.least_length_m = std::numeric_limits<double>::infinity();
    station.weakness = "closed by the house's solid floor";
    station.tunnel_depth_m = station.tunnel_length_m = station.least_length_m;
    return station;
  }
  const Limits limits = limits_at(model, place);
  const Looked look = look_at(model, parts, place, limits, std::numeric_limits<double>::infinity());
  const Dug least = leaning(model, parts, place, look.tunnel);
  const Tunnel& shortest = least.tunnel;
  station.least_depth_m = look.least_depth;
  station.closed = !shortest.open;
  station.least_length_m =
      shortest.open ? shortest.length : std::numeric_limits<double>::infinity();
  if (station.closed) station.least_depth_m = std::numeric_limits<double>::infinity();
  station.depth_of_shortest_m = shortest.depth;
  Dug dug = least;
  if (shortest.open && shortest.depth > dig_depth + 1e-9 && look.least_depth <= dig_depth) {
    const Looked shallow = look_at(model, parts, place, limits, dig_depth);
    if (shallow.tunnel.open) dug = leaning(model, parts, place, shallow.tunnel, dig_depth);
  }
  const Tunnel& counts = dug.tunnel;
  if (counts.open && counts.depth <= dig_depth + 1e-9) {
    station.length_within_depth_m = counts.length;
  }
  station.fails = place.way_out && dig_depth > 0.0 && station.length_within_depth_m &&
                  model.site.species.dig_length.value > 0.0 &&
                  *station.length_within_depth_m <= model.site.species.dig_length.value;
  station.tunnel_depth_m = counts.open ? counts.depth : station.least_depth_m;
  station.tunnel_length_m = counts.open ? counts.length : station.least_length_m;
  station.askew = place.folded;
  station.leans = least.lean.has_value();
  station.weakness = weakness_in_words(counts, place);
  if (place.folded) station.weakness += ", sideways past the end of what is buried beside it";
  if (with_tunnel) station.tunnel = laid_out(place, dug);
  return station;
}

Tunnel from_burrow(const Model& model, const BuriedParts& parts, const StationPlace& place,
                   const Shaft& shaft, double max_depth, bool closer) {
  const Limits limits = limits_at(model, place);
  const double x = shaft.x;
  const Vec2 wall = place.plane.at + place.plane.inwards * x;
  const double top = geom::height_at(model.ground, wall) - model.snow;
  const double depth = std::max(shaft.depth, top - shaft.floor);
  const View v = view(limits, x + depth + 0.3 + parts.widest() + 2.0 * parts.deepest());
  const SectionPaths paths(
      section_at(model, parts, place, std::max(v.inside, x + 0.01), v.outside));
  const double deepest = std::max(max_depth, depth);
  Tunnel best;
  double from_depth = 0.0;  // m, of the best
  const auto look = [&](double down) {
    if (down < 0.0 || down > depth) return;
    const Tunnel upright = paths.shortest_from({x, top - down}, deepest);
    const Dug dug = leaning(model, parts, place, upright, deepest, true);
    if (!dug.tunnel.open || (best.open && dug.tunnel.length >= best.length)) return;
    best = dug.tunnel;
    from_depth = down;
  };
  const int steps = std::max(1, static_cast<int>(std::ceil(depth / kShaftStep - 1e-9)));
  for (int k = 0; k <= steps; ++k) look(depth * k / steps);
  for (double step = 0.5 * depth / steps; closer && best.open && step > kShaftEnough; step *= 0.5) {
    const double about = from_depth;
    look(about - step);
    look(about + step);
  }
  return best;
}

}  // namespace hummock::dig
