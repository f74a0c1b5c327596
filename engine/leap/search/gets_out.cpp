#include "engine/leap/search/gets_out.h"

#include <algorithm>
#include <utility>

#include "engine/leap/search/site_search.h"

namespace hummock::leap {

namespace {

// What the ground's squares and the ways out are told by.
bool same_ground_rules(const PlaceRules& a, const PlaceRules& b) {
  return a.resolution == b.resolution && a.stand_slope == b.stand_slope && a.climbs == b.climbs &&
         a.least_opening == b.least_opening && a.wade_depth == b.wade_depth &&
         a.body.crouch == b.body.crouch && a.body.perch == b.body.perch &&
         a.body.swims == b.body.swims && a.drained == b.drained;
}

bool digs_from_its_start(const Model& model, const PlaceRules& rules) {
  return model.site.leap_start && rules.digs.length > 0.0 && rules.digs.depth > 0.0;
}

// What the ways through houses are told by besides.
bool same_house_rules(const PlaceRules& a, const PlaceRules& b) {
  return a.helped_indoors == b.helped_indoors && a.ability.grip == b.ability.grip &&
         a.ability.reach == b.ability.reach;
}

}  // namespace

bool same_ground_places(const Model& model, const PlaceRules& a, const PlaceRules& b) {
  // Which squares are joined hangs on what it digs, and with what: not told apart here.
  return same_ground_rules(a, b) && a.ability.water == b.ability.water &&
         !digs_from_its_start(model, a) && !digs_from_its_start(model, b);
}

KnownFlights AskedFlights::of(const LinkRules& links, const std::vector<PatchPtr>& patches) {
  const std::lock_guard hold(lock_);
  auto alike = std::find_if(memos_.begin(), memos_.end(),
                            [&](const Alike& a) { return fly_alike(a.links, links); });
  if (alike == memos_.end()) {
    if (memos_.size() >= kMostMemos) memos_.erase(memos_.begin());
    alike = memos_.insert(memos_.end(), {links, std::make_shared<FlightMemo>(kPartKept)});
  }
  return KnownFlights::flights_only(alike->memo, patches);
}

void EscapeQuestion::find_places(const PlaceRules& rules) {
  const std::optional<PlaceRules> before = std::exchange(rules_, std::nullopt);
  if (!before) {
    places_ = {};
    places_.told_before = told_;
    other_.reset();
  }
  if (!before || !same_ground_rules(*before, rules)) {
    sample_raised_by_other_rules(places_, model_, rules);
  } else {
    sample_parts(places_, model_, rules);
    if (!same_house_rules(*before, rules)) sample_houses(places_, model_, rules);
  }
  find_ground(rules, before);
  rules_ = rules;
}

void EscapeQuestion::find_ground(const PlaceRules& rules, const std::optional<PlaceRules>& before) {
  if (before && same_ground_places(model_, *before, rules)) return;
  if (other_ && same_ground_places(model_, other_->rules, rules)) {
    places_.ground = other_->places;
    return;
  }
  GroundPlaces was = std::exchange(places_.ground, {});
  const GroundSquares known = near_of(was);
  other_.reset();
  const bool same_squares = before && same_ground_rules(*before, rules);
  places_.ground = same_squares ? ground_places_again(model_, rules, was, {})
                                : ground_places(model_, rules, kLaidWhole, known);
  if (before) other_ = Ground{*before, std::move(was)};
}

GetsOut EscapeQuestion::ask(const Species& species, const Circumstances& yard,
                            const Progress& progress) {
  Settings settings = settings_;
  settings.climb_inverted |= body_of(species).hangs;
  if (yard.frozen) settings.ice = Ice::bears;
  PlaceRules rules = place_rules(species, settings);
  rules.plantings_bear = yard.plantings_bear;
  rules.crowns_bear = yard.crowns_bear;
  rules.walls_rough = yard.walls_rough;
  rules.drained = yard.drained;
  rules.helped_indoors = yard.helped_indoors;
  if (yard.digs) rules.digs = {species.dig_length.value, species.dig_depth.value};
  const LinkRules links = link_rules(rules.ability, settings_);
  find_places(rules);
  const std::vector<PatchPtr> patches = places_.all();
  const double leap = rules.ability.height;
  const KnownFlights known = flights_->of(links, patches);
  const SearchResult found = seek_exit(model_, patches, links, leap, progress, &known);
  const bool out = std::any_of(patches.begin(), patches.end(), [&](const PatchPtr& p) {
    const auto k = static_cast<std::size_t>(&p - patches.data());
    return is_exit(*p) && found.patches[k].is();
  });
  if (out) return GetsOut::yes;
  // A search that stopped may have missed what needs more than its key.
  return found.complete ? GetsOut::no : GetsOut::unknown;
}

}  // namespace hummock::leap
