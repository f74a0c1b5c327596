#include <tbb/task_arena.h>

#include <algorithm>
#include <deque>
#include <map>

#include "engine/leap/holds/hang_together.h"
#include "engine/leap/holds/room_to_hold.h"
#include "engine/leap/places/narrow_crest.h"
#include "engine/leap/places/part_pieces.h"
#include "engine/leap/places/part_rules.h"
#include "engine/leap/places/roof_slots.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

Across across_of(const PlaceRules& rules) {
  return {std::max(rules.body.reach, rules.resolution), rules.ability.height};
}

// m, free before a face that it clings to.
double squeeze_of(const PlaceRules& rules) {
  return std::min(rules.body.crouch, rules.least_opening);
}

// What of one part's pieces can be used, gathered by patch.
class UsablePieces {
 public:
  UsablePieces(const Model& model, int part, const PlaceRules& rules)
      : model_(model),
        part_(model.parts[static_cast<std::size_t>(part)]),
        number_(part),
        rules_(rules),
        across_(across_of(rules)),
        snow_(part_.closed || part_.kind == PartKind::roof ? snow_depth(model) : 0.0) {}

  // Whether limb and leap told what of it hangs together.
  bool asked_across() const { return asked_across_; }

  std::vector<PatchPtr> of(std::deque<LaidPiece> pieces) {
    std::map<std::uint32_t, Gathered> patches;
    std::map<std::uint32_t, Rims> rims;
    for (; !pieces.empty(); pieces.pop_front()) {
      LaidPiece& laid = pieces.front();
      const bool shut = shut_beside(laid);
      if (laid.spot.hook && (shut || well_inside(xy(laid.spot.at)))) {
        ++(shut ? rims[laid.patch].shut : rims[laid.patch].free);
      }
      const Lies lies = where(laid.spot);
      Gathered& patch = patches[laid.patch];
      if (lies == Lies::behind_the_fence || !find_usable(laid) || shut) {
        patch.covered.push_back(laid.spot.cell);
        continue;
      }
      lay_snow(laid.spot);
      patch.holds.push_back({laid.spot, laid.probe, laid.normal});
      patch.beyond.push_back(lies == Lies::beyond);
    }
    std::vector<PatchPtr> result;
    for (const auto& [id, patch] : patches) {
      if (patch.holds.empty() || (rims[id].shut > 0 && rims[id].free == 0)) continue;
      lay_patches(patch, result);
    }
    return result;
  }

 private:
  struct Gathered {
    std::vector<Hold> holds;
    std::vector<char> beyond;         // of each: beyond the outline
    std::vector<geom::Box3> covered;  // cells of its pieces that cannot be used
  };

  enum class Lies { inside, behind_the_fence, beyond };

  // Outside the outline below the fence's top nothing is come to; nor is a face on its line, which
  // the fence lies against.
  Lies where(const SurfacePiece& spot) const {
    if (!holds_weight(part_) || geom::contains(model_.outline, xy(spot.at))) return Lies::inside;
    const bool on_line = geom::distance_to_edges(model_.outline, xy(spot.at)) <= 0.01;
    if (on_line && !spot.cling) return Lies::inside;
    if (spot.at.z < barrier_top_near(xy(spot.at))) return Lies::behind_the_fence;
    return on_line ? Lies::inside : Lies::beyond;
  }

  // What can be used of a patch may fall into several.
  void lay_patches(const Gathered& of, std::vector<PatchPtr>& out) {
    std::map<std::size_t, std::shared_ptr<Patch>> parts;
    geom::DisjointSets sets = parts_of(of);
    for (std::size_t k = 0; k < of.holds.size(); ++k) {
      auto& patch = parts[sets.size() > 0 ? sets.root(k) : 0];
      if (!patch) {
        patch = std::make_shared<Patch>();
        patch->kind = PatchKind::thing;
        patch->part = number_;
        patch->name = part_.name;
      }
      if (of.beyond[k] != 0) patch->exit = ExitKind::beyond;
      patch->pieces.push_back(of.holds[k].piece);
    }
    for (const auto& [first, patch] : parts) {
      build_tree(*patch);
      out.push_back(patch);
    }
  }

