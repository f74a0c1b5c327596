// Houses: indoor quarters and the hours of the year the animal needs them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::houses {

struct Row {
  std::string name;
  double floor_m2 = 0, height_m = 0, volume_m3 = 0;
  std::optional<double> low_c, high_c;
  int hides = 0, climb_places = 0;
  bool vents_guarded = true;
  std::vector<std::string> faults;
};
struct ClimateHour {
  std::string time;  // as in the file
  double temperature_c = 0;
};
struct Result {
  std::vector<Row> list;
  double floor_m2 = 0;                    // all houses
  std::optional<double> hours_below_low;  // of the climate file, below the species' outdoor limit
  std::optional<double> outdoor_low_c;
};
// Reads an hourly CSV with a header naming `time` and `temperature`. Throws InputError.
std::vector<ClimateHour> read_climate(const std::filesystem::path& file);
Result analyse(const Model& model, const std::vector<ClimateHour>& climate = {});

}  // namespace hummock::houses
