#include "engine/barrier/house_ways.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/disjoint_sets.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::barrier {

namespace {

struct Fence {
  std::vector<std::array<Vec2, 2>> panels;

  explicit Fence(const Model& model) {
    for (const Chain& chain : barrier_of(model).chains)
      for (const Stretch& s : chain.stretches)
        if (s.kind == StretchKind::panel || s.kind == StretchKind::vestibule_wall)
          panels.push_back({s.a, s.b});
  }
  bool stands_at(Vec2 p) const {
    return std::any_of(panels.begin(), panels.end(), [&](const auto& s) {
      return geom::distance_to_segment(p, s[0], s[1]) < kBeyondWall;
    });
  }
};

// An opening on its wall.
struct Hole {
  const WallOpening& drawn;
  Vec2 start, along, out;
  bool turned = false;  // the outline runs clockwise

  Hole(const House& house, const WallOpening& opening) : drawn(opening) {
    turned = geom::signed_area(house.outline) < 0.0;
    const auto e = static_cast<std::size_t>(opening.edge) % house.outline.size();
    start = house.outline[e];
    along = geom::unit(house.outline[(e + 1) % house.outline.size()] - start);
    out = left_of(along) * (turned ? 1.0 : -1.0);
  }
  Vec2 at(double s) const { return start + along * s; }
};

HouseWay piece(const Hole& hole, double from, double to) {
  HouseWay way;
  way.from = from;
  way.to = to;
  way.a = hole.at(hole.turned ? to : from);
  way.b = hole.at(hole.turned ? from : to);
  return way;
}

// What passes and how high it lies, once its ends are known.
void finish(const Model& model, const Hole& hole, HouseWay& way) {
  const Vec2 middle = hole.at(hole.drawn.from + 0.5 * hole.drawn.width);
  way.sill = geom::height_at(model.ground, middle) - model.snow + hole.drawn.sill;
  way.top = way.sill + hole.drawn.height;
  way.grille = hole.drawn.aperture > 0.0;
  way.ball = std::min(way.to - way.from, hole.drawn.height);
  if (way.grille) way.ball = std::min(way.ball, hole.drawn.aperture);
}

std::vector<HouseWay> cut(const Model& model, const Fence& fence, int house, int vent) {
  const House& h = model.site.houses[static_cast<std::size_t>(house)];
  const Hole hole(h, vent < 0 ? *h.door : h.vents[static_cast<std::size_t>(vent)]);
  const WallOpening& drawn = hole.drawn;
  const int n = std::max(1, static_cast<int>(std::ceil(drawn.width / kWayStep)));
  std::vector<HouseWay> ways;
  for (int k = 0; k < n; ++k) {
    const double from = drawn.from + drawn.width * k / n;
    const double to = drawn.from + drawn.width * (k + 1) / n;
    const Vec2 middle = hole.at(0.5 * (from + to));
    const Space beyond = space_at(model, middle + hole.out * kBeyondWall);
    const bool fenced = fence.stands_at(middle);
    const bool same = !ways.empty() && ways.back().beyond == beyond && ways.back().fenced == fenced;
    HouseWay way = piece(hole, same ? ways.back().from : from, to);
    if (same) ways.pop_back();
    way.house = house;
    way.vent = vent;
    way.fenced = fenced;
    way.beyond = beyond;
    ways.push_back(way);
  }
  for (HouseWay& way : ways) finish(model, hole, way);
  return ways;
}

}  // namespace

std::vector<HouseWay> house_ways(const Model& model) {
  std::vector<HouseWay> ways;
  if (model.site.houses.empty()) return ways;
  const Fence fence(model);
  for (int h = 0; h < static_cast<int>(model.site.houses.size()); ++h) {
    const House& house = model.site.houses[static_cast<std::size_t>(h)];
    for (int v = house.door ? -1 : 0; v < static_cast<int>(house.vents.size()); ++v) {
      const std::vector<HouseWay> of_it = cut(model, fence, h, v);
      ways.insert(ways.end(), of_it.begin(), of_it.end());
    }
  }
  return ways;
}

std::vector<HouseWay> open_ways(const Model& model, double opening) {
  std::vector<HouseWay> ways = house_ways(model);
  std::erase_if(ways, [&](const HouseWay& w) { return w.fenced || w.ball < opening; });
  return ways;
}

std::vector<int> rooms_of(const Model& model, const std::vector<HouseWay>& ways) {
  geom::DisjointSets houses(model.site.houses.size());
  for (const HouseWay& way : ways) {
    if (way.beyond.kind != SpaceKind::house) continue;
    houses.join(static_cast<std::size_t>(way.house), static_cast<std::size_t>(way.beyond.index));
  }
  std::vector<int> room(houses.size());
  int next = 0;
  for (std::size_t h = 0; h < room.size(); ++h) {
    const std::size_t first = houses.root(h);  // the smallest of them: its room has its number
    room[h] = first == h ? next++ : room[first];
  }
  return room;
}

}  // namespace hummock::barrier
