#include "engine/foresight/foresight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "engine/check/analyses.h"
#include "engine/ground/ground.h"
#include "geometry/plan/polygon.h"

namespace hummock::foresight {
namespace {

// What was measured (tests/bench/yards/memory.py), rounded up: bytes for each node of the ground,
// for each thing on it and metre of fence, and whatever the size.
struct Need {
  double per_node = 0.0, per_thing = 0.0, fixed = 0.0;
};
using Needs = std::map<std::string, Need>;

constexpr double kProgram = 22e6;  // with its libraries and tables
constexpr double kRasters = 36e6;  // the library of rasters, opened where one is read or written
const Need kModel{56.0, 5e3};
// Of an analysis over the model, at its peak. (That of surfaces is 31 alone; beside others it is
// long over when they come to theirs, and kMargin covers what it is more.)
const Needs& of_analyses() {
  static const Needs needs{
      {"space", {95.0}},          {"relief", {5.0}},        {"leap", {0.0, 10e3}},
      {"dig", {3.0, 1e3}},        {"openings", {0.0, 1e3}}, {"entry", {0.0, 1e3}},
      {"shade", {215.0, 5e3}},    {"sight", {65.0, 5e3}},   {"water", {42.0}},
      {"burrows", {25.0, 1e3}},   {"houses", {0.0, 1e3}},   {"earthworks", {8.0}},
      {"quantities", {0.0, 1e3}}, {"service", {2.0, 1e3}},  {"surfaces", {20.0}},
      {"stations", {35.0}}};
  return needs;
}
// Leap lays pieces of ground of its own where a search comes to them, most about the fence: so much
// for each metre of it (0.25 to 1.4 MB measured; more where the ground is rough).
constexpr double kLeapFence = 1.25e6;
// Files of a shade day over its analysis (tables as text), and each of its suns' maps.
constexpr double kDayFiles = 175.0, kSunMap = 4.0;
constexpr double kLongestDay = 17.0;  // h, of the suns kept
constexpr double kSeasons = 60.0, kYear = 150.0;
const Need kPicture{0.0, 0.0, 20e6};   // of a map or a figure
const Need kReport{60.0, 20e3, 40e6};  // over its check, the model file apart
const Need kMesh{215.0, 20e3, 5e6};
const Need kSolid{640.0, 20e3, 40e6};

struct Size {
  double nodes = 0.0, things = 0.0, fence = 0.0;  // m
  bool stations = false;                          // without, that analysis asks for nothing
};

Size size_of(const Site& site) {
  Size size;
  size.nodes = ground::nodes_of(site);
  size.stations = !site.stations.empty();
  size.fence = geom::perimeter(site.boundary.outline);
  size.things = size.fence + static_cast<double>(site.objects.size() + site.plantings.size() +
                                                 site.dens.size() + site.surroundings.size());
  return size;
}

double bytes(const Need& need, const Size& size) {
  return need.per_node * size.nodes + need.per_thing * size.things + need.fixed;
}

double of_analysis(const std::string& name, const Size& size) {
  if (name == "stations" && !size.stations) return 0.0;
  const auto found = of_analyses().find(name);
  double sum = found == of_analyses().end() ? 0.0 : bytes(found->second, size);
  if (name == "leap") sum += kLeapFence * size.fence;
  return sum;
}

// With those whose results they read.
std::set<std::string> with_needs(std::set<std::string> only) {
  const auto& list = analyses();
  if (only.empty())
    for (const Analysis& a : list) only.insert(a.name);
  for (auto a = list.rbegin(); a != list.rend(); ++a)
    if (only.count(a->name) > 0) only.insert(a->after.begin(), a->after.end());
  return only;
}

double of_check(const std::set<std::string>& only, const Size& size) {
  double sum = 0.0;
  for (const std::string& name : with_needs(only)) sum += of_analysis(name, size);
  return sum;
}

// A layer is worked out by its analysis alone; a height by none.
double of_layer(const std::string& layer, const Size& size) {
  for (const Analysis& a : analyses())
    for (const Layer& l : a.layers)
      if (l.name == layer) return of_analysis(a.name, size);
  return 0.0;
}

double of_shade(const Asked& asked, Size size, double cell) {
  if (asked.shade_cell > cell) size.nodes *= std::pow(cell / asked.shade_cell, 2.0);
  double files = kYear;
  if (asked.work == Work::shade_seasons) files = kSeasons;
  if (asked.work == Work::shade_day)
    files = kDayFiles + kSunMap * std::ceil(kLongestDay * 60.0 / asked.step_minutes);
  return of_analysis("shade", size) + files * size.nodes + 2.0 * kPicture.fixed;  // side by side
}

bool opens_rasters(const Site& site, Work work) {
  return !site.ground.raster.empty() ||
         (work != Work::check && work != Work::mesh && work != Work::solid);
}

double of_work(const Site& site, const Asked& asked, const Size& size) {
  switch (asked.work) {
    case Work::check:
      return of_check(asked.only, size);
    case Work::report:
      return of_check(asked.only, size) + bytes(kReport, size) + bytes(kMesh, size);
    case Work::shade_day:
    case Work::shade_seasons:
    case Work::shade_year:
      return of_shade(asked, size, site.ground.cell);
    case Work::map:
      return of_layer(asked.only.empty() ? "" : *asked.only.begin(), size) + kPicture.fixed;
    case Work::mesh:
      return bytes(kMesh, size) + (asked.only.empty() ? 0.0 : of_analysis("leap", size));
    case Work::solid:
      return bytes(kSolid, size);
  }
  return 0.0;
}

}  // namespace

double foreseen_peak(const Site& site, const Asked& asked) {
  const Size size = size_of(site);
  const double program = kProgram + (opens_rasters(site, asked.work) ? kRasters : 0.0);
  return kMargin * (program + bytes(kModel, size) + of_work(site, asked, size));
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
