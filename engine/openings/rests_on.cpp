#include "engine/openings/rests_on.h"

#include <algorithm>
#include <cmath>

#include "engine/brief/brief.h"
#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/openings/entrapment_gaps.h"
#include "engine/species/young.h"

namespace hummock::openings {
namespace {

constexpr const char* kGaps = "openings.pinch_count";

// Is a requirement met with so many of them?
bool any_met(const Site& site, int gaps) {
  Figure figure;
  figure.value = gaps;
  const auto rows = judge(site, {{kGaps, figure}}, {}, {});
  return std::any_of(rows.begin(), rows.end(),
                     [](const BriefRow& row) { return row.what == kGaps && row.met == Met::met; });
}

bool all_still_met(const Site& site, int before, int after) {
  Figure was, is;
  was.value = before;
  is.value = after;
  const auto used = judge(site, {{kGaps, was}}, {}, {});
  const auto careful = judge(site, {{kGaps, is}}, {}, {});
  for (std::size_t k = 0; k < used.size(); ++k)
    if (used[k].what == kGaps && used[k].met == Met::met && careful[k].met != Met::met)
      return false;
  return true;
}

Assumption of_the_body(const Model& model, double used, double careful, double breaks,
                       const char* words) {
  Assumption a;
  a.key = "body";
  a.used_value = plain_figure(used) + " m";
  a.careful_value = plain_figure(careful) + " m";
  a.breaking_value = plain_figure(breaks) + " m";
  a.words = words + a.breaking_value + " wide (used " + a.used_value + ")";
  take_confirmations(model.site, a);
  return a;
}

RestsOn what_the_gaps_rest_on(const Model& model, const Result& found) {
  RestsOn out;
  out.figures = {kGaps};
  if (!any_met(model.site, found.entrapment_gaps)) return out;
  const EntrapmentRange used = entrapment_gap_range(model.site.species);
  const EntrapmentRange careful = careful_gap_range(model.site.species);
  if (careful.from >= used.from && careful.to <= used.to) return out;
  const std::vector<double> gaps = entrapment_gaps_within(model, careful);
  if (all_still_met(model.site, found.entrapment_gaps, static_cast<int>(gaps.size()))) return out;
  const auto wide = std::find_if(gaps.begin(), gaps.end(), [&](double g) { return g >= used.to; });
  if (wide != gaps.end())
    out.list.push_back(of_the_body(model, used.to, careful.to, *wide, "its body is less than "));
  const auto slim =
      std::find_if(gaps.rbegin(), gaps.rend(), [&](double g) { return g < used.from; });
  if (slim != gaps.rend())
    out.list.push_back(of_the_body(model, 2.0 * used.from, 2.0 * careful.from, 2.0 * *slim,
                                   "its body is more than "));
  return out;
}

}  // namespace

RestsOn what_it_rests_on(const Model& model, const Result& found) {
  RestsOn out;
  out.figures = {"openings.largest_m"};
  out.besides.push_back(what_the_gaps_rest_on(model, found));
  const Sourced<double>& head = model.site.species.least_opening;
  const auto careful = careful_end(head, kSmaller);
  if (!careful || found.largest_m >= head.value || found.largest_m < *careful) return out;
  Assumption a;
  a.key = "least_opening";
  a.used_value = plain_figure(head.value) + " m";
  a.careful_value = plain_figure(*careful) + " m";
  a.breaking_value = plain_figure(found.largest_m) + " m";
  a.words = std::string(opening_is_of_young(model.site.species) ? "the young's" : "its") +
            " head does not pass " + a.breaking_value + " (used " + a.used_value + ")";
  take_confirmations(model.site, a);
  out.list.push_back(a);
  return out;
}

}  // namespace hummock::openings
