#include "engine/cli/command_line.h"

#include <fmt/core.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <cstdlib>
#include <utility>

#include "engine/base/input_error.h"
#include "engine/cli/commands.h"

namespace hummock::cli {
namespace {

// The library's own range check lets not-a-number through.
CLI::Validator in_range(Range range) {
  const std::string allowed =
      CLI::detail::to_string(range.low) + " to " + CLI::detail::to_string(range.high);
  return CLI::Validator(
      [range, allowed](std::string& text) {
        char* end = nullptr;
        const double value = std::strtod(text.c_str(), &end);
        const bool number = end != text.c_str() && *end == '\0';
        // Written so that not-a-number fails too.
        if (number && value >= range.low && value <= range.high) return std::string();
        return "found " + text + ", allowed a number from " + allowed;
      },
      "FLOAT in " + allowed);
}

// The library's messages can run over lines; ours are one.
std::string first_line(const std::string& text) {
  return text.substr(0, text.find('\n'));
}

// The library would only say that a command is missing.
void refuse_unknown_command(const CLI::App& parser, int argc, char** argv) {
  if (argc < 2 || argv[1][0] == '-') return;
  std::string allowed;
  for (const CLI::App* command : parser.get_subcommands({})) {
    if (command->get_name() == argv[1]) return;
    allowed += (allowed.empty() ? "" : ", ") + command->get_name();
  }
  throw InputError({"", 0, "command"}, std::string("\"") + argv[1] + "\"", allowed);
}

}  // namespace

Command& Command::required(const char* names, std::string& into, const std::string& help) {
  parser_.add_option(names, into, help)->required();
  return *this;
}

Command& Command::required(const char* names, double& into, Range allowed,
                           const std::string& help) {
  parser_.add_option(names, into, help)->required()->check(in_range(allowed));
  return *this;
}

Command& Command::text(const char* names, std::string& into, const std::string& help) {
  parser_.add_option(names, into, help);
  return *this;
}

Command& Command::texts(const char* names, std::vector<std::string>& into,
                        const std::string& help) {
  parser_.add_option(names, into, help)->delimiter(',');
  return *this;
}

Command& Command::number(const char* names, double& into, Range allowed, const std::string& help) {
  parser_.add_option(names, into, help)->check(in_range(allowed));
  return *this;
}

Command& Command::number(const char* names, std::optional<double>& into, Range allowed,
                         const std::string& help) {
  parser_.add_option(names, into, help)->check(in_range(allowed));
  return *this;
}

Command& Command::flag(const char* names, bool& into, const std::string& help) {
  parser_.add_flag(names, into, help);
  return *this;
}

Command& Command::keep_rest() {
  parser_.allow_extras();
  return *this;
}

std::vector<std::string> Command::rest() const {
  return parser_.remaining();
}

void Command::runs(std::function<int()> act) {
  // Not run here: the library would catch what it throws.
  parser_.callback([&chosen = chosen_, act = std::move(act)] { chosen = act; });
}

CommandLine::CommandLine(const std::string& what, const std::string& name,
                         const std::string& version)
    : parser_(std::make_unique<CLI::App>(what, name)) {
  parser_->require_subcommand(1);
  parser_->set_version_flag("--version", version);
}

CommandLine::~CommandLine() = default;

Command CommandLine::command(const char* name, const std::string& help) {
  return {*parser_->add_subcommand(name, help), chosen_};
}

int CommandLine::run(int argc, char** argv) {
  try {
    refuse_unknown_command(*parser_, argc, argv);
    parser_->parse(argc, argv);
  } catch (const CLI::Success& asked) {  // --help, --version
    return parser_->exit(asked);
  } catch (const CLI::ParseError& error) {
    fmt::print(stderr, "{}; see hummock --help\n", first_line(error.what()));
    return kBadInput;
  }
  return chosen_();
}

}  // namespace hummock::cli
