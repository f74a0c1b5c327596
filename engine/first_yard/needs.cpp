#include "engine/first_yard/needs.h"

#include <algorithm>

#include "engine/brief/asked.h"

namespace hummock::first_yard {
namespace {

// One that keeps so many, and of which no young are known.
Site keeping(int animals) {
  Site site;
  site.animals = animals;
  return site;
}

}  // namespace

std::optional<double> least_asked(const Species& species, const std::string& what, int animals) {
  std::optional<double> most;
  for (const Requirement& row : species.requirements) {
    if (row.what != what) continue;
    const std::optional<double> low = limits_here(row, keeping(animals)).low;
    if (low) most = std::max(most.value_or(*low), *low);
  }
  return most;
}

std::optional<double> most_asked(const Species& species, const std::string& what, int animals) {
  std::optional<double> least;
  for (const Requirement& row : species.requirements) {
    if (row.what != what) continue;
    const std::optional<double> high = limits_here(row, keeping(animals)).high;
    if (high) least = std::min(least.value_or(*high), *high);
  }
  return least;
}

bool asks(const Species& species, const std::string& beginning) {
  return std::any_of(species.requirements.begin(), species.requirements.end(),
                     [&](const Requirement& row) { return row.what.rfind(beginning, 0) == 0; });
}

}  // namespace hummock::first_yard
