#include "engine/base/input_error.h"

namespace hummock {

std::string one_line(const Where& where, const std::string& found, const std::string& allowed) {
  std::string line;
  if (!where.file.empty()) line += where.file + ":";
  if (where.line > 0) line += std::to_string(where.line) + ":";
  if (!line.empty()) line += " ";
  if (!where.key.empty()) line += where.key + ": ";
  line += "found " + found + ", allowed " + allowed;
  return line;
}

InputError::InputError(Where where, std::string found, std::string allowed)
    : std::runtime_error(one_line(where, found, allowed)),
      where_(std::move(where)),
      found_(std::move(found)),
      allowed_(std::move(allowed)) {}

}  // namespace hummock
