// The catalogue of figures: every key of the results that a requirement may ask for.
//
// The rows are declared by the analyses (`figure_rows` in NAME_json.h); here they are found by key,
// put in words, and a requirement is held against them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/figures/figure_info.h"
#include "engine/site/site.h"

namespace hummock {

// All rows, in the order of the analyses.
const std::vector<const FigureInfo*>& all_figures();

// Nothing for a key that no requirement may ask for.
const FigureInfo* figure_info(const std::string& key);

// The figure's title, or the key itself when there is no such figure.
std::string figure_title(const std::string& key);

// Digits and unit as the catalogue has them: "108.0 m²", "0.74"; "–" for nothing. A key that is not
// in the catalogue gets four significant digits.
std::string figure_words(const std::string& key, const std::optional<double>& value);

// Throws InputError (file, line, key, nearest) for a requirement on a figure that no analysis
// makes, for one whose `unit` is not the figure's (metres asked of an area), and for one asked for
// each animal of a figure that does not add up over animals: only areas, volumes and counts of good
// things do (a share of 1.5 or an opening three heads wide would be met by anything); for a limit
// on words, words on a number or words that the figure never has; and for rows that contradict each
// other (engine/brief/contradictions.h).
void refuse_bad_requirements(const Site& site);

// Nearest key of the catalogue, for a key that is none.
std::optional<std::string> nearest_figure(const std::string& key);

}  // namespace hummock
