// A number to four significant digits, as "%.4g" and fmt's "{:.4g}" write it, at a tenth of their
// cost: tables of a million places hold tens of millions of them.
//
// A float times a power of ten up to 10^12 is exact in a double (24 + 28 bits), so the rounding is
// that of the number itself; ties, and what lies outside 0.0001..9999, are left to fmt.
#pragma once

#include <string>

namespace hummock {

void append_four_digits(std::string& out, float value);

}  // namespace hummock
