#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

template <class T>
void take(std::optional<T>& into, const std::optional<T>& from, const char* name,
          const std::set<std::string>& names) {
  if (names.count(name) > 0) into = from;
}

}  // namespace

const std::set<std::string>& slow_analyses() {
  static const std::set<std::string> names{"dig", "shade", "sight", "burrows"};
  return names;
}

std::set<std::string> quick_analyses() {
  std::set<std::string> names;
  for (const std::string& name : analysis_names())
    if (slow_analyses().count(name) == 0) names.insert(name);
  return names;
}

std::string analysis_of(const std::string& key) {
  return key.substr(0, key.find('.'));
}

void take_over(CheckResults& into, const CheckResults& from, const std::set<std::string>& names) {
  take(into.relief, from.relief, "relief", names);
  take(into.space, from.space, "space", names);
  take(into.leap, from.leap, "leap", names);
  take(into.dig, from.dig, "dig", names);
  take(into.openings, from.openings, "openings", names);
  take(into.entry, from.entry, "entry", names);
  take(into.shade, from.shade, "shade", names);
  take(into.sight, from.sight, "sight", names);
  take(into.water, from.water, "water", names);
  take(into.earthworks, from.earthworks, "earthworks", names);
  take(into.quantities, from.quantities, "quantities", names);
  take(into.houses, from.houses, "houses", names);
  take(into.burrows, from.burrows, "burrows", names);
  for (const std::string& name : names) {
    into.not_run.erase(name);
    if (const auto why = from.not_run.find(name); why != from.not_run.end())
      into.not_run[name] = why->second;
  }
  if (into.brief.size() != from.brief.size()) return;
  for (std::size_t i = 0; i < into.brief.size(); ++i)
    if (into.brief[i].what == from.brief[i].what &&
        names.count(analysis_of(from.brief[i].what)) > 0)
      into.brief[i] = from.brief[i];
}

}  // namespace hummock::viewer
