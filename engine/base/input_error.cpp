#include "engine/base/input_error.h"

#include <algorithm>

#include "engine/base/printable.h"

namespace hummock {
namespace {

std::string joined(const Where& where, const std::string& found, const std::string& allowed) {
  std::string line;
  if (!where.file.empty()) line += where.file + ":";
  if (where.line > 0) line += std::to_string(where.line) + ":";
  if (!line.empty()) line += " ";
  if (!where.key.empty()) line += where.key + ": ";
  return line + "found " + found + ", allowed " + allowed;
}

// Gives up characters of `part` (never below `least`) until the line would fit.
void give_up(std::string& part, std::size_t least, std::size_t& over) {
  const std::size_t now = characters_in(part);
  if (over == 0 || now <= least) return;
  const std::size_t left = std::max(least, now - std::min(now, over));
  over -= std::min(over, now - left);
  part = shortened(part, left);
}

}  // namespace

std::string one_line(const Where& where, const std::string& found, const std::string& allowed) {
  Where at{printable(where.file), where.line, printable(where.key)};
  std::string what = printable(found);
  std::string may = printable(allowed);
  const std::size_t length = characters_in(joined(at, what, may));
  std::size_t over = length > kLongestLine ? length - kLongestLine : 0;
  give_up(what, 60, over);
  give_up(at.file, 60, over);
  give_up(at.key, 40, over);
  give_up(may, 90, over);
  return joined(at, what, may);
}

InputError::InputError(Where where, std::string found, std::string allowed)
    : std::runtime_error(one_line(where, found, allowed)),
      where_(std::move(where)),
      found_(std::move(found)),
      allowed_(std::move(allowed)) {}

}  // namespace hummock
