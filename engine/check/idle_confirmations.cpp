#include "engine/check/idle_confirmations.h"

#include <algorithm>

#include "engine/brief/signed.h"
#include "engine/findings/finding.h"
#include "engine/grammar/tables.h"

namespace hummock {
namespace {

// The keys of one assumption: "hangs+reach" is two.
bool speaks_of(const Assumption& assumption, const std::string& key) {
  const std::string all = "+" + assumption.key + "+";
  return all.find("+" + key + "+") != std::string::npos;
}

bool holds_as_it_is(const CheckResults& results) {
  return results.leap && results.leap->margin > 1.0 && results.openings && results.openings->met &&
         results.dig && results.dig->met;
}

// Every answer that may rest on something is there, and whole.
bool can_be_told(const CheckResults& results) {
  return results.settings.explore && holds_as_it_is(results) &&
         std::all_of(results.rests_on.begin(), results.rests_on.end(),
                     [](const auto& one) { return one.second.explored; });
}

bool speaks_of(const RestsOn& rests, const std::string& key) {
  return std::any_of(rests.list.begin(), rests.list.end(),
                     [&](const Assumption& a) { return speaks_of(a, key); }) ||
         std::any_of(rests.besides.begin(), rests.besides.end(),
                     [&](const RestsOn& beside) { return speaks_of(beside, key); });
}

bool idle(const CheckResults& results, const std::string& key) {
  return std::none_of(results.rests_on.begin(), results.rests_on.end(),
                      [&](const auto& one) { return speaks_of(one.second, key); });
}

}  // namespace

std::vector<std::string> idle_confirmations(const Site& site, const CheckResults& results) {
  const std::vector<std::string>& of_ifs = grammar::assumable();
  std::vector<std::string> lines = idle_answers(site, results.brief, of_ifs);
  if (!can_be_told(results)) return lines;
  for (const Confirmation& word : site.confirmations) {
    const bool of_an_if = std::find(of_ifs.begin(), of_ifs.end(), word.what) != of_ifs.end();
    if (!of_an_if || !idle(results, word.what)) continue;
    lines.push_back("what " + word.by + " confirmed of " + quoted(word.what) + " on " + word.on +
                    " is for an if that is not there: no answer rests on it");
  }
  return lines;
}

}  // namespace hummock
