#include "engine/leap/places/site_places.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "engine/leap/passages/through_houses.h"

namespace hummock::leap {

using geom::Box3;

namespace {

// What lies this near decides what of a part is free and hangs together, m: beside an edge
// (part_pieces.cpp), before a face and out from it (engine/leap/holds/).
double decides_within(const PlaceRules& rules) {
  constexpr double kBesideEdge = 0.05;  // m
  const double limb = 2.0 * std::max(rules.body.reach, rules.resolution);
  return std::max({kBesideEdge, rules.least_opening, limb, rules.ability.height});
}

bool plans_meet(const Box3& a, const Box3& b, double reach) {
  return a.lo.x <= b.hi.x + reach && b.lo.x <= a.hi.x + reach && a.lo.y <= b.hi.y + reach &&
         b.lo.y <= a.hi.y + reach;
}

void gather_raised(SitePlaces& places) {
  places.raised.clear();
  for (const auto& list : places.of_part) {
    places.raised.insert(places.raised.end(), list.begin(), list.end());
  }
  places.raised.insert(places.raised.end(), places.houses.begin(), places.houses.end());
  places.raised.insert(places.raised.end(), places.ways_out.begin(), places.ways_out.end());
}

void take_in(SitePlaces& places, std::size_t k, PartPlaces told) {
  places.of_part[k] = std::move(told.patches);
  places.told_by[k] = told.told_by;
}

PartPlaces told_of(SitePlaces& places, const Model& model, std::size_t k, const PlaceRules& rules,
                   const PartRules& own) {
  return part_places_by(model, static_cast<int>(k), rules, own, places.shape_of_part[k]);
}

}  // namespace

std::optional<PartPlaces> ToldParts::find(std::size_t part, const PartRules& now) {
  const std::lock_guard hold(lock_);
  for (const Told& told : told_)
    if (told.part == part && tells_the_same(told.places.told_by, now)) return told.places;
  return std::nullopt;
}

void ToldParts::keep(const Model& model, std::size_t part, const PartPlaces& told) {
  if (model.parts[part].mesh.triangles.size() < large_) return;
  std::size_t spots = 0;
  for (const PatchPtr& patch : told.patches) spots += patch->pieces.size();
  const std::lock_guard hold(lock_);
  if (spots_ + spots > kMostSpots) return;
  spots_ += spots;
  told_.push_back({part, told});
}

std::vector<PatchPtr> SitePlaces::all() const {
  std::vector<PatchPtr> patches = ground.patches;
  patches.insert(patches.end(), raised.begin(), raised.end());
  return patches;
}

void sample_parts(SitePlaces& places, const Model& model, const PlaceRules& rules) {
  const std::vector<PartRules> now = part_rules(model, rules);
  const std::size_t known = places.told_by.size();
  places.of_part.resize(model.parts.size());
  places.box_of_part.resize(model.parts.size());
  places.told_by.resize(model.parts.size());
  places.shape_of_part.resize(model.parts.size());
  tbb::parallel_for(std::size_t{0}, model.parts.size(), [&](std::size_t k) {
    if (k < known && tells_the_same(places.told_by[k], now[k])) return;
    places.of_part[k].clear();  // no two tellings of a large part at once
    places.box_of_part[k] = geom::bounds(model.parts[k].mesh);
    std::optional<PartPlaces> told;
    if (places.told_before) told = places.told_before->find(k, now[k]);
    if (!told) {
      told = told_of(places, model, k, rules, now[k]);
      if (places.told_before) places.told_before->keep(model, k, *told);
    }
    take_in(places, k, *std::move(told));
  });
  gather_raised(places);
}

void sample_houses(SitePlaces& places, const Model& model, const PlaceRules& rules) {
  places.houses = through_houses(model, rules);
  gather_raised(places);
}

SitePlaces site_places(const Model& model, const PlaceRules& rules) {
  SitePlaces places;
  sample_by_other_rules(places, model, rules);
  return places;
}

void sample_raised_by_other_rules(SitePlaces& places, const Model& model, const PlaceRules& rules) {
  places.raised.clear();
  places.ways_out = exits(model, rules);
  places.houses = through_houses(model, rules);
  sample_parts(places, model, rules);
}

void sample_by_other_rules(SitePlaces& places, const Model& model, const PlaceRules& rules) {
  const GroundSquares known = near_of(places.ground);
  places.ground = {};
  sample_raised_by_other_rules(places, model, rules);
  places.ground = ground_places(model, rules, kLaidWhole, known);
}

std::vector<Box3> changed_boxes(const SitePlaces& before, const Model& model, int object) {
  std::vector<Box3> boxes;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    const bool its =
        (part.kind == PartKind::object || part.kind == PartKind::crown) && part.source == object;
    if (!its) continue;
    boxes.push_back(before.box_of_part[k]);
    boxes.push_back(geom::bounds(part.mesh));
  }
  return boxes;
}

std::vector<char> sample_again(SitePlaces& places, const Model& model, const PlaceRules& rules,
                               const std::vector<Box3>& changed) {
  std::vector<char> again(model.parts.size(), 0);
  const double within = decides_within(rules);
  const std::vector<PartRules> now = part_rules(model, rules);
  tbb::parallel_for(std::size_t{0}, model.parts.size(), [&](std::size_t k) {
    const Part& part = model.parts[k];
    const Box3 box = geom::bounds(part.mesh);
    const bool meets = std::any_of(changed.begin(), changed.end(),
                                   [&](const Box3& c) { return plans_meet(box, c, within); });
    if (!meets) return;
    again[k] = 1;
    places.box_of_part[k] = box;
    places.shape_of_part[k] = nullptr;  // its mesh may have changed
    take_in(places, k, told_of(places, model, k, rules, now[k]));
  });
  places.ways_out = exits(model, rules);
  places.houses = through_houses(model, rules);
  gather_raised(places);
  places.ground = ground_places_again(model, rules, places.ground, changed);
  return again;
}

}  // namespace hummock::leap
