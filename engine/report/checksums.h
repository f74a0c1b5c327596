// SHA-256 (FIPS 180-4, by Nettle) of what a report was made from.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "engine/site/site.h"

namespace hummock::report {

std::string sha256_hex(std::string_view bytes);
std::string sha256_base64(std::string_view bytes);  // as a content security policy names a script

struct InputFile {
  std::string role;  // "site", "species", "ground raster" …
  std::string name;  // the file's own name, without the folders it lay in
  std::string sha256;
  std::uintmax_t bytes = 0;
};
// Stands in for the checksum of a file that is not there: a site drawn and not yet saved.
inline constexpr const char* kNotThere = "no such file when the report was written";

// The site, its species and every file it names, in that order.
std::vector<InputFile> input_files(const Site& site);

}  // namespace hummock::report
