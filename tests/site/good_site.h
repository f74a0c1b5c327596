// The good site file of tests/data/site, and one-line changes to it.
#pragma once

#include <filesystem>
#include <string>

namespace hummock {

std::filesystem::path good_site_file();
const std::string& good_site_text();
const std::string& good_species_text();

// `text` with the first `from` changed to `to`; a test failure when `from` is not there.
std::string replaced(std::string text, const std::string& from, const std::string& to);
// 1-based line of the first line of the good site that holds `part`.
int line_with(const std::string& part);
int line_with(const std::string& text, const std::string& part);

// A folder of its own that is removed at the end.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void write(const std::string& name, const std::string& text) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace hummock
