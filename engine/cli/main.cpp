// hummock: the command line. Exit status: outcome.h.
#include <malloc.h>

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

// Blocks from this size on go back to the machine when they are let go. The library would raise it
// by itself up to 32 MB and keep what is let go between blocks that live: 70 MB of leap's 1.03 GB
// on ten hectares.
void let_go_of_large_blocks() {
  constexpr int kLarge = 4 << 20;  // bytes; a setting, no answer hangs on it
  mallopt(M_MMAP_THRESHOLD, kLarge);
  mallopt(M_TRIM_THRESHOLD, kLarge);
}

}  // namespace

int main(int argc, char** argv) {
  using namespace hummock::cli;
  let_go_of_large_blocks();
  CommandLine line(
      "Hummock models an animal enclosure and checks that it holds, shelters and suits the "
      "animal.\n"
      "A calculation aid: it defers to keepers, vets, local codes and licensed engineers.",
      "hummock", std::string("hummock ") + hummock::version());
  for (const auto add : {add_check, add_report, add_shade, add_export, add_map, add_sun, add_new,
                         add_compare, add_view, add_help}) {
    add(line);
  }
  const auto command = [&] {
    guard_output();
    return told_outcome([&] { return line.run(argc, argv); });
  };
  return hands_over(argc, argv) ? command() : hummock::supervise(command);
}