  // Nothing where it is one place: whole, or a crown, through which it is climbed.
  geom::DisjointSets parts_of(const Gathered& of) {
    const bool through = part_.kind == PartKind::crown || part_.kind == PartKind::planting;
    if (of.covered.empty() || through) return geom::DisjointSets(0);
    HangTogether hang = hang_together(of.holds, of.covered, across_, *model_.body_scene);
    asked_across_ = asked_across_ || hang.across;
    return std::move(hang.sets);
  }

  // Of a patch. Where every rim in the yard is shut by the roof the patch lies outside, above it:
  // to come to it is to have left over the roof's free edge or the fence, which are told.
  struct Rims {
    int shut = 0;
    int free = 0;
  };

  bool well_inside(Vec2 p) const {
    constexpr double kOnLine = 0.01;  // m
    return geom::contains(model_.outline, p) &&
           geom::distance_to_edges(model_.outline, p) > kOnLine;
  }

  double barrier_top_near(Vec2 p) const {
    double best = 1e300;
    double top = 1e300;
    for (const Panel& panel : model_.panels) {
      const double d = geom::distance_to_segment(p, panel.a, panel.b);
      if (d >= best) continue;
      best = d;
      top = std::max(panel.top_a, panel.top_b);
    }
    return top;
  }

  // Moves the piece's point to a corner of it where the middle cannot be used.
  bool find_usable(LaidPiece& laid) const {
    if (usable(laid, laid.probe)) return true;
    for (const Vec3& corner : laid.corners) {
      if (!usable(laid, corner)) continue;
      laid.spot.at = laid.probe = corner;
      return true;
    }
    return false;
  }

  bool usable(const LaidPiece& laid, Vec3 from) const {
    const SurfacePiece& spot = laid.spot;
    if (spot.cling && !room_to_hold(model_, from, laid.normal, squeeze_of(rules_))) return false;
    if (!holds_weight(part_)) return true;
    if (geom::covers(model_.ground, xy(from)) &&
        from.z < geom::height_at(model_.ground, xy(from)) - kLift) {
      return false;
    }
    const bool held = spot.cling || part_.kind == PartKind::crown;
    if (!room_above(model_, from, held ? 0.0 : rules_.body.crouch)) return false;
    const double perch = rules_.body.perch;
    // A hedge stops no ray, and is asked nothing.
    return held || perch <= 0.0 || !part_.blocks_body ||
           wide_enough(model_, from, perch, rules_.stand_slope);
  }

  // A rim that the roof's own meets: nothing comes up between them. Asked out to half the least
  // opening, so that no corner passes more (roof_slots.h), all along the piece.
  bool shut_beside(const LaidPiece& laid) const {
    const Vec3 in = laid.probe - laid.spot.at;
    if (!laid.spot.hook || !model_.site.roof || length(xy(in)) < 1e-6) return false;
    Vec2 out = geom::left_of(geom::unit(xy(laid.corners[1] - laid.corners[0])));
    if (dot(out, xy(in)) > 0.0) out = -out;
    if (!roof_beside(laid.spot.at, out) || !roof_beside(laid.corners[0] - in, out) ||
        !roof_beside(laid.corners[1] - in, out)) {
      return false;
    }
    return std::none_of(model_.parts.begin(), model_.parts.end(),
                        [&](const Part& part) { return is_shelter(model_, rules_, part); });
  }

  bool roof_beside(Vec3 p, Vec2 out) const {
    constexpr double kBelow = 0.01;  // m, so that a rim flush with it is met
    const double reach = 0.25 * slot_opening(model_, rules_);
    for (const double aside : {5e-3, reach, 2.0 * reach}) {
      const Vec3 from = p + at_height(out * aside, -kBelow);
      const geom::Hit hit =
          model_.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, kBelow + reach});
      if (hit && hit.id != kGroundId &&
          model_.parts[static_cast<std::size_t>(hit.id)].kind == PartKind::roof) {
        return true;
      }
    }
    return false;
  }

  // Snow on a level top: left from its surface, gained as without it (places.h).
  void lay_snow(SurfacePiece& spot) const {
    if (snow_ <= 0.0 || spot.cling || part_.kind == PartKind::crown) return;
    spot.at.z += snow_;
    spot.cell.hi.z += snow_;
  }

  const Model& model_;
  const Part& part_;
  int number_;
  const PlaceRules& rules_;
  Across across_;
  double snow_;  // m
  bool asked_across_ = false;
};

