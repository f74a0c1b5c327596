#include <algorithm>
#include <map>

#include "engine/leap/holds/hang_together.h"
#include "engine/leap/holds/room_to_hold.h"
#include "engine/leap/places/narrow_crest.h"
#include "engine/leap/places/part_pieces.h"
#include "engine/leap/places/roof_slots.h"
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
        snow_(part_.closed || part_.kind == PartKind::roof ? snow_depth(model) : 0.0) {}

  std::vector<PatchPtr> of(std::vector<LaidPiece> pieces) {
    std::map<std::uint32_t, Gathered> patches;
    std::map<std::uint32_t, Rims> rims;
    for (LaidPiece& laid : pieces) {
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
  void lay_patches(const Gathered& of, std::vector<PatchPtr>& out) const {
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
  geom::DisjointSets parts_of(const Gathered& of) const {
    const bool through = part_.kind == PartKind::crown || part_.kind == PartKind::planting;
    if (of.covered.empty() || through) return geom::DisjointSets(0);
    const Across across{std::max(rules_.body.reach, rules_.resolution), rules_.ability.height};
    return hang_together(of.holds, of.covered, across, *model_.body_scene);
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
    const double squeeze = std::min(rules_.body.crouch, rules_.least_opening);
    if (spot.cling && !room_to_hold(model_, from, laid.normal, squeeze)) return false;
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

// A shelter's roof from above: a sheet that is stood on.
Part top_of(const Part& roof) {
  Part top = roof;
  top.kind = PartKind::object;
  top.closed = false;
  return top;
}

}  // namespace

std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules) {
  const Part& p = model.parts[static_cast<std::size_t>(part)];
  std::vector<PatchPtr> places;
  if (p.mesh.empty()) return places;
  const auto lay = [&](const Part& as) {
    const PartFaces faces = part_faces(model, as, rules);
    const auto laid = UsablePieces(model, part, rules).of(lay_pieces(model, as, faces, rules));
    places.insert(places.end(), laid.begin(), laid.end());
  };
  if (may_hold_places(model, rules, p)) lay(p);
  if (is_shelter(model, rules, p)) lay(top_of(p));
  return places;
}

}  // namespace hummock::leap
