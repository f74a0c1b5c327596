// Dig on models built from files: the shipped examples, and a family of square yards of 12 to 100 m
// in tests/bench/yards/. Prints stations, seconds of processor for all and for one, and the
// exponent of the family's seconds against its stations, which may be 1.15 at most; the exit status
// tells.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <string>
#include <vector>

#include "engine/dig/dig.h"
#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace {

using namespace hummock;

constexpr double kMostExponent = 1.15;

struct Measured {
  double stations = 0, seconds = 0;
};

double processor_seconds() {
  std::timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

// The least of three.
Measured measure(const std::filesystem::path& file) {
  const Model model = build_model(read_site(file));
  Measured m{0, 1e300};
  for (int k = 0; k < 3; ++k) {
    const double from = processor_seconds();
    m.stations = static_cast<double>(dig::analyse(model).stations.size());
    m.seconds = std::min(m.seconds, processor_seconds() - from);
  }
  std::printf("%-32s %8.0f stations %9.4f s %8.1f us each\n", file.filename().c_str(), m.stations,
              m.seconds, 1e6 * m.seconds / m.stations);
  return m;
}

// Slope of log seconds against log stations, least squares.
double exponent(const std::vector<Measured>& list) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const Measured& m : list) {
    const double x = std::log(m.stations), y = std::log(m.seconds);
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

}  // namespace

int main() {
  const std::filesystem::path source = tests::source_dir();
  for (const char* name : {"north-yard", "larkfell-terrace", "crater-paddock"}) {
    measure(source / "examples" / name / (std::string(name) + ".site.toml"));
  }
  std::vector<Measured> family;
  for (const int side : {12, 25, 50, 100}) {
    family.push_back(
        measure(source / "tests/bench/yards" / ("speed-" + std::to_string(side) + ".site.toml")));
  }
  const double slope = exponent(family);
  std::printf("exponent against the stations %.3f, at most %.2f: %s\n", slope, kMostExponent,
              slope <= kMostExponent ? "kept" : "MISSED");
  return slope <= kMostExponent ? 0 : 1;
}
