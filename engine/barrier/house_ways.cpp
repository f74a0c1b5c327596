#include "engine/barrier/house_ways.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/shared_plans.h"
#include "geometry/disjoint_sets.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::barrier {

namespace {

// An opening on its wall.
struct Hole {
  const WallOpening& drawn;
  Vec2 start, along, out;
  bool turned = false;  // the outline runs clockwise
  double soil = 0.0;    // m above datum, before its middle

  Hole(const Model& model, const House& house, const WallOpening& opening) : drawn(opening) {
    turned = geom::signed_area(house.outline) < 0.0;
    const auto e = static_cast<std::size_t>(opening.edge) % house.outline.size();
    start = house.outline[e];
    along = geom::unit(house.outline[(e + 1) % house.outline.size()] - start);
    out = left_of(along) * (turned ? 1.0 : -1.0);
    soil = geom::height_at(model.ground, at(drawn.from + 0.5 * drawn.width)) - model.snow;
  }
  Vec2 at(double s) const { return start + along * s; }
  double sill() const { return soil + drawn.sill; }
  double top() const { return sill() + drawn.height; }
};

// A way while it is cut: what lies before it, from where to where along the wall.
struct Piece {
  Slit slit;
  double from = 0.0, to = 0.0;
};

// Goes on with the piece that ends where the slit begins and leads as it does; as low and as high
// as any of its slits.
void join(std::vector<Piece>& pieces, const Slit& slit, double from, double to) {
  for (Piece& piece : pieces) {
    if (piece.to != from || !(piece.slit.before == slit.before)) continue;
    piece.slit.low = std::min(piece.slit.low, slit.low);
    piece.slit.high = std::max(piece.slit.high, slit.high);
    piece.to = to;
    return;
  }
  pieces.push_back({slit, from, to});
}

HouseWay way_of(const Model& model, const Hole& hole, const Piece& piece) {
  const auto& [slit, from, to] = piece;
  HouseWay way;
  way.from = from;
  way.to = to;
  way.a = hole.at(hole.turned ? to : from);
  way.b = hole.at(hole.turned ? from : to);
  way.sill = slit.low;
  way.top = slit.high;
  way.hole_sill = hole.sill();
  way.above_soil = hole.drawn.sill;
  way.whole = slit.low == hole.sill() && slit.high == hole.top();
  way.height = way.whole ? hole.drawn.height : slit.high - slit.low;
  way.beyond = slit.before.beyond;
  way.fenced = slit.before.fenced;
  way.above_roof = slit.before.above_roof;
  way.drain = slit.before.drain;
  way.aperture = hole.drawn.aperture;
  if (way.drain >= 0) {
    const double own = model.site.boundary.drains[static_cast<std::size_t>(way.drain)].aperture;
    if (own > 0.0 && (way.aperture <= 0.0 || own < way.aperture)) way.aperture = own;
  }
  way.grille = way.aperture > 0.0;
  way.ball = std::min(to - from, way.height);
  if (way.grille) way.ball = std::min(way.ball, way.aperture);
  return way;
}

std::vector<HouseWay> cut(const Model& model, const BeforeWalls& before, int house, int vent) {
  const House& h = model.site.houses[static_cast<std::size_t>(house)];
  const Hole hole(model, h, vent < 0 ? *h.door : h.vents[static_cast<std::size_t>(vent)]);
  const WallOpening& drawn = hole.drawn;
  const int n = std::max(1, static_cast<int>(std::ceil(drawn.width / kWayStep)));
  std::vector<Piece> pieces;
  for (int k = 0; k < n; ++k) {
    const double from = drawn.from + drawn.width * k / n;
    const double to = drawn.from + drawn.width * (k + 1) / n;
    const Vec2 middle = hole.at(0.5 * (from + to));
    for (const Slit& slit : before.slits(middle, hole.out, hole.sill(), hole.top()))
      join(pieces, slit, from, to);
  }
  std::vector<HouseWay> ways;
  for (const Piece& piece : pieces) {
    ways.push_back(way_of(model, hole, piece));
    ways.back().house = house;
    ways.back().vent = vent;
  }
  return ways;
}

}  // namespace

std::vector<HouseWay> house_ways(const Model& model) {
  std::vector<HouseWay> ways;
  if (model.site.houses.empty()) return ways;
  const BeforeWalls before(model);
  for (int h = 0; h < static_cast<int>(model.site.houses.size()); ++h) {
    const House& house = model.site.houses[static_cast<std::size_t>(h)];
    for (int v = house.door ? -1 : 0; v < static_cast<int>(house.vents.size()); ++v) {
      const std::vector<HouseWay> of_it = cut(model, before, h, v);
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

std::vector<int> rooms_of(const Model& model, const std::vector<HouseWay>& ways,
                          SharedPlans shared) {
  geom::DisjointSets houses(model.site.houses.size());
  for (const HouseWay& way : ways) {
    if (way.beyond.kind != SpaceKind::house) continue;
    houses.join(static_cast<std::size_t>(way.house), static_cast<std::size_t>(way.beyond.index));
  }
  if (shared == SharedPlans::joined) {
    for (const auto& [a, b] : shared_plans(model))
      houses.join(static_cast<std::size_t>(a), static_cast<std::size_t>(b));
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
