// Runs the built program as a user would and keeps what it said.
#pragma once

#include <filesystem>
#include <string>

namespace hummock::testing {

struct Said {
  int status = -1;
  std::string out;
  std::string err;
};

// `arguments` goes through the shell; run inside `folder`.
Said run_program(const std::string& arguments, const std::filesystem::path& folder);

// A fresh empty folder, removed again at the end of its life.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  int files() const;  // how many it holds, hidden ones too

 private:
  std::filesystem::path path_;
};

std::string text_of(const std::filesystem::path& file);
void write_text(const std::filesystem::path& file, const std::string& text);

}  // namespace hummock::testing
