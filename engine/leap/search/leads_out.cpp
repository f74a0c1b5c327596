#include "engine/leap/search/leads_out.h"

#include <numeric>

#include "engine/leap/places/site_places.h"
#include "engine/leap/search/site_search.h"

namespace hummock::leap {

namespace {

enum class Leads { unknown, out, nowhere };

constexpr std::int64_t kMostFlights = 100000;  // of one search; numeric, a setting

class Settled {
 public:
  explicit Settled(const std::vector<PatchPtr>& patches)
      : patches_(patches), leads_(patches.size(), Leads::unknown) {
    leads_[0] = Leads::nowhere;  // the living ground: the leap check's own question
    for (std::size_t k = 0; k < patches.size(); ++k) {
      if (is_exit(*patches[k])) leads_[k] = Leads::out;
    }
  }

  bool unknown(std::size_t k) const { return leads_[k] == Leads::unknown; }
  bool out(std::size_t k) const { return leads_[k] == Leads::out; }

  void take(std::size_t start, const SearchResult& found) {
    const int exit = exit_of(found);
    for (int k = exit; k >= 0; k = found.patches[static_cast<std::size_t>(k)].by.from_patch) {
      leads_[static_cast<std::size_t>(k)] = Leads::out;
    }
    if (exit >= 0) return;
    if (!found.complete) {
      leads_[start] = Leads::out;
      return;
    }
    for (std::size_t k = 1; k < patches_.size(); ++k) {
      if (found.patches[k].is()) leads_[k] = Leads::nowhere;
    }
  }

 private:
  int exit_of(const SearchResult& found) const {
    for (std::size_t k = 0; k < patches_.size(); ++k) {
      if (is_exit(*patches_[k]) && found.patches[k].is()) return static_cast<int>(k);
    }
    return -1;
  }

  const std::vector<PatchPtr>& patches_;
  std::vector<Leads> leads_;
};

LinkRules links_up_to(const PlaceRules& rules, double most) {
  Settings settings;
  settings.resolution = rules.resolution;
  LinkRules links = link_rules(rules.ability, settings);
  links.limit = most;
  return links;
}

}  // namespace

std::vector<PatchPtr> places_that_lead_out(const Model& model, const PlaceRules& rules,
                                           double most) {
  const LinkRules links = links_up_to(rules, most);
  const std::vector<PatchPtr> patches = site_places(model, rules).all();
  Quest quest;
  quest.targets.resize(patches.size() - 1);
  std::iota(quest.targets.begin(), quest.targets.end(), 1);
  quest.stop_at_first_exit = true;
  quest.most_flights = kMostFlights;
  Settled settled(patches);
  std::vector<PatchPtr> out;
  for (std::size_t k = 1; k < patches.size(); ++k) {
    if (settled.unknown(k)) {
      quest.starts = {{static_cast<int>(k), 0.0}};
      settled.take(k, search(patches, quest, *model.body_scene, links));
    }
  }
  for (std::size_t k = 1; k < patches.size(); ++k) {
    if (settled.out(k) && !is_exit(*patches[k])) out.push_back(patches[k]);
  }
  return out;
}

}  // namespace hummock::leap
