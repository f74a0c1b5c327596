// Checking a text grid before GDAL reads it.
//
// GDAL's readers of text grids turn what is no number into 0 and open files that are cut short.
// Here every word is looked at first, so that a slip is told with its line.
#pragma once

#include <filesystem>

#include "engine/base/input_error.h"

namespace hummock::ground {

// Is it an Arc/Info ASCII grid (its first word is ncols) or a GRASS one (north:)?
bool is_text_grid(const std::filesystem::path& file);

// Throws InputError with the file's line when a header value or a height is no finite number, or
// when there are not exactly rows × columns heights.
void check_text_grid(const std::filesystem::path& file);

// The same for a grid written as lines of x, y and z (GDAL's XYZ): after a header line, if there is
// one, every line that holds something must begin with three finite numbers.
void check_point_grid(const std::filesystem::path& file);

}  // namespace hummock::ground
