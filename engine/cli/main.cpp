// hummock: the command line. Exit status 0 all met, 1 something short, 2 bad input, 130 stopped.
#include <fmt/core.h>

#include <clocale>

#include "engine/base/input_error.h"
#include "engine/base/progress.h"
#include "engine/base/version.h"
#include "engine/cli/commands.h"

namespace {

constexpr int kStopped = 130;

// CLI11's own messages can run over lines; ours are one.
std::string first_line(std::string text) {
  return text.substr(0, text.find('\n'));
}

// CLI11 would only say that a command is missing.
void refuse_unknown_command(const CLI::App& app, int argc, char** argv) {
  if (argc < 2 || argv[1][0] == '-') return;
  std::string allowed;
  for (const CLI::App* command : app.get_subcommands({})) {
    if (command->get_name() == argv[1]) return;
    allowed += (allowed.empty() ? "" : ", ") + command->get_name();
  }
  throw hummock::InputError({"", 0, "command"}, std::string("\"") + argv[1] + "\"", allowed);
}

int run_chosen(const hummock::cli::Run& run) {
  try {
    return run();
  } catch (const hummock::InputError& error) {
    fmt::print(stderr, "{}\n", error.what());
  } catch (const hummock::Cancelled&) {
    fmt::print(stderr, "stopped; nothing half-written is left\n");
    return kStopped;
  } catch (const std::bad_alloc&) {
    fmt::print(stderr, "not enough memory; a larger `cell` in [ground] needs less\n");
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
  }
  return hummock::cli::kBadInput;
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{
      "Hummock models an animal enclosure and checks that it holds, shelters and suits the "
      "animal.\n"
      "A calculation aid: it defers to keepers, vets, local codes and licensed engineers.",
      "hummock"};
  app.require_subcommand(1);
  app.set_version_flag("--version", std::string("hummock ") + hummock::version());
  hummock::cli::Run run;
  using namespace hummock::cli;
  for (const auto add : {add_check, add_report, add_shade, add_export, add_map, add_sun, add_new,
                         add_compare, add_view, add_help}) {
    add(app, run);
  }
  try {
    refuse_unknown_command(app, argc, argv);
    app.parse(argc, argv);
  } catch (const CLI::Success& asked) {  // --help, --version
    return app.exit(asked);
  } catch (const hummock::InputError& error) {
    fmt::print(stderr, "{}\n", error.what());
    return kBadInput;
  } catch (const CLI::ParseError& error) {
    fmt::print(stderr, "{}; see hummock --help\n", first_line(error.what()));
    return kBadInput;
  }
  return run_chosen(run);
}
