#include <algorithm>
#include <map>

#include "engine/leap/places/narrow_crest.h"
#include "engine/leap/places/part_pieces.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

// What of one part's pieces can be used, gathered by patch.
class UsablePieces {
 public:
  UsablePieces(const Model& model, int part, const PlaceRules& rules)
      : model_(model),
        part_(model.parts[static_cast<std::size_t>(part)]),
        number_(part),
        rules_(rules),
        snow_(part_.closed ? snow_depth(model) : 0.0) {}

  std::vector<PatchPtr> of(std::vector<LaidPiece> pieces) {
    std::map<std::uint32_t, std::shared_ptr<Patch>> patches;
    for (LaidPiece& laid : pieces) {
      bool beyond = false;
      if (holds_weight(part_) && !geom::contains(model_.outline, xy(laid.spot.at))) {
        if (geom::distance_to_edges(model_.outline, xy(laid.spot.at)) > 0.01) {
          if (laid.spot.at.z < barrier_top_near(xy(laid.spot.at))) continue;
          beyond = true;
        }
      }
      if (!find_usable(laid)) continue;
      auto& patch = patches[laid.patch];
      if (!patch) {
        patch = std::make_shared<Patch>();
        patch->kind = PatchKind::thing;
        patch->part = number_;
        patch->name = part_.name;
      }
      if (beyond) patch->exit = ExitKind::beyond;
      lay_snow(laid.spot);
      patch->pieces.push_back(laid.spot);
    }
    std::vector<PatchPtr> result;
    for (auto& [id, patch] : patches) {
      build_tree(*patch);
      result.push_back(patch);
    }
    return result;
  }

 private:
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
    if (usable(laid.spot, laid.probe)) return true;
    for (const Vec3& corner : laid.corners) {
      if (!usable(laid.spot, corner)) continue;
      laid.spot.at = corner;
      return true;
    }
    return false;
  }

  bool usable(const SurfacePiece& spot, Vec3 from) const {
    if (!holds_weight(part_)) return true;
    if (geom::covers(model_.ground, xy(from)) &&
        from.z < geom::height_at(model_.ground, xy(from)) - kLift) {
      return false;
    }
    const bool held = spot.cling || part_.kind == PartKind::crown;
    if (!room_above(model_, from, held ? 0.0 : rules_.body.crouch)) return false;
    const double perch = rules_.body.perch;
    return held || perch <= 0.0 || wide_enough(model_, from, perch, rules_.stand_slope);
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
  double snow_;  // m
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

}  // namespace

std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules) {
  const Part& p = model.parts[static_cast<std::size_t>(part)];
  if (!may_hold_places(model, rules, p) || p.mesh.empty()) return {};
  const PartFaces faces = part_faces(model, p, rules);
  return UsablePieces(model, part, rules).of(lay_pieces(model, p, faces, rules));
}

}  // namespace hummock::leap
