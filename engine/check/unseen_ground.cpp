#include "engine/check/unseen_ground.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "engine/brief/given.h"
#include "engine/check/analyses.h"
#include "engine/ground/guests.h"

namespace hummock {
namespace {

constexpr std::array<std::string_view, 2> kOfTheInside{"space", "relief"};

constexpr std::string_view kSteepest = "relief.max_slope_deg";

// `what`: the key of the figure.
bool concerns(const Unseen& unseen, const Analysis& analysis, const std::string& what) {
  if (unseen.key == kFormFace) return what == kSteepest;
  const auto& reads = analysis.depends_on;
  if (std::find(reads.begin(), reads.end(), "ground") == reads.end()) return false;
  if (unseen.key == kBasinDetail) return analysis.name == "dig";
  if (unseen.key == ground::kGuestGround) return analysis.name == "sight";
  const bool inside =
      std::find(kOfTheInside.begin(), kOfTheInside.end(), analysis.name) != kOfTheInside.end();
  return unseen.key != kFormCut || !inside;
}

Assumption assumption_of(const Unseen& unseen, const Site& site) {
  Assumption a;
  a.key = unseen.key;
  a.words = unseen.words;
  a.careful_value = unseen.careful;
  a.used_value = unseen.used;
  take_confirmations(site, a);
  return a;
}

// Both must hold.
Assumption together(const Assumption& a, const Assumption& b) {
  Assumption both;
  both.key = a.key + "+" + b.key;
  both.words = a.words + "; and " + b.words;
  both.careful_value = a.careful_value + ", " + b.careful_value;
  both.used_value = a.used_value + ", " + b.used_value;
  if (a.confirmed() && b.confirmed()) {
    both.confirmed_by =
        a.confirmed_by == b.confirmed_by ? a.confirmed_by : a.confirmed_by + ", " + b.confirmed_by;
    both.confirmed_on = std::max(a.confirmed_on, b.confirmed_on);
  }
  return both;
}

void keep_to_the_most(std::vector<Assumption>& ifs) {
  while (ifs.size() > kMostIfs) {
    const Assumption last = together(ifs[ifs.size() - 2], ifs.back());
    ifs.pop_back();
    ifs.back() = last;
  }
}

void add_ifs(const Model& model, BriefRow& row) {
  if (row.standing != Standing::met && row.standing != Standing::met_if) return;
  const Analysis* analysis = find_analysis(analysis_of(row.what));
  if (analysis == nullptr) return;
  for (const Unseen& unseen : model.unseen) {
    if (!concerns(unseen, *analysis, row.what)) continue;
    row.ifs.push_back(assumption_of(unseen, model.site));
    if (!row.ifs.back().confirmed()) row.standing = Standing::met_if;
  }
  keep_to_the_most(row.ifs);
}

}  // namespace

void rest_on_unseen_ground(const Model& model, std::vector<BriefRow>& rows) {
  for (BriefRow& row : rows) {
    add_ifs(model, row);
    keep_to_the_most(row.ifs);
  }
}

}  // namespace hummock
