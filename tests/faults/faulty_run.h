// Runs the built program as a hostile world would: little memory, a small disk, lost outputs,
// signals, one processor.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace hummock::testing {

struct Circumstances {
  std::uint64_t memory = 0;     // bytes of address space; 0 = as it is
  std::uint64_t file_size = 0;  // bytes a file may have; 0 = as it is
  int processors = 0;           // 0 = as it is
  std::string output;           // where standard output goes; empty = kept
  int signal = 0;               // sent once, `after` the start, to the whole group
  std::chrono::milliseconds after{0};
  std::chrono::seconds patience{200};  // of the wall clock; then it counts as hung and is killed
};

struct Ended {
  bool hung = false;
  int status = -1;  // exit status, or 128 + the signal it died of
  std::string out;
  std::string err;
  double seconds = 0.0;            // of the wall clock
  double peak = 0.0;               // bytes of memory at once, of the largest process of it
  double processor_seconds = 0.0;  // of it and all it started: what a busy machine does not change
};

Ended run_in(const Circumstances& c, const std::vector<std::string>& words,
             const std::filesystem::path& folder);

// One line, printable, at most 300 characters.
bool is_one_plain_line(const std::string& text);

// A yard of 8 × 6 m in cells of 0.5 m with what is wanted added at its end; invented.
std::string small_yard(const std::string& more = "", const std::string& name = "Small yard");

// Its text for one mesh object.
std::string mesh_object(const std::string& file, const std::string& more = "");

bool is_sanitized();

}  // namespace hummock::testing
