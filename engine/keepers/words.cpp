// A way in in a reviewer's words.
#include <fmt/format.h>

#include <algorithm>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/keepers/way_in.h"

namespace hummock::keepers {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t k = 0; k < names.size(); ++k) {
    if (k > 0) out += k + 1 == names.size() ? " and " : ", ";
    out += names[k];
  }
  return out;
}

void add(const Site& site, const std::string& key, const std::string& words,
         const std::string& used, const std::string& careful, std::vector<Assumption>& into) {
  Assumption a;
  a.key = key;
  a.words = words;
  a.used_value = used;
  a.careful_value = careful;
  take_confirmations(site, a);
  into.push_back(a);
}

std::string fault(const Stretch& s, const std::string& what) {
  if (s.headroom_m > 0.0)
    return fmt::format("{}: the headroom is {} m, bent low people need {} m", what,
                       plain_figure(s.headroom_m), plain_figure(kStooped));
  if (s.in_the_way.empty()) return what;
  return what + ": " + joined(s.in_the_way) +
         (s.in_the_way.size() > 1 ? " stand in the way" : " stands in the way");
}

}  // namespace

std::vector<Assumption> what_it_rests_on(const Site& site, const WayIn& way,
                                         const std::string& to) {
  std::vector<Assumption> out;
  if (!way.goes()) return out;
  if (way.outside.unseen || way.through.unseen)
    add(site, "keepers-way", "people come to " + to + " over ground that is not modelled",
        "they do", "something is in the way", out);
  std::vector<std::string> leaves = way.outside.leaves;
  for (const std::string& more : way.through.leaves)
    if (std::find(leaves.begin(), leaves.end(), more) == leaves.end()) leaves.push_back(more);
  if (!leaves.empty())
    add(site, "keepers-way", "people come to " + to + " through " + joined(leaves), "they do",
        "they do not", out);
  if (way.headroom_m() < kUpright)
    add(site, "headroom",
        fmt::format("people bend down to {} m on their way through {}",
                    plain_figure(way.headroom_m()), to),
        plain_figure(kUpright) + " m", plain_figure(kStooped) + " m", out);
  return out;
}

std::vector<std::string> faults_of(const WayIn& way, const std::string& who) {
  std::vector<std::string> out;
  if (!way.outside.goes) out.push_back(fault(way.outside, who + " comes to it from outside"));
  if (!way.through.goes) out.push_back(fault(way.through, who + " comes in by it"));
  return out;
}

}  // namespace hummock::keepers
