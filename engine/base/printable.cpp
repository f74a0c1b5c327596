#include "engine/base/printable.h"

#include <fmt/format.h>

#include <vector>

namespace hummock {
namespace {

struct Lead {
  std::size_t length;
  char32_t bits;
  char32_t least;  // of what this length may say: no overlong forms
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if ((byte >> 5) == 6) return {2, byte & 0x1FU, 0x80};
  if ((byte >> 4) == 14) return {3, byte & 0x0FU, 0x800};
  if ((byte >> 3) == 30) return {4, byte & 0x07U, 0x10000};
  return {0, 0, 0};
}

bool is_noncharacter(char32_t c) {
  return (c & 0xFFFEU) == 0xFFFEU || (c >= 0xFDD0 && c <= 0xFDEF);
}

bool is_control(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0);
}

// Moves, turns round or hides what stands beside it.
bool is_unseen(char32_t c) {
  return c == 0x061C || c == 0x200E || c == 0x200F || c == 0xFEFF || (c >= 0x2028 && c <= 0x202E) ||
         (c >= 0x2066 && c <= 0x2069) || (c >= 0xFFF9 && c <= 0xFFFB) ||
         (c >= 0xE0000 && c <= 0xE0FFF);
}

}  // namespace

char32_t next_character(std::string_view text, std::size_t& at) {
  const std::size_t from = at++;
  const Lead lead = lead_of(static_cast<unsigned char>(text[from]));
  if (lead.length == 0 || from + lead.length > text.size()) return kNoCharacter;
  char32_t c = lead.bits;
  for (std::size_t k = 1; k < lead.length; ++k) {
    const auto byte = static_cast<unsigned char>(text[from + k]);
    if ((byte >> 6) != 2) return kNoCharacter;
    c = (c << 6U) | (byte & 0x3FU);
  }
  if (c < lead.least || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return kNoCharacter;
  at = from + lead.length;
  return c;
}

std::size_t characters_in(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) next_character(text, at);
  return count;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    const char32_t c = next_character(text, at);
    if (c == kNoCharacter || (c < 0x80 && is_control(c))) {
      out += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[from]));
    } else if (is_control(c) || is_unseen(c) || is_noncharacter(c)) {
      out += fmt::format("\\u{{{:04X}}}", static_cast<std::uint32_t>(c));
    } else {
      out += text.substr(from, at - from);
    }
  }
  return out;
}

std::string shortened(std::string_view text, std::size_t most) {
  if (text.size() <= most) return std::string(text);
  std::vector<std::size_t> starts;
  for (std::size_t at = 0; at < text.size(); next_character(text, at)) starts.push_back(at);
  if (starts.size() <= most) return std::string(text);
  const std::size_t tail = most / 3;
  const std::size_t head = most - tail - 1;
  std::string out(text.substr(0, starts[head]));
  out += "…";
  return out.append(text.substr(starts[starts.size() - tail]));
}

std::string printable_line(std::string_view text, std::size_t most) {
  // Escapes lengthen: what a very long text has beyond this is cut away in any case.
  return shortened(printable(shortened(text, 4 * most)), most);
}

std::string drawable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    const char32_t c = next_character(text, at);
    const bool blank = c == '\n' || c == '\t' || c == '\r';
    const bool fit = c != kNoCharacter && !is_noncharacter(c) && (blank || !is_control(c));
    out += fit ? text.substr(from, at - from) : std::string_view("\xEF\xBF\xBD");
  }
  return out;
}

}  // namespace hummock
