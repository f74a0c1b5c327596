#include "engine/foresight/foresight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "engine/ground/ground.h"

namespace hummock::foresight {
namespace {

// Bytes for each node of the ground, for each thing on it, and whatever the size; measured by
// tests/bench/yards/memory.py, rounded up.
struct Need {
  const char* name;
  double per_node, per_thing;
};

// The program, its libraries and the species; the built model.
constexpr double kProgram = 55e6;
constexpr Need kModel{"model", 60.0, 20e3};

// What each analysis takes over the model at its peak.
constexpr Need kAnalyses[] = {
    {"space", 40.0, 0.0},     {"relief", 8.0, 0.0},   {"leap", 300.0, 20e3},
    {"dig", 20.0, 2e3},       {"openings", 0.0, 2e3}, {"entry", 0.0, 2e3},
    {"shade", 100.0, 10e3},   {"sight", 40.0, 10e3},  {"water", 45.0, 0.0},
    {"burrows", 40.0, 2e3},   {"houses", 0.0, 2e3},   {"earthworks", 10.0, 0.0},
    {"quantities", 0.0, 1e3}, {"service", 4.0, 1e3}};

double bytes(const Need& need, double nodes, double things) {
  return need.per_node * nodes + need.per_thing * things;
}

double things_of(const Site& site) {
  double panels = 0.0;
  const Polygon& outline = site.boundary.outline;
  for (std::size_t k = 0; k < outline.size(); ++k)
    panels += geom::distance(outline[k], outline[(k + 1) % outline.size()]) / 2.0;
  return panels + static_cast<double>(site.objects.size() + site.plantings.size() +
                                      site.dens.size() + site.surroundings.size());
}

double analyses_together(const Asked& asked, double nodes, double things) {
  std::vector<double> each;
  for (const Need& need : kAnalyses)
    if (asked.only.empty() || asked.only.count(need.name) > 0)
      each.push_back(bytes(need, nodes, things));
  double all = 0.0;
  for (const double one : each) all += one;
  return all;
}

}  // namespace

double foreseen_peak(const Site& site, const Asked& asked) {
  const double nodes = ground::nodes_of(site), things = things_of(site);
  return kMargin *
         (kProgram + bytes(kModel, nodes, things) + analyses_together(asked, nodes, things));
}

namespace {

std::string in_words(double bytes) {
  return bytes < 1e9 ? fmt::format("{:.0f} MB", bytes / 1e6)
                     : fmt::format("{:.1f} GB", bytes / 1e9);
}

}  // namespace

std::optional<Word> word_on(double foreseen, std::optional<std::uint64_t> free) {
  if (!free || foreseen <= kMuch * static_cast<double>(*free)) return std::nullopt;
  const std::string both = fmt::format("about {} of memory are foreseen at the peak, {} are free",
                                       in_words(foreseen), in_words(static_cast<double>(*free)));
  if (foreseen <= static_cast<double>(*free)) return Word{both, false};
  return Word{"out of memory before the start: " + both +
                  "; nothing was begun. A larger `cell` in [ground] needs less; --all-the-same "
                  "begins nevertheless",
              true};
}

}  // namespace hummock::foresight
