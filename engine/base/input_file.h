// Reading what a user gave, once: the bytes judged are the bytes whose checksum a report shows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "engine/base/input_error.h"

namespace hummock {

// A file that was read, for the record.
struct InputFile {
  std::string role;  // "site", "species", "ground raster" …
  std::string name;  // the file's own name, without the folders it lay in
  std::string sha256;
  std::uintmax_t bytes = 0;
};

struct InputBytes {
  std::string bytes;
  InputFile record;
};

inline constexpr std::uintmax_t kMostInputBytes = 2'000'000'000;

// All of a plain file. Pipes, devices and folders are refused without waiting for them. Throws
// InputError at `where` with what is `allowed` there.
InputBytes read_input(const std::filesystem::path& path, const std::string& role,
                      const Where& where, const std::string& allowed);

InputFile record_of(const std::string& role, const std::filesystem::path& path,
                    std::string_view bytes);

}  // namespace hummock
