// hummock help: what the program knows, made from its own tables.
#include <fmt/core.h>

#include <memory>

#include "engine/base/input_error.h"
#include "engine/cli/commands.h"
#include "engine/cli/help_figures.h"

namespace hummock::cli {
namespace {

struct Topic {
  const char* name;
  const char* says;
  std::string (*page)(const std::string& key);
};

// One row a topic.
constexpr Topic kTopics[] = {
    {"figures", "what a requirement may ask for", figures_page},
};

std::string topics() {
  std::string names;
  for (const Topic& t : kTopics) names += std::string(names.empty() ? "" : ", ") + t.name;
  return names;
}

int help(const std::string& topic, const std::string& key) {
  for (const Topic& t : kTopics) {
    if (topic != t.name) continue;
    fmt::print("{}", t.page(key));
    return kAllMet;
  }
  throw InputError({"", 0, "help"}, "\"" + topic + "\"", topics());
}

}  // namespace

void add_help(CLI::App& app, Run& run) {
  auto topic = std::make_shared<std::string>();
  auto key = std::make_shared<std::string>();
  CLI::App* command = app.add_subcommand("help", "explain: " + topics());
  command->add_option("TOPIC", *topic, topics())->required();
  command->add_option("KEY", *key, "one of it");
  command->callback([topic, key, &run] { run = [topic, key] { return help(*topic, *key); }; });
}

}  // namespace hummock::cli
