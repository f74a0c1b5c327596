// hummock help models: what each analysis computes and what it does not.
#pragma once

#include <string>

namespace hummock::cli {

// The page assets/help/models.txt, and a section for each analysis that says it itself.
std::string models_page();

}  // namespace hummock::cli
