#include "engine/check/idle_confirmations.h"

#include <algorithm>

#include "engine/findings/finding.h"

namespace hummock {
namespace {

// The keys of one assumption: "hangs+reach" is two.
bool speaks_of(const Assumption& assumption, const std::string& key) {
  const std::string all = "+" + assumption.key + "+";
  return all.find("+" + key + "+") != std::string::npos;
}

std::string analysis_that_rests_on(const std::string& key) {
  if (key == "least_opening") return "openings";
  return key.rfind("dig_", 0) == 0 ? "dig" : "leap";
}

bool holds_as_it_is(const CheckResults& results, const std::string& analysis) {
  if (analysis == "openings") return results.openings && results.openings->met;
  if (analysis == "dig") return results.dig && results.dig->met;
  return results.leap && results.leap->margin > 1.0;
}

bool idle(const CheckResults& results, const std::string& key) {
  const std::string analysis = analysis_that_rests_on(key);
  const auto rests = results.rests_on.find(analysis);
  if (!results.settings.explore || rests == results.rests_on.end()) return false;
  if (!rests->second.explored || !holds_as_it_is(results, analysis)) return false;
  return std::none_of(rests->second.list.begin(), rests->second.list.end(),
                      [&](const Assumption& a) { return speaks_of(a, key); });
}

}  // namespace

std::vector<std::string> idle_confirmations(const Site& site, const CheckResults& results) {
  std::vector<std::string> lines;
  for (const Confirmation& word : site.confirmations) {
    if (!idle(results, word.what)) continue;
    lines.push_back("what " + word.by + " confirmed of " + quoted(word.what) + " on " + word.on +
                    " is for an if that is not there: no answer rests on it");
  }
  return lines;
}

}  // namespace hummock
