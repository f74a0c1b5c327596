#include "engine/keepers/way_in.h"

#include <algorithm>
#include <cmath>

#include "engine/findings/finding.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::keepers {
namespace {

constexpr double kCentimetre = 0.01;  // m, to which headroom is told

const Gate& gate_of(const Model& model, const Gateway& g) {
  return model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
}

Vec2 out_of(const Doorway& d) {
  return -left_of(geom::unit(d.b - d.a));
}

// The outermost door's.
Doorway outer_door(const Model& model, const Gateway& g) {
  const Gate& gate = gate_of(model, g);
  const Doorway at{g.a, g.b};
  const Vec2 out = out_of(at) * (gate.vestibule ? gate.vestibule->depth : 0.0);
  return {g.a + out, g.b + out};
}

double to_the_edge(const geom::Grid& g, Vec2 p) {
  return std::min({p.x - g.x0, g.x_max() - p.x, p.y - g.y0, g.y_max() - p.y});
}

// Of what stands in the way the fence itself is told last: it stands beside every way.
int rank(const Model& model, int part) {
  if (part < 0) return 0;
  const PartKind kind = model.parts[static_cast<std::size_t>(part)].kind;
  return kind == PartKind::panel || kind == PartKind::overhang ? 2 : kind == PartKind::vestibule;
}

std::string name_of(const Model& model, int part) {
  if (part == kGroundItself) return "the ground, too steep or a drop,";
  if (part == kWater) return "water";
  const Part& p = model.parts[static_cast<std::size_t>(part)];
  return "'" + p.name + "'";
}

// At most three, those met most first.
std::vector<std::string> names(const Model& model, const std::map<int, int>& in_the_way) {
  std::vector<std::pair<int, int>> list(in_the_way.begin(), in_the_way.end());
  std::stable_sort(list.begin(), list.end(), [&](const auto& a, const auto& b) {
    const int ra = rank(model, a.first), rb = rank(model, b.first);
    return ra != rb ? ra < rb : a.second > b.second;
  });
  constexpr std::size_t kMost = 3;
  std::vector<std::string> out;
  for (const auto& [part, times] : list) {
    const std::string name = name_of(model, part);
    const bool told = std::find(out.begin(), out.end(), name) != out.end();
    const bool worse = !out.empty() && rank(model, part) > rank(model, list.front().first);
    if (!told && !worse && out.size() < kMost) out.push_back(name);
  }
  return out;
}

std::vector<std::string> leaves_among(const Model& model, const std::map<int, int>& in_the_way) {
  std::vector<std::string> out;
  for (const auto& [part, times] : in_the_way) {
    if (part < 0) continue;
    const Part& p = model.parts[static_cast<std::size_t>(part)];
    const std::string name = "'" + p.name + "'";
    if (!p.blocks_body && std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
  }
  return out;
}

double to_centimetres(double metres) {
  return std::floor(metres / kCentimetre + 1e-6) / (1.0 / kCentimetre);
}

// How high the head may be held, to a centimetre: `low` it may, `high` not.
double headroom_between(const Yard& yard, const Doorway& from, Errand errand, double low,
                        double high) {
  while (high - low > 0.25 * kCentimetre) {
    errand.height = 0.5 * (low + high);
    (walk_from(yard, from, errand).found == Found::yes ? low : high) = errand.height;
  }
  return to_centimetres(low);
}

// Upright or bent, past leaves or through them: the first that goes.
Stretch stretch(const Yard& yard, const Doorway& from, Errand errand) {
  Stretch out;
  std::vector<std::string> leaves;
  for (const double height : {kUpright, kStooped})
    for (const Leaves how : {Leaves::closed, Leaves::open}) {
      if (how == Leaves::open && leaves.empty()) continue;
      errand.height = height;
      errand.leaves = how;
      const Walk walk = walk_from(yard, from, errand);
      if (how == Leaves::closed) leaves = leaves_among(yard.model, walk.in_the_way);
      if (walk.found == Found::no) continue;
      out.goes = true;
      out.unseen = walk.found == Found::unknown;
      if (how == Leaves::open) out.leaves = leaves;
      if (height < kUpright)
        out.headroom_m = headroom_between(yard, from, errand, kStooped, kUpright);
      return out;
    }
  const double lowest = errand.walker.riser + 2.0 * kCentimetre;
  errand.height = lowest;
  errand.leaves = Leaves::open;
  const Walk walk = walk_from(yard, from, errand);
  const bool goes = walk.found == Found::yes;
  out.headroom_m = goes ? headroom_between(yard, from, errand, lowest, kStooped) : 0.0;
  if (!goes) out.in_the_way = names(yard.model, walk.in_the_way);
  return out;
}

Errand errand_of(const Walker& walker) {
  Errand errand;
  errand.walker = walker;
  return errand;
}

// From a doorway out to the edge of the modelled ground; `shut`: plans that are not gone into.
Stretch outwards(const Yard& yard, const Doorway& from, Errand errand,
                 const std::vector<Polygon>& shut) {
  const geom::Grid& g = yard.model.ground.grid;
  const Vec2 out = out_of(from);
  const double seen = errand.walker.width;
  const bool modelled = geom::covers(yard.model.ground, lerp(from.a, from.b, 0.5) + out * seen);
  errand.may_be = [&](Vec2 p) {
    return std::none_of(shut.begin(), shut.end(),
                        [&](const Polygon& plan) { return geom::contains(plan, p); });
  };
  // Where the ground ends before the door, things may still be drawn there.
  errand.left = [&, out](Vec2 p) {
    return modelled ? to_the_edge(g, p) - kApart : seen - dot(p - from.a, out);
  };
  Stretch way = stretch(yard, from, errand);
  way.unseen = way.unseen || (way.goes && !modelled);
  return way;
}

// How far from the fence a place straight behind the middle of the gate is at most, m.
double room_behind(const Polygon& outline, const Gateway& g) {
  const Vec2 from = lerp(g.a, g.b, 0.5), in = left_of(geom::unit(g.b - g.a));
  double most = 0.0;
  for (double s = kApart; most < kBehind && geom::contains(outline, from + in * s); s += kApart)
    most = std::max(most, geom::distance_to_edges(outline, from + in * s));
  return most;
}

// From the outermost doorway to well within the yard.
Stretch inwards(const Yard& yard, const Doorway& from, const Gateway& g, Errand errand) {
  constexpr double kShare = 0.5;  // of the room there is; common practice, no source
  const Polygon& outline = yard.model.outline;
  const Vec2 out = out_of(from);
  const double asked = std::min(kBehind, kShare * room_behind(outline, g));
  errand.may_be = [&, out](Vec2 p) { return dot(p - from.a, out) <= 1e-9; };
  errand.left = [&, asked](Vec2 p) {
    const double off = geom::distance_to_edges(outline, p);
    return geom::contains(outline, p) ? asked - off : asked + off;
  };
  Stretch within = stretch(yard, from, errand);
  if (within.goes || within.headroom_m > 0.0) return within;
  // A pool or a rock may take the middle of a small yard: then along the fence, upright.
  errand.left = [&](Vec2 p) {
    const double off = geom::distance_to_segment(p, g.a, g.b);
    return geom::contains(outline, p) ? kAlong - off : kAlong + off;
  };
  if (walk_from(yard, from, errand).found == Found::no) return within;
  Stretch along;
  along.goes = true;
  return along;
}

// From the gate through the house right behind it to that house's door.
Stretch across(const Yard& yard, const Gateway& g, const barrier::HouseWay& door, Errand errand) {
  const House& house = yard.model.site.houses[static_cast<std::size_t>(door.house)];
  errand.may_be = [&](Vec2 p) { return geom::contains(house.outline, p); };
  errand.left = [&](Vec2 p) {
    return geom::distance_to_segment(p, door.a, door.b) - 0.5 * errand.walker.width - kApart;
  };
  return stretch(yard, {g.a, g.b}, errand);
}

std::vector<int> parts_of(const Model& model, const std::vector<int>& houses) {
  std::vector<int> parts;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    const bool its = std::find(houses.begin(), houses.end(), part.source) != houses.end();
    if (part.kind == PartKind::house && its) parts.push_back(static_cast<int>(k));
  }
  return parts;
}

// The worse of two stretches that are walked one after the other.
Stretch together(const Stretch& a, const Stretch& b) {
  Stretch out = a.goes ? b : a;
  if (a.goes == b.goes) out.headroom_m = std::min(a.headroom_m, b.headroom_m);
  out.unseen = a.unseen || b.unseen;
  out.leaves.clear();
  for (const Stretch* s : {&a, &b})
    out.leaves.insert(out.leaves.end(), s->leaves.begin(), s->leaves.end());
  return out;
}

// From outside by the first door that people come in by, as one stretch.
Stretch through_houses(const Yard& yard, const Gateway& g, const std::vector<int>& houses,
                       const Errand& errand) {
  Stretch out;
  out.headroom_m = 0.0;
  for (const int house : houses) {
    const std::optional<barrier::HouseWay> door = door_outside(yard.model, house);
    if (!door || out.goes) continue;
    const WayIn way = way_to_door(yard, *door, errand.walker);
    out = together(way.outside, way.through);
    const Vec2 behind = lerp(g.a, g.b, 0.5) + out_of({g.a, g.b}) * barrier::kBeyondWall;
    const House& own = yard.model.site.houses[static_cast<std::size_t>(house)];
    if (geom::contains(own.outline, behind)) out = together(out, across(yard, g, *door, errand));
  }
  return out;
}

}  // namespace

