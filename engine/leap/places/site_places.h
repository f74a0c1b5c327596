// All places of a site: its things', its ways out and its ground.
//
// After a change of things only what the change can bear is sampled again: their own places and
// those of what they stand over, under or beside, the exits, and the squares of ground under their
// old and new boxes. The pieces kept are the ones a full sampling would make again.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "engine/leap/places/part_rules.h"

namespace hummock::leap {

// How large meshes of one model were told by rules before, for who asks by many. Any number of
// threads may ask and tell at once.
class ToldParts {
 public:
  static constexpr std::size_t kLarge = 10000;  // triangles; numeric, below it is told anew

  explicit ToldParts(std::size_t large = kLarge) : large_(large) {}
  std::optional<PartPlaces> find(std::size_t part, const PartRules& now);
  // Keeps it where the mesh is large and the places are few enough.
  void keep(const Model& model, std::size_t part, const PartPlaces& told);

 private:
  // Together, 10 MB of them at most.
  static constexpr std::size_t kMostSpots = std::size_t{1} << 16;  // numeric, of memory
  struct Told {
    std::size_t part = 0;
    PartPlaces places;
  };
  const std::size_t large_;
  std::mutex lock_;
  std::vector<Told> told_;
  std::size_t spots_ = 0;
};

struct SitePlaces {
  std::vector<std::vector<PatchPtr>> of_part;  // by part of the model
  std::vector<geom::Box3> box_of_part;
  std::vector<PartRules> told_by;           // of each part: the rules its places hang on
  std::vector<PartShapePtr> shape_of_part;  // once asked for: no rule bears on them
  std::vector<PatchPtr> houses;             // passages through them
  std::vector<PatchPtr> ways_out;           // of the barrier and the roof
  std::vector<PatchPtr> raised;             // of the parts, the houses, then the ways out
  GroundPlaces ground;
  std::shared_ptr<ToldParts> told_before;  // of this model, or nothing

  // The ground's patches, then the raised ones.
  std::vector<PatchPtr> all() const;
};

SitePlaces site_places(const Model& model, const PlaceRules& rules);

// The places of the parts alone, by other rules; those that do not hang on what changed are kept.
void sample_parts(SitePlaces& places, const Model& model, const PlaceRules& rules);

// The passages through houses alone, by other rules.
void sample_houses(SitePlaces& places, const Model& model, const PlaceRules& rules);

// All but the ground.
void sample_raised_by_other_rules(SitePlaces& places, const Model& model, const PlaceRules& rules);

// Everything of the same model by other rules, as site_places tells it; parts as sample_parts.
// After a throw the places are of no use.
void sample_by_other_rules(SitePlaces& places, const Model& model, const PlaceRules& rules);

// The boxes of an object's parts, before (as sampled) and now.
std::vector<geom::Box3> changed_boxes(const SitePlaces& before, const Model& model, int object);
// The same parts with some changed; returns by part whether its places were sampled again.
std::vector<char> sample_again(SitePlaces& places, const Model& model, const PlaceRules& rules,
                               const std::vector<geom::Box3>& changed);

}  // namespace hummock::leap
