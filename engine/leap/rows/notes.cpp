#include "engine/leap/rows/notes.h"

#include <algorithm>

#include "engine/barrier/shared_plans.h"

namespace hummock::leap {

namespace {

// What was taken for the rows the species file leaves out, where it bears an answer of this page.
void note_body(const SearchContext& scene, const PlaceRules& rules, Result& result) {
  const Model& model = *scene.model;
  const auto left_out = [&](const char* key) {
    const auto& list = rules.body.defaults;
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  const auto note = [&](const std::string& words) {
    result.notes.push_back("assumed, for want of a row in the species file: " + words);
  };
  if (left_out("crouch")) note("rests and squeezes through where its head passes (crouch)");
  if (left_out("reach")) note("reaches an edge a body's length away without leaping (reach)");
  if (left_out("perch")) note("balances on ridges and edges of any width (perch)");
  if (left_out("hangs") && !scene.settings.climb_inverted) {
    note("does not go hand over hand beneath overhangs and roofs (hangs)");
  }
  const bool deep = std::any_of(model.site.waters.begin(), model.site.waters.end(),
                                [](const Water& w) { return w.level.has_value(); });
  if (deep && left_out("swims")) note("swims, and leaps from the water as from land (swims)");
}

}  // namespace

std::string names_of(const Model& model, const std::vector<int>& parts) {
  std::string names;
  for (const int part : parts) {
    if (!names.empty()) names += ", ";
    names += "'" + model.parts[static_cast<std::size_t>(part)].name + "'";
  }
  return names;
}

namespace {

// A planting that bears the animal is a step that was not counted.
void note_plantings(const Model& model, const PlaceRules& rules, Result& result) {
  const std::string names = names_of(model, tall_plantings(model, rules.body));
  if (!names.empty()) {
    result.notes.push_back("assumed not to bear the animal's weight, and so no step: " + names);
  }
}

// Nobody has drawn a wall between them.
void note_shared_plans(const Model& model, Result& result) {
  for (const auto& [a, b] : barrier::shared_plans(model)) {
    const auto name = [&](int h) {
      return "'" + model.site.houses[static_cast<std::size_t>(h)].name + "'";
    };
    result.notes.push_back("taken as one room, since they are drawn over one another: " + name(a) +
                           " and " + name(b));
  }
}

}  // namespace

void add_notes(const SearchContext& scene, const PlaceRules& rules, Result& result) {
  const Model& model = *scene.model;
  const LinkRules& links = scene.links;
  const SearchResult& reached = *scene.reached;
  const std::vector<PatchPtr>& patches = *scene.patches;
  if (links.ability.height > kAbsurdLeap ||
      links.ability.height * 2.0 / links.ability.stretch > kAbsurdDistance) {
    result.notes.push_back("the leap given is beyond any animal's on record; check the figure");
  }
  if (reached.assumed > 0) {
    result.notes.push_back(
        "places taken as gained, on the careful side, after very many blocked "
        "flights: " +
        std::to_string(reached.assumed));
  }
  if (!reached.complete) {
    result.notes.push_back("the search was stopped early; the demand is a bound from below");
  }
  if (std::none_of(patches.begin(), patches.end(), [](const PatchPtr& p) { return is_exit(*p); })) {
    result.notes.push_back("closed: no edge of fence or roof is open to leave by");
  }
  note_body(scene, rules, result);
  note_plantings(model, rules, result);
  note_shared_plans(model, result);
  for (const OverhangPanel& o : model.overhangs) {
    if (o.part < 0 || !can_climb(model, rules, model.parts[static_cast<std::size_t>(o.part)]))
      continue;
    result.notes.push_back(rules.climb_inverted
                               ? "assumed to climb hand over hand beneath the overhang"
                               : "not assumed to climb beneath the overhang, though it climbs its "
                                 "mesh");
    break;
  }
}

}  // namespace hummock::leap
