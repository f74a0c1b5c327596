// A range check for the command line that refuses not-a-number (CLI11's own lets it through).
#pragma once

#include <CLI/App.hpp>
#include <cstdlib>
#include <string>

namespace hummock::cli {

inline CLI::Validator finite_range(double low, double high) {
  const std::string allowed = CLI::detail::to_string(low) + " to " + CLI::detail::to_string(high);
  return CLI::Validator(
      [low, high, allowed](std::string& text) {
        char* end = nullptr;
        const double value = std::strtod(text.c_str(), &end);
        const bool number = end != text.c_str() && *end == '\0';
        // Written so that not-a-number fails too.
        if (number && value >= low && value <= high) return std::string();
        return "found " + text + ", allowed a number from " + allowed;
      },
      "FLOAT in " + allowed);
}

}  // namespace hummock::cli
