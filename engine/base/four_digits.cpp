#include "engine/base/four_digits.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <iterator>

namespace hummock {
namespace {

constexpr std::array<double, 8> kTens{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7};

// Decimals of a number that is shown with four digits.
std::size_t decimals_of(double size) {
  std::size_t decimals = 3;
  while (decimals > 0 && size >= kTens[4 - decimals]) --decimals;
  while (decimals < 7 && size * kTens[decimals] < 1000.0) ++decimals;
  return decimals;
}

}  // namespace

void append_four_digits(std::string& out, float value) {
  const double size = std::abs(static_cast<double>(value));
  if (value == 0.0F && !std::signbit(value)) {
    out += '0';
    return;
  }
  const bool plain = size >= 1e-4 && size < 9999.0;
  std::size_t decimals = plain ? decimals_of(size) : 0;
  const double scaled = plain ? size * kTens[decimals] : 0.0;
  const double whole = std::floor(scaled);
  if (!plain || scaled - whole == 0.5) {
    fmt::format_to(std::back_inserter(out), "{:.4g}", value);
    return;
  }
  auto digits = static_cast<unsigned>(scaled - whole > 0.5 ? whole + 1.0 : whole);
  while (decimals > 0 && digits % 10 == 0) digits /= 10, --decimals;
  std::array<char, 16> text{};
  std::size_t at = text.size();
  for (std::size_t k = 0; digits > 0 || k <= decimals; ++k) {
    if (k == decimals && k > 0) text[--at] = '.';
    text[--at] = static_cast<char>('0' + digits % 10);
    digits /= 10;
  }
  if (value < 0.0F) out += '-';
  out.append(text.data() + at, text.size() - at);
}

}  // namespace hummock
