// hummock: the command line. Exit status: outcome.h.
#include <string>
#include <string_view>

#include "engine/base/supervise.h"
#include "engine/base/version.h"
#include "engine/cli/commands.h"
#include "engine/cli/outcome.h"
#include "engine/cli/plain_output.h"

namespace {

// Hands over to another program, which looks after itself.
bool hands_over(int argc, char** argv) {
  return argc > 1 && std::string_view(argv[1]) == "view";
}

}  // namespace

int main(int argc, char** argv) {
  using namespace hummock::cli;
  CommandLine line(
      "Hummock models an animal enclosure and checks that it holds, shelters and suits the "
      "animal.\n"
      "A calculation aid: it defers to keepers, vets, local codes and licensed engineers.",
      "hummock", std::string("hummock ") + hummock::version());
  for (const auto add : {add_check, add_report, add_shade, add_export, add_map, add_sun, add_light,
                         add_new, add_compare, add_view, add_help}) {
    add(line);
  }
  const auto command = [&] {
    guard_output();
    return told_outcome([&] { return line.run(argc, argv); });
  };
  return hands_over(argc, argv) ? command() : hummock::supervise(command);
}
