// A row of the brief in the words that terminal, report, window and findings share.
#pragma once

#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"

namespace hummock {

// The catalogue's row of a figure, nullptr for none: it stands above (engine/check/catalogue.h).
using FindFigure = const FigureInfo* (*)(const std::string& key);

// Digits and unit as the catalogue has them: "108.0 m²"; "–" for nothing.
std::string value_in_words(const FigureInfo* figure, const std::optional<double>& value);

// The figure's title, the row's own words, or the name of an either.
std::string title_of(const BriefRow& row, FindFigure find);
// "108.0 m²", "≥ 2.00 m", "mesh, glass", "none found" of what is met for want of any, "" for what
// can have no value.
std::string value_of(const BriefRow& row, FindFigure find);
// "at least 93 m² (31 for each of 3)"
std::string limit_of(const BriefRow& row, FindFigure find);

// What is said below a row, a line each: who asks it, when it is asked, who asks more, of which set
// it is; of an either, how each set stands and what it is short of. Nothing for a plain row of the
// site's own.
std::vector<std::string> more_of(const BriefRow& row, const std::vector<BriefRow>& all,
                                 FindFigure find);

// "area in plan: 80.0 m², at least 93 m² asked for (the north end)"
std::string short_in_words(const BriefRow& row, FindFigure find);
// Of an either: "none of its sets is met: a larger yard (…); a smaller one with a roof (…)"
std::string sets_in_words(const BriefRow& either, const std::vector<BriefRow>& all,
                          FindFigure find);

}  // namespace hummock
