#include <fmt/core.h>

#include <memory>

#include "engine/base/assets.h"
#include "engine/cli/commands.h"
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

std::string whole_page() {
  const auto prose = assets_folder() / "site-file-page.md";
  return grammar::page(read_text_file(prose.string(), "the prose of the page of all keys"));
}

std::string words_on(const HelpAsked& asked) {
  if (asked.markdown) return whole_page();
  if (asked.topic == "site") return grammar::help(grammar::site_table(), "site", asked.key);
  if (asked.topic == "species") {
    return grammar::help(grammar::species_table(), "species", asked.key);
  }
  throw InputError({"", 0, "help"}, "\"" + asked.topic + "\"", "site or species");
}

}  // namespace

void add_help(CLI::App& app, Run& run) {
  auto asked = std::make_shared<HelpAsked>();
  CLI::App* command =
      app.add_subcommand("help", "Explain the keys of a site or species file, one by one");
  command->add_option("topic", asked->topic, "site or species")->required();
  command->add_option("key", asked->key, "a table or a key: boundary.section.joint_gap");
  command->add_flag("--markdown", asked->markdown, "the whole page, for examples/SITE-FILE.md");
  command->callback([asked, &run] {
    run = [asked] {
      save_or_print("-", words_on(*asked));
      return kAllMet;
    };
  });
}

}  // namespace hummock::cli
