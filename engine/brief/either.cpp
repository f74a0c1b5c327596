#include "engine/brief/either.h"

#include <algorithm>
#include <array>

namespace hummock {
namespace {

// The best first. A row of a set is never waived by itself.
constexpr std::array<Standing, 7> kBestFirst{
    Standing::met,         Standing::met_if,   Standing::met_as_drawn, Standing::open,
    Standing::not_checked, Standing::short_of, Standing::waived};

std::size_t rank_of(Standing standing) {
  return static_cast<std::size_t>(std::find(kBestFirst.begin(), kBestFirst.end(), standing) -
                                  kBestFirst.begin());
}

Standing standing_of(const SetStanding& set, const std::vector<BriefRow>& rows) {
  std::optional<std::size_t> worst;
  for (const std::size_t i : set.rows) {
    const BriefRow& row = rows[i];
    if (!row.must || row.standing == Standing::not_asked) continue;
    worst = std::max(worst.value_or(0), rank_of(row.standing));
  }
  return worst ? kBestFirst[*worst] : Standing::not_asked;
}

void take_ifs(const SetStanding& set, const std::vector<BriefRow>& rows, BriefRow& either) {
  for (const std::size_t i : set.rows) {
    if (!rows[i].must) continue;
    for (const Assumption& a : rows[i].ifs) {
      const bool there = std::any_of(either.ifs.begin(), either.ifs.end(),
                                     [&](const Assumption& b) { return b.key == a.key; });
      if (!there) either.ifs.push_back(a);
    }
  }
}

// All that is not checked was left out on purpose.
bool left_out(const BriefRow& either, const std::vector<BriefRow>& rows) {
  bool any = false;
  for (const SetStanding& set : either.sets)
    for (const std::size_t i : set.rows) {
      if (!rows[i].must || rows[i].standing != Standing::not_checked) continue;
      if (rows[i].not_run != NotRun::not_asked) return false;
      any = true;
    }
  return any;
}

void set_standing_of(BriefRow& either, const SetStanding* best, const std::vector<BriefRow>& rows) {
  either.standing = best == nullptr ? Standing::not_asked : best->standing;
  const bool met = either.standing == Standing::met || either.standing == Standing::met_if ||
                   either.standing == Standing::met_as_drawn;
  either.met = met                                     ? Met::met
               : either.standing == Standing::short_of ? Met::short_of
                                                       : Met::not_checked;
  if (met) take_ifs(*best, rows, either);
  if (either.standing == Standing::not_checked && left_out(either, rows))
    either.not_run = NotRun::not_asked;
  if (best == nullptr) either.why = "not asked: none of its rows is asked on this site";
  if (either.standing == Standing::short_of && !either.waiver.empty()) {
    either.standing = Standing::waived;
    either.why = either.waiver;
  }
}

void settle(BriefRow& either, const std::vector<BriefRow>& rows) {
  either.ifs.clear();
  either.why.clear();
  either.not_run.reset();
  const SetStanding* best = nullptr;
  for (SetStanding& set : either.sets) {
    set.standing = standing_of(set, rows);
    if (set.standing == Standing::not_asked) continue;
    if (best == nullptr || rank_of(set.standing) < rank_of(best->standing)) best = &set;
  }
  set_standing_of(either, best, rows);
}

}  // namespace

void settle_eithers(std::vector<BriefRow>& rows) {
  for (BriefRow& row : rows)
    if (row.kind == RowKind::either) settle(row, rows);
}

}  // namespace hummock
