// Ground an animal can use: one definition, two answers.
//
//   can be     any slope; outside every solid; the clear height above the ground is at least its
//              `crouch`; water of any depth when it swims (and the clear height is asked above its
//              surface), else no deeper than wade_depth. For ways out: more ground is the careful
//              side. How it comes there is not asked here (up no slope steeper than stand_slope).
//   can live   slope no steeper than stand_slope; outside every solid; the body's height clear
//   above
//              the ground; under no den and in no house; water no deeper than wade_depth; and, by
//              engine/usable/living_nodes.h, in a patch its body fits. For room, shade, cover,
//              sight and burrows: less ground is the careful side. Of it the animal's own is what
//              it comes to from where it starts (engine/usable/own_ground.h).
//
// This header answers for a point; patches need the whole ground. A point is inside a solid when a
// line straight up leaves some closed part more often than it enters it: every surface on the line
// counts, not the first alone, so stones that stand in each other and a pillar through a roof are
// solid all the way. Parts that are not closed (sheets, open meshes) only take headroom. A body's
// width is not asked here. Dens and houses are their drawn outlines. What the animal may stand on
// above the ground (decks, stones) is no ground.
#pragma once

#include <memory>
#include <vector>

#include "engine/model/model.h"
#include "engine/species/body.h"

namespace hummock::usable {

// What is asked of the animal.
struct Needs {
  Body body;
  double stand_slope = 0.0;  // rad; 0 = any
  double wade_depth = 0.0;   // m
  bool drained = false;      // waters that can be emptied are
};
Needs needs_of(const Species& species);

enum class Being { nowhere, on_ground, afloat };

struct OpenSky;

class UsableGround {
 public:
  explicit UsableGround(const Model& model);
  UsableGround(const Model& model, const Needs& needs);

  // `ground`: height at p; `gradient`: of the ground there.
  bool can_be(Vec2 p, double ground) const;
  // How it can be there. `open_sky`: the caller knows that no part lies over p.
  Being being_at(Vec2 p, double ground, bool open_sky = false) const;
  bool can_stand(Vec2 p, double ground, Vec2 gradient) const;  // can live, but for the patch
  // How it is at p on its way over the ground: on slopes up to stand_slope, crouched where it must;
  // afloat only where its file says that it swims.
  Being walking_at(Vec2 p, double ground, Vec2 gradient) const;
  bool can_be(Vec2 p) const;
  bool can_stand(Vec2 p) const;

  // Inside a closed solid (dens and houses too), whatever the headroom.
  bool in_solid(Vec2 p) const;
  // False where no water can be.
  bool in_a_basin(Vec2 p) const;
  // Water above the ground at p, m; 0 on dry land.
  double water_depth(Vec2 p, double ground) const;
  const Body& body() const { return body_; }
  double steepest() const { return steepest_; }  // tangent of the slope it stands on
  double wades() const { return wade_; }         // m
  bool drained() const { return drained_; }      // as its needs say
  // Outlines of dens and houses.
  const std::vector<Polygon>& shelters() const { return shelters_; }

 private:
  struct Basin {
    Polygon outline;
    geom::Box2 box;
    double level = 0.0;
  };
  struct Above {
    bool inside = false;
    double clear = 0.0;  // m above the ground
  };
  Above above(Vec2 p, double ground) const;
  const geom::RayScene& scene() const;

  const Model& model_;
  Body body_;
  double steepest_ = 0.0;  // tangent of the slope
  double wade_ = 0.0;
  bool drained_ = false;
  std::vector<Polygon> shelters_;
  std::vector<Basin> basins_;
  std::unique_ptr<geom::RayScene> own_;  // where the model has no scene yet
  std::shared_ptr<const OpenSky> sky_;   // where the model keeps its answers
};

}  // namespace hummock::usable
