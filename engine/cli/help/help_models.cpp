#include "engine/cli/help/help_models.h"

#include <sstream>

#include "engine/base/assets.h"
#include "engine/check/analyses.h"
#include "engine/toml/toml_tree.h"

namespace hummock::cli {
namespace {

constexpr std::size_t kColumns = 86;  // of a terminal, as the page is set

// Broken between words into lines of at most kColumns.
std::string wrapped(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  std::size_t column = 0;
  for (std::string word; words >> word;) {
    if (column > 0 && column + 1 + word.size() > kColumns) {
      out += '\n';
      column = 0;
    }
    if (column > 0) out += ' ';
    out += word;
    column += word.size() + (column > 0 ? 1 : 0);
  }
  return out + "\n";
}

}  // namespace

std::string models_page() {
  std::string page =
      read_text_file((assets_folder() / "help/models.txt").string(), "the models and their limits");
  for (const Analysis& a : analyses()) {
    if (a.model.empty()) continue;
    page += "\n[" + a.name + "]\n" + wrapped(a.model) + wrapped("Limits: " + a.limits);
  }
  return page;
}

}  // namespace hummock::cli
