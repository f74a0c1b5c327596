#include "engine/check/rests_on_body.h"

#include <algorithm>
#include <vector>

#include "engine/check/analyses.h"
#include "engine/check/body_doubts.h"

namespace hummock {
namespace {

// The brief of the analysis alone.
std::vector<BriefRow> brief_of(const Site& site, const std::string& analysis,
                               const Figures& figures) {
  std::vector<BriefRow> rows = judge(site, figures, {});
  std::erase_if(rows, [&](const BriefRow& r) { return r.what.rfind(analysis + ".", 0) != 0; });
  return rows;
}

bool is_met(const BriefRow& row) {
  return row.met == Met::met;
}

using Again = std::function<Figures(const Model&)>;

// Keys of the rows that are met, and short once these doubts are taken the careful way.
std::vector<std::string> turned_by(const std::vector<const BodyDoubt*>& taken, const Model& model,
                                   const std::string& analysis, const std::vector<BriefRow>& before,
                                   const Again& again) {
  Model careful = model;
  model.kept.hand_on(careful.kept);
  for (const BodyDoubt* doubt : taken) {
    if (doubt->take) doubt->take(careful.site.species);
    if (doubt->change) doubt->change(careful);
  }
  const std::vector<BriefRow> after = brief_of(model.site, analysis, again(careful));
  std::vector<std::string> out;
  for (std::size_t k = 0; k < before.size(); ++k)
    if (is_met(before[k]) && !is_met(after[k])) out.push_back(before[k].what);
  return out;
}

using Doubts = std::vector<const BodyDoubt*>;
using Turned = std::function<std::vector<std::string>(const Doubts&)>;

Doubts without(const Doubts& all, const Doubts& taken_off) {
  Doubts rest;
  for (const BodyDoubt* doubt : all)
    if (std::find(taken_off.begin(), taken_off.end(), doubt) == taken_off.end())
      rest.push_back(doubt);
  return rest;
}

bool enough(const Doubts& confirmed, const Doubts& all, const Turned& turned) {
  const Doubts rest = without(all, confirmed);
  return rest.empty() || turned(rest).empty();
}

// None of which may be left out.
Doubts least_set(const Doubts& all, const Turned& turned) {
  Doubts kept = all;
  for (const BodyDoubt* doubt : all) {
    const Doubts fewer = without(kept, {doubt});
    if (!fewer.empty() && enough(fewer, all, turned)) kept = fewer;
  }
  return kept;
}

Doubts first_if_enough(const Doubts& all, const Turned& turned) {
  const Doubts first{all.front()};
  return enough(first, all, turned) ? first : all;
}

}  // namespace

RestsOn rests_on_body(const Model& model, const std::string& analysis, const Figures& found,
                      const Again& again) {
  RestsOn out;
  const std::vector<BriefRow> before = brief_of(model.site, analysis, found);
  if (std::none_of(before.begin(), before.end(), is_met)) return out;
  const std::vector<BodyDoubt> list = body_doubts(model, analysis);
  if (list.empty()) return out;
  Doubts all;
  for (const BodyDoubt& doubt : list) all.push_back(&doubt);
  const Turned turned = [&](const Doubts& taken) {
    return turned_by(taken, model, analysis, before, again);
  };
  out.figures = turned(all);
  if (out.figures.empty()) return out;
  const bool quick = find_analysis(analysis)->cost != Cost::slow;
  const Doubts kept = quick ? least_set(all, turned) : first_if_enough(all, turned);
  for (const BodyDoubt* doubt : kept) out.list.push_back(doubt->told);
  out.explored = quick || kept.size() == 1;
  if (!out.explored) out.why_not = "which of these together turns it was not tried";
  return out;
}

}  // namespace hummock