bool may_hold_places(const Model& model, const PlaceRules& rules, const Part& part) {
  switch (part.kind) {
    case PartKind::object:
    case PartKind::den:
    case PartKind::house:
      return true;
    case PartKind::crown:
    case PartKind::panel:
    case PartKind::gate:
    case PartKind::overhang:
      return can_climb(model, rules, part);
    case PartKind::roof:
      return rules.climb_inverted && can_climb(model, rules, part);
    case PartKind::planting:
      return rules.plantings_bear;
    default:
      return false;
  }
}

// A shelter's roof from above: a sheet that is stood on.
Part top_of(const Part& roof) {
  Part top = roof;
  top.kind = PartKind::object;
  top.closed = false;
  return top;
}

// A part whose faces all lie within the steepest that is climbed is told as if any slope were.
// `facing` (part_faces.cpp) turns a normal about at most.
double steepest_told(const Part& part, double steepest) {
  for (std::size_t t = 0; t < part.mesh.triangles.size(); ++t) {
    const auto c = corners_of(part, t);
    if (-std::abs(geom::unit(cross(c[1] - c[0], c[2] - c[0])).z) < steepest) return steepest;
  }
  return kAnySlope;
}

PartRules rules_of(const Model& model, const Part& part, const PlaceRules& rules) {
  PartRules own;
  if (part.mesh.empty()) return own;
  own.laid = may_hold_places(model, rules, part);
  own.top = is_shelter(model, rules, part);
  if (!own.laid && !own.top) return own;
  own.resolution = rules.resolution;
  own.climbed = can_climb(model, rules, part);
  if (own.climbed) {
    own.steepest = steepest_told(part, steepest_climbed(part, rules));
    own.squeeze = squeeze_of(rules);
  }
  if (holds_weight(part) || own.top) {
    own.stand_slope = rules.stand_slope;
    own.crouch = rules.body.crouch;
    own.perch = rules.body.perch;
  }
  const Across across = across_of(rules);
  own.limb = across.reach;
  own.leap = across.leap;
  return own;
}

}  // namespace

std::vector<PartRules> part_rules(const Model& model, const PlaceRules& rules) {
  std::vector<PartRules> list;
  list.reserve(model.parts.size());
  bool shelter = false;
  for (const Part& part : model.parts) {
    list.push_back(rules_of(model, part, rules));
    shelter = shelter || list.back().top;
  }
  if (!model.site.roof) return list;
  for (PartRules& own : list) {
    if (!own.laid && !own.top) continue;
    own.slot_opening = slot_opening(model, rules);
    own.shelter_about = shelter;
  }
  return list;
}

bool tells_the_same(const PartRules& told_by, PartRules now) {
  if (told_by.limb == 0.0) now.limb = now.leap = 0.0;
  return told_by == now;
}

PartPlaces part_places_by(const Model& model, int part, const PlaceRules& rules,
                          const PartRules& own, PartShapePtr& shape) {
  const Part& p = model.parts[static_cast<std::size_t>(part)];
  PartPlaces places;
  bool across = false;
  const auto lay = [&](const Part& as, const PartShapePtr& of) {
    UsablePieces usable(model, part, rules);
    const auto laid = usable.of(lay_pieces(model, as, part_faces(model, as, rules, of), rules));
    places.patches.insert(places.patches.end(), laid.begin(), laid.end());
    across = across || usable.asked_across();
  };
  // Alone, so that this thread takes up no other part while it waits: no two large ones at once.
  tbb::this_task_arena::isolate([&] {
    if (own.laid) {
      if (!shape || !bears_on(*shape, p, rules)) shape = shape_of(model, p, rules);
      lay(p, shape);
    }
    if (own.top) lay(top_of(p), shape_of(model, top_of(p), rules));
  });
  places.told_by = own;
  if (!across) places.told_by.limb = places.told_by.leap = 0.0;
  return places;
}

std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules) {
  const PartRules own = rules_of(model, model.parts[static_cast<std::size_t>(part)], rules);
  PartShapePtr shape;
  return part_places_by(model, part, rules, own, shape).patches;
}

}  // namespace hummock::leap
