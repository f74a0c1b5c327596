#include "viewer/work/merge_results.h"

#include "engine/brief/either.h"

namespace hummock::viewer {
namespace {

std::set<std::string> costing(Cost cost) {
  std::set<std::string> names;
  for (const Analysis& a : analyses())
    if (a.cost == cost) names.insert(a.name);
  return names;
}

}  // namespace

const std::set<std::string>& slow_analyses() {
  static const std::set<std::string> names = costing(Cost::slow);
  return names;
}

std::set<std::string> quick_analyses() {
  return costing(Cost::quick);
}

void take_over(CheckResults& into, const CheckResults& from, const std::set<std::string>& names) {
  take_over_results(into, from, names);
  if (into.brief.size() != from.brief.size()) return;
  for (std::size_t i = 0; i < into.brief.size(); ++i)
    if (into.brief[i].what == from.brief[i].what &&
        names.count(analysis_of(from.brief[i].what)) > 0)
      into.brief[i] = from.brief[i];
  settle_eithers(into.brief);
}

}  // namespace hummock::viewer
