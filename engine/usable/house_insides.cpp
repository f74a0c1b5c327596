#include "engine/usable/house_insides.h"

#include <algorithm>
#include <cmath>

#include "engine/usable/disc_places.h"
#include "geometry/disjoint_sets.h"
#include "geometry/plan/polygon.h"
#include "geometry/rays/within_faces.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::usable {
namespace {

constexpr double kMostPlaces = 2e5;  // in one house; numeric, a limit of work

double step_in(const Polygon& outline, double width) {
  const geom::Box2 box = geom::bounds(outline);
  const Vec2 span = box.hi - box.lo;
  return std::max(std::sqrt(span.x * span.y / kMostPlaces), std::min(kInside, 0.25 * width));
}

bool overlap(const geom::Box3& a, const geom::Box2& b) {
  return a.lo.x < b.hi.x && b.lo.x < a.hi.x && a.lo.y < b.hi.y && b.lo.y < a.hi.y;
}

// Which of the parts are objects that may stand in the house, one a part; none: empty.
std::vector<std::uint8_t> things_in(const Model& model, const House& house) {
  std::vector<std::uint8_t> in;
  const geom::Box2 box = geom::bounds(house.outline);
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.kind != PartKind::object || !part.closed || part.mesh.empty()) continue;
    if (!overlap(geom::bounds(part.mesh), box)) continue;
    in.resize(model.parts.size(), 0);
    in[k] = 1;
  }
  return in;
}

// Its parts are numbered from `first` on.
DiscPlaces inside_of(const Model& model, const House& house, std::vector<PlanLine> lines,
                     const Body& body, int first) {
  const std::vector<std::uint8_t> things = things_in(model, house);
  for (std::size_t k = 0; k < house.outline.size(); ++k)
    lines.push_back({house.outline[k], house.outline[(k + 1) % house.outline.size()]});
  const auto in_a_thing = [&](Vec2 p) {
    if (things.empty() || !model.body_scene) return false;
    const double up = geom::height_at(model.ground, p) + 0.5 * body.crouch;
    return geom::within_faces(*model.body_scene, at_height(p, up), [&](const geom::Hit& hit) {
      return hit.id != kGroundId && things[static_cast<std::size_t>(hit.id)] != 0;
    });
  };
  return disc_places(house.outline, lines, 0.5 * body.width - 1e-6,
                     step_in(house.outline, body.width), first, in_a_thing);
}

// The part of the place nearest to p, within half a body's width and a cell.
int part_near(const DiscPlaces& in, Vec2 p, double width) {
  const geom::Grid& g = in.grid;
  double least = 0.5 * width + 1.5 * g.cell;
  int part = kNone;
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const double off = geom::distance(g.node(i, j), p);
      if (in.part[g.index(i, j)] == kNone || off >= least) continue;
      least = off;
      part = in.part[g.index(i, j)];
    }
  return part;
}

int largest_part(const DiscPlaces& in, int first) {
  std::vector<int> nodes(static_cast<std::size_t>(in.next - first), 0);
  for (const int part : in.part)
    if (part != kNone) ++nodes[static_cast<std::size_t>(part - first)];
  const auto most = std::max_element(nodes.begin(), nodes.end());
  return most == nodes.end() ? kNone : first + static_cast<int>(most - nodes.begin());
}

class Parter {
 public:
  Parter(const Model& model, const Body& body) : width_(body.width) {
    const std::vector<PlanLine> things =
        thing_lines(model, kSteppedOver * body.crouch, body.crouch);
    for (const House& house : model.site.houses) {
      const int first = parts_;
      insides_.push_back(inside_of(model, house, things, body, first));
      parts_ = insides_.back().next;
      main_.push_back(largest_part(insides_.back(), first));
      if (main_.back() == kNone) main_.back() = parts_++;
    }
  }

  int parts() const { return parts_; }
  const std::vector<int>& main() const { return main_; }
  int at(int house, Vec2 p) const {
    return part_near(insides_[static_cast<std::size_t>(house)], p, width_);
  }

  // Both sides of a hatch, as far from its ends as a body is wide.
  void join(const barrier::HouseWay& way, geom::DisjointSets& sets) const {
    const double wide = geom::distance(way.a, way.b);
    if (!(wide > 0.0)) return;
    const Vec2 in = geom::left_of((way.b - way.a) * (1.0 / wide)) * (0.5 * width_);
    const double spare = std::max(0.0, wide - width_) / wide;
    const int n = 1 + static_cast<int>(std::ceil(spare * wide / kInside));
    for (int k = 0; k <= n; ++k) {
      const double share = 0.5 - 0.5 * spare + spare * k / n;
      const Vec2 p = geom::lerp(way.a, way.b, share);
      const int a = at(way.house, p + in), b = at(way.beyond.index, p - in);
      if (a != kNone && b != kNone)
        sets.join(static_cast<std::size_t>(a), static_cast<std::size_t>(b));
    }
  }

 private:
  double width_;
  int parts_ = 0;
  std::vector<DiscPlaces> insides_;
  std::vector<int> main_;  // of each house
};

}  // namespace

void part_rooms(const Model& model, const Body& body, const std::vector<barrier::HouseWay>& ways,
                HouseDoors& doors) {
  if (model.site.houses.empty() || !(body.width > 0.0)) return;
  const Parter parter(model, body);
  geom::DisjointSets sets(static_cast<std::size_t>(parter.parts()));
  for (const barrier::HouseWay& way : ways)
    if (way.beyond.kind == barrier::SpaceKind::house) parter.join(way, sets);
  const auto room = [&](int part) {
    return static_cast<int>(sets.root(static_cast<std::size_t>(part)));
  };
  std::erase_if(doors.spots,
                [&](const DoorSpot& s) { return parter.at(s.house, s.within) == kNone; });
  for (DoorSpot& spot : doors.spots) spot.room = room(parter.at(spot.house, spot.within));
  for (std::size_t h = 0; h < doors.room_of.size(); ++h) doors.room_of[h] = room(parter.main()[h]);
  doors.rooms = parter.parts();
}

}  // namespace hummock::usable
