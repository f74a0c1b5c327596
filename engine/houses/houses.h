// Houses: indoor quarters and the hours of the year the animal needs them.
//
// Model. Floor area is the drawn outline's, wall thickness not taken off; volume is floor × height.
// A vent or door passes a ball of min(width, height), behind a grille min of that and its aperture;
// it is guarded when the ball is smaller than the species' least opening. A door need not be.
// It must open into the yard: what lies beyond it is taken from engine/barrier/house_ways.h, and a
// fence that stands unbroken on its line shuts it (a hole of the fence before it does not), and the
// animal must come to it over its own ground and get in by it (way_in.h). Houses whose plans have
// area in common are told: they are one room for ways out, and two for the room the animal has.
// Where hours are too cold and no house is drawn, that is a fault of the site. Climate: each row of
// the file stands for the time to the next (one hour); hours with a temperature strictly below the
// species' `outdoor_low` are counted, as they stand in the file (a file of part of a year gives
// that part's hours: see `climate_hours`). Air temperature only: no wind, wet or radiation.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/houses/light.h"
#include "engine/model/model.h"

namespace hummock::houses {

struct Row {
  std::string name;
  double floor_m2 = 0, height_m = 0, volume_m3 = 0;
  std::optional<double> low_c, high_c;
  int hides = 0, climb_places = 0;
  bool vents_guarded = true;
  std::optional<LightRange> light;  // nothing: none is drawn, or the site has no place
  std::vector<std::string> faults;
};
struct ClimateHour {
  std::string time;  // as in the file
  double temperature_c = 0;
  double hours = 1.0;  // the row stands for: to the next row where both times can be read
};
struct Result {
  std::vector<Row> list;
  double floor_m2 = 0;                    // all houses
  std::optional<double> hours_below_low;  // of the climate file, below the species' outdoor limit
  std::optional<double> outdoor_low_c;
  double volume_m3 = 0;
  int hides = 0, climb_places = 0;
  std::size_t climate_hours = 0;  // rows in the climate file
  std::optional<double> coldest_c;
  std::vector<InputFile> read;      // the climate file, as it was read; for the record only
  std::vector<std::string> faults;  // of the site as a whole: cold hours and no house
  std::vector<std::pair<int, int>> shared_plans;  // houses drawn over one another, of `list`
};
// Reads an hourly CSV with a header naming `time` and `temperature` (°C), in any order and among
// other columns. Throws InputError with the line: no such file, no such column, no rows, a field
// missing, a temperature that is no number from −90 to 60, times that are less than an hour apart.
// Times are kept as written; where they read as `YYYY-MM-DD HH:MM` (or with T) their step is
// checked. Going back is allowed: a typical year is put together from months of several years.
// `read`: its record is added there.
std::vector<ClimateHour> read_climate(const std::filesystem::path& file,
                                      std::vector<InputFile>* read = nullptr);
// The site's climate file, refused (engine/site/doubtful.h) when its times cannot be read, its rows
// are not an hour apart, or it is not a year.
std::vector<ClimateHour> climate_of(const Site& site, std::vector<InputFile>* read = nullptr);
Result analyse(const Model& model, const std::vector<ClimateHour>& climate = {});

}  // namespace hummock::houses
