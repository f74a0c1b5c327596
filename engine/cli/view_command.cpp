// hummock view: hands over to the viewer, a program of its own (this one knows nothing of windows).
#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <memory>

#include "engine/base/input_error.h"
#include "engine/cli/commands.h"

namespace hummock::cli {
namespace {

int view(const std::string& site, const std::vector<std::string>& rest) {
  const auto viewer =
      std::filesystem::read_symlink("/proc/self/exe").parent_path() / "hummock-view";
  std::vector<std::string> words{viewer.string(), site};
  words.insert(words.end(), rest.begin(), rest.end());
  std::vector<char*> argv;
  argv.reserve(words.size() + 1);
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  ::execv(viewer.c_str(), argv.data());
  throw InputError({"", 0, "view"}, std::string("no viewer (") + std::strerror(errno) + ")",
                   "the program hummock-view beside hummock");
}

}  // namespace

void add_view(CommandLine& line) {
  auto site = std::make_shared<std::string>();
  Command command = line.command("view", "open the site in the viewer");
  command.required("SITE", *site, "NAME.site.toml");
  command.keep_rest();  // further flags are the viewer's own
  command.runs([site, command] { return view(*site, command.rest()); });
}

}  // namespace hummock::cli
