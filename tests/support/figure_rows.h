// Rows of a brief that a test makes, and every figure of an analysis asked for from both sides.
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"

namespace hummock::test {

inline Requirement asked(const std::string& what, std::optional<double> at_least,
                         std::optional<double> at_most = {}) {
  Requirement r;
  r.what = what;
  r.at_least = at_least;
  r.at_most = at_most;
  r.source = "invented for the test";
  return r;
}

// Each figure is there, has a row, and as a requirement is met a little inside of its value and
// short a little outside. `brief_of` judges such rows, a site of its own for each call.
inline void each_is_met_and_short(
    const Figures& figures, const FigureRows& rows_of_all,
    const std::function<std::vector<BriefRow>(std::vector<Requirement>)>& brief_of) {
  std::vector<Requirement> leasts;
  std::vector<Requirement> mosts;  // apart: a site that asked for both would contradict itself
  for (const FigureInfo& f : rows_of_all) {
    ASSERT_EQ(figures.count(f.key), 1U) << f.key;
    const double value = *figures.at(f.key).value;
    leasts.push_back(asked(f.key, value - 1e-3));
    leasts.push_back(asked(f.key, value + 1e-3));
    mosts.push_back(asked(f.key, {}, value + 1e-3));
    mosts.push_back(asked(f.key, {}, value - 1e-3));
  }
  EXPECT_EQ(figures.size(), rows_of_all.size()) << "a figure without a row";
  for (const std::vector<Requirement>& rows : {leasts, mosts}) {
    const std::vector<BriefRow> brief = brief_of(rows);
    ASSERT_EQ(brief.size(), rows.size());
    for (std::size_t k = 0; k < brief.size(); ++k)
      EXPECT_EQ(brief[k].met, k % 2 == 0 ? Met::met : Met::short_of)
          << brief[k].what << " " << brief[k].required;
  }
}

}  // namespace hummock::test
