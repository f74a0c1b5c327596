// Reading surveyed points from CSV. The format: point_survey.h.
#pragma once

#include <filesystem>
#include <vector>

#include "engine/base/input_file.h"
#include "geometry/vec.h"

namespace hummock::ground {

struct SurveyPoint {
  geom::Vec3 at;
  int line = 0;
};

// In order of x, then y; each place once. Throws InputError with the file's own line for what is no
// point, and `where` (the site file's key) when the file cannot be read. `read`: adds its record.
std::vector<SurveyPoint> read_points(const std::filesystem::path& file, const Where& where,
                                     std::vector<InputFile>* read = nullptr);

}  // namespace hummock::ground
