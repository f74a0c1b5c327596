#include "engine/base/csv_field.h"

namespace hummock {

std::string csv_field(std::string_view text) {
  const bool formula =
      !text.empty() && std::string_view("=+-@\t\r").find(text[0]) != std::string_view::npos;
  const bool marked = text.find_first_of(",\"\r\n") != std::string_view::npos;
  std::string out;
  if (marked) out.push_back('"');
  if (formula) out.push_back('\'');
  for (const char c : text) {
    if (marked && c == '"') out.push_back('"');
    out.push_back(c);
  }
  if (marked) out.push_back('"');
  return out;
}

}  // namespace hummock
