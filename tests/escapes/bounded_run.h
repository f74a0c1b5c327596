// Runs the built program with an end: a search that would go on, or an allocation that would take
// the machine, is stopped and told apart from an answer.
#pragma once

#include <filesystem>
#include <string>

namespace hummock::escapes {

inline constexpr int kStopped = 124;  // status of what ran out of time

struct Said {
  int status = -1;
  std::string out, err;
};

// `arguments` goes through the shell, run inside `folder`. Memory is bounded to 3 GB, but not under
// a sanitizer, which maps more than that for itself.
Said bounded_run(const std::string& arguments, const std::filesystem::path& folder, double seconds);

}  // namespace hummock::escapes