std::vector<int> houses_behind(const Model& model, const Gateway& g) {
  if (model.site.houses.empty() || gate_of(model, g).vestibule) return {};
  const Doorway at{g.a, g.b};
  const barrier::Space space =
      barrier::space_at(model, lerp(at.a, at.b, 0.5) + out_of(at) * barrier::kBeyondWall);
  if (space.kind != barrier::SpaceKind::house) return {};
  std::vector<barrier::HouseWay> doors = barrier::house_ways(model);
  std::erase_if(doors, [](const barrier::HouseWay& w) { return w.vent >= 0; });
  const std::vector<int> rooms = barrier::rooms_of(model, doors);
  std::vector<int> out;
  for (std::size_t h = 0; h < rooms.size(); ++h)
    if (rooms[h] == rooms[static_cast<std::size_t>(space.index)])
      out.push_back(static_cast<int>(h));
  return out;
}

std::optional<barrier::HouseWay> door_outside(const Model& model, int house) {
  for (const barrier::HouseWay& w : barrier::house_ways(model))
    if (w.house == house && w.vent < 0 && w.beyond.kind == barrier::SpaceKind::outside) return w;
  return std::nullopt;
}

WayIn way_in(const Yard& yard, const Gateway& gateway, const Walker& walker) {
  const Model& model = yard.model;
  const std::vector<int> houses = houses_behind(model, gateway);
  Errand errand = errand_of(walker);
  errand.left_out.parts = parts_of(model, houses);
  for (const int leaf : {gateway.leaf_part, gateway.second_leaf_part})
    if (leaf >= 0) errand.left_out.parts.push_back(leaf);
  const Doorway outer = outer_door(model, gateway);
  WayIn way;
  if (outer.width() < walker.width - kCentimetre) {
    way.through.headroom_m = 0.0;
    way.through.in_the_way = {"its width of " + plain_figure(outer.width()) + " m"};
  } else {
    way.through = inwards(yard, outer, gateway, errand);
  }
  if (houses.empty()) {
    const Polygon own{gateway.a, gateway.b, outer.b, outer.a};
    way.outside = outwards(yard, outer, errand, {model.outline, own});
  } else {
    way.outside = through_houses(yard, gateway, houses, errand);
  }
  return way;
}

WayIn way_to_door(const Yard& yard, const barrier::HouseWay& door, const Walker& walker) {
  const Model& model = yard.model;
  const House& house = model.site.houses[static_cast<std::size_t>(door.house)];
  Errand errand = errand_of(walker);
  errand.left_out.parts = parts_of(model, {door.house});
  WayIn way;
  way.outside = outwards(yard, {door.a, door.b}, errand, {model.outline, house.outline});
  const double wide = geom::distance(door.a, door.b);
  const double high = std::min({door.top - door.sill, house.height, kUpright});
  way.through.headroom_m = to_centimetres(high);
  const bool room = wide >= walker.width - kCentimetre && door.above_soil <= walker.riser;
  way.through.goes = room && high >= kStooped - 1e-9;
  if (!room) {
    way.through.headroom_m = 0.0;
    way.through.in_the_way = {door.above_soil > walker.riser
                                  ? "its sill of " + plain_figure(door.above_soil) + " m"
                                  : "its width of " + plain_figure(wide) + " m"};
  }
  return way;
}

}  // namespace hummock::keepers
