// The commands and what each takes, over the library that reads command lines, whose headers (slow
// to compile) command_line.cpp alone includes.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace hummock::cli {

// Numbers allowed, the ends among them. Not-a-number is in no range.
struct Range {
  double low = 0.0;
  double high = 0.0;
};

// One command. What is bound to it must live until the command has run. A name without dashes is
// told by its place ("SITE"); "-o,--out" are two names of one option. Anything that does not fit is
// refused when the line is read, in one line of standard error and status 2.
class Command {
 public:
  Command(CLI::App& parser, std::function<int()>& chosen) : parser_(parser), chosen_(chosen) {}

  Command& required(const char* names, std::string& into, const std::string& help);
  Command& required(const char* names, double& into, Range allowed, const std::string& help);
  Command& text(const char* names, std::string& into, const std::string& help);
  Command& texts(const char* names, std::vector<std::string>& into, const std::string& help);
  Command& number(const char* names, double& into, Range allowed, const std::string& help);
  Command& number(const char* names, std::optional<double>& into, Range allowed,
                  const std::string& help);
  Command& flag(const char* names, bool& into, const std::string& help);

  // Words that are none of the options are kept, not refused.
  Command& keep_rest();
  std::vector<std::string> rest() const;

  // What is done when this command was chosen; its value is the exit status.
  void runs(std::function<int()> act);

 private:
  CLI::App& parser_;
  std::function<int()>& chosen_;  // of the line
};

class CommandLine {
 public:
  CommandLine(const std::string& what, const std::string& name, const std::string& version);
  ~CommandLine();

  Command command(const char* name, const std::string& help);

  // Reads the words and runs the command they name; the exit status. Throws InputError for an
  // unknown command, and what the command throws.
  int run(int argc, char** argv);

 private:
  std::unique_ptr<CLI::App> parser_;
  std::function<int()> chosen_;
};

}  // namespace hummock::cli
