#include "tests/house/source_tree.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <stdexcept>

#include "tests/support/paths.h"

namespace hummock::house {

namespace fs = std::filesystem;

namespace {

std::vector<std::string> lines_of(const fs::path& path) {
  std::ifstream in(path);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace

std::vector<SourceFile> sources_below(const std::string& folder) {
  const fs::path top = tests::source_dir();
  std::vector<SourceFile> files;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(top / folder)) {
    const std::string kind = entry.path().extension().string();
    if (!entry.is_regular_file() || (kind != ".h" && kind != ".cpp")) continue;
    files.push_back({fs::relative(entry.path(), top).generic_string(), lines_of(entry.path())});
  }
  std::sort(files.begin(), files.end(),
            [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

std::vector<std::string> includes_of(const SourceFile& file) {
  static const std::regex include("^\\s*#\\s*include\\s+\"([^\"]+)\".*$");
  std::vector<std::string> found;
  for (const std::string& line : file.lines) {
    std::smatch match;
    if (std::regex_match(line, match, include)) found.push_back(match[1]);
  }
  return found;
}

std::vector<std::string> list_of(const std::string& name) {
  std::vector<std::string> kept;
  for (const std::string& line : lines_of(fs::path(tests::source_dir()) / "tests/house" / name))
    if (!line.empty() && line.front() != '#') kept.push_back(line);
  return kept;
}

std::vector<std::string> top_level() {
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : fs::directory_iterator(tests::source_dir())) {
    const std::string name = entry.path().filename().string();
    const bool left_by_a_build = name.starts_with("build") || name.ends_with(".tmp");
    if (!name.starts_with('.') && !left_by_a_build) names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> programs_below(const std::string& folder) {
  const fs::path top = tests::source_dir();
  std::vector<std::string> found;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(top / folder)) {
    std::string start(4, '\0');
    if (!entry.is_regular_file()) continue;
    std::ifstream(entry.path(), std::ios::binary).read(start.data(), 4);
    if (start ==
        "\x7f"
        "ELF")
      found.push_back(fs::relative(entry.path(), top).generic_string());
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace hummock::house
