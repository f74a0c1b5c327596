// hummock help: what the program knows, made from its own tables.
#include <fmt/core.h>

#include <memory>

#include "engine/base/assets.h"
#include "engine/base/input_error.h"
#include "engine/cli/commands.h"
#include "engine/cli/help/help_figures.h"
#include "engine/cli/help/help_models.h"
#include "engine/cli/terminal.h"
#include "engine/grammar/help.h"
#include "engine/grammar/tables.h"
#include "engine/toml/toml_tree.h"

namespace hummock::cli {
namespace {

struct HelpAsked {
  std::string topic;
  std::string key;
  bool markdown = false;
};

std::string asset(const char* name, const char* what) {
  return read_text_file((assets_folder() / name).string(), what);
}

std::string site_page(const HelpAsked& asked) {
  if (!asked.markdown) return grammar::help(grammar::site_table(), "site", asked.key);
  return grammar::page(asset("site-file-page.md", "the prose of the page of all keys"));
}
std::string species_page(const HelpAsked& asked) {
  return grammar::help(grammar::species_table(), "species", asked.key);
}
std::string figure_page(const HelpAsked& asked) {
  return figures_page(asked.key);
}
std::string page_of_models(const HelpAsked&) {
  return models_page();
}

struct Topic {
  const char* name;
  std::string (*page)(const HelpAsked& asked);
};

// One row a topic.
constexpr Topic kTopics[] = {
    {"site", site_page},
    {"species", species_page},
    {"figures", figure_page},
    {"models", page_of_models},
};

std::string topics() {
  std::string names;
  for (const Topic& t : kTopics) names += std::string(names.empty() ? "" : ", ") + t.name;
  return names;
}

int help(const HelpAsked& asked) {
  for (const Topic& t : kTopics) {
    if (asked.topic != t.name) continue;
    save_or_print("-", t.page(asked));
    return kAllMet;
  }
  throw InputError({"", 0, "help"}, "\"" + asked.topic + "\"", topics());
}

}  // namespace

void add_help(CommandLine& line) {
  auto asked = std::make_shared<HelpAsked>();
  Command command = line.command("help", "Explain: " + topics());
  command.required("topic", asked->topic, topics());
  command.text("key", asked->key,
               "a table or a key (boundary.section.height), or a figure (leap.margin)");
  command.flag("--markdown", asked->markdown, "of site: the page examples/SITE-FILE.md");
  command.runs([asked] { return help(*asked); });
}

}  // namespace hummock::cli
