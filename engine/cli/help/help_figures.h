// hummock help figures [KEY]: the catalogue of figures, made from what the analyses declare.
#pragma once

#include <string>

namespace hummock::cli {

// The whole list, those of one analysis, or all that is known of one figure. Throws InputError with
// the nearest key for one that is none.
std::string figures_page(const std::string& key);

}  // namespace hummock::cli
