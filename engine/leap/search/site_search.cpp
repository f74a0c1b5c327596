#include "engine/leap/search/site_search.h"

#include <algorithm>

#include "engine/leap/places/places.h"

namespace hummock::leap {

namespace {

// Flights of the whole site's search, some seconds' worth; a stopped search says so.
constexpr std::int64_t kMostOfSite = 2000000;

Quest from_the_ground(const std::vector<PatchPtr>& patches) {
  Quest quest;
  quest.starts.push_back({0, 0.0});
  quest.most_flights = kMostOfSite;
  for (std::size_t p = 1; p < patches.size(); ++p) quest.targets.push_back(static_cast<int>(p));
  return quest;
}

}  // namespace

LinkRules link_rules(const Ability& ability, const Settings& settings) {
  LinkRules rules;
  rules.ability = ability;
  const double beyond_brief = 1.25 * settings.required_margin;
  rules.limit = std::max(settings.search_limit, beyond_brief) * ability.height;
  const double resolution = std::min(settings.resolution, kCoarsest);
  rules.step = resolution;
  rules.step_over_gap = 0.5 * resolution;
  rules.chord_error = 0.25 * resolution;
  return rules;
}

SearchResult search_site(const Model& model, const std::vector<PatchPtr>& patches,
                         const LinkRules& links, const Progress& progress,
                         const KnownFlights* known) {
  Quest quest = from_the_ground(patches);
  quest.known = known;
  quest.walls = [&] { return WallsBetween(model, patches, links.step, links.limit); };
  return search(patches, quest, *model.body_scene, links, progress);
}

SearchResult search_flown(const Model& model, const std::vector<PatchPtr>& patches,
                          const LinkRules& links, const Progress& progress) {
  Quest quest = from_the_ground(patches);
  quest.leave_pockets = true;
  quest.walls = [&] { return WallsBetween(model, patches, links.step, links.limit); };
  return search(patches, quest, *model.body_scene, links, progress);
}

SearchResult seek_exit(const Model& model, const std::vector<PatchPtr>& patches,
                       const LinkRules& links, double key_limit, const Progress& progress,
                       const KnownFlights* known) {
  Quest quest = from_the_ground(patches);
  quest.known = known;
  quest.stop_at_first_exit = true;
  quest.key_limit = key_limit;
  quest.walls = [&] {
    return WallsBetween(model, patches, links.step, std::min(links.limit, key_limit));
  };
  return search(patches, quest, *model.body_scene, links, progress);
}

}  // namespace hummock::leap
