#include "engine/brief/contradictions.h"

#include <cmath>

#include "engine/brief/asked.h"
#include "engine/brief/judge_words.h"
#include "engine/brief/when.h"
#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

// So much of a limit two may overlap by rounding: 3 × 0.1 against 0.3.
constexpr double kRoundingOfLimits = 1e-9;

std::string place_of(const Requirement& row) {
  return row.where.file + ":" + std::to_string(row.where.line);
}

void refuse_limits(const Requirement& least, const Requirement& most, const Site& site) {
  const auto low = limits_here(least, site).low;
  const auto high = limits_here(most, site).high;
  if (!low || !high || *low <= *high + kRoundingOfLimits * std::abs(*high)) return;
  throw InputError(place_of_high(most),
                   "at most " + plain_number(*high) + " of " + most.what + ", of which " +
                       place_of(least) + " asks at least " + plain_number(*low),
                   "limits that can both be met");
}

void refuse_words(const Requirement& a, const Requirement& b) {
  const auto odds = words_at_odds(a, b);
  if (!odds) return;
  Where where = b.where;
  where.key += "." + odds->key;
  throw InputError(where,
                   odds->found + " of " + b.what + ", of which " + place_of(a) + " asks that " +
                       in_quotes(odds->word) + " be there",
                   "words that can both be met");
}

bool comparable(const Asked& a, const Asked& b, const Site& site) {
  if (a.row->what.empty() || a.row->what != b.row->what) return false;
  if (a.set != nullptr && b.set != nullptr && a.set != b.set) return false;
  return at_once(site, a.row->when, b.row->when);
}

}  // namespace

void refuse_contradictions(const Site& site) {
  const std::vector<Asked> rows = rows_asked(site);
  for (const Asked& a : rows) {
    for (const Asked& b : rows) {
      if (!comparable(a, b, site)) continue;
      refuse_limits(*a.row, *b.row, site);
      refuse_words(*a.row, *b.row);
    }
  }
}

}  // namespace hummock
