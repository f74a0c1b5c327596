// hummock new: a first site file to edit.
#include <fmt/core.h>

#include <fstream>
#include <memory>
#include <sstream>

#include "engine/base/assets.h"
#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "engine/cli/commands.h"

namespace hummock::cli {
namespace {

std::string starting_text(const std::string& name) {
  std::ifstream in(assets_folder() / "new.site.toml", std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  std::string filled = text.str();
  const std::string mark = "@NAME@";
  for (std::size_t at = 0; (at = filled.find(mark, at)) != std::string::npos; at += name.size()) {
    filled.replace(at, mark.size(), name);
  }
  return filled;
}

void refuse_bad_name(const std::string& name) {
  if (name.empty() || name.find_first_of("/\\\"\n\r\t") != std::string::npos) {
    throw InputError({"", 0, "NAME"}, "\"" + name + "\"", "a name without slashes or quotes");
  }
}

int write_new(const std::string& name) {
  refuse_bad_name(name);
  const std::filesystem::path path = name + ".site.toml";
  if (std::filesystem::exists(path)) {
    throw InputError({path.string(), 0, ""}, "a file that is already there",
                     "a name not yet taken in this folder");
  }
  save_bytes(path, starting_text(name));
  fmt::print("{}: edit it, then run hummock check {}\n", path.string(), path.string());
  return kAllMet;
}

}  // namespace

void add_new(CommandLine& line) {
  auto name = std::make_shared<std::string>();
  Command command = line.command("new", "write a first site file, NAME.site.toml");
  command.required("NAME", *name, "name of the site and the file");
  command.runs([name] { return write_new(*name); });
}

}  // namespace hummock::cli
