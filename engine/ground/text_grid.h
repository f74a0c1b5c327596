// Checking a text grid before GDAL reads it.
//
// GDAL's readers of text grids turn what is no number into 0 and open files that are cut short.
// Here every word is looked at first, so that a slip is told with its line.
#pragma once

#include <string>
#include <string_view>

#include "engine/base/input_error.h"
#include "engine/base/progress.h"

namespace hummock::ground {

// Is it an Arc/Info ASCII grid (its first word is ncols) or a GRASS one (north:)?
bool is_text_grid(std::string_view bytes);

// Throws InputError with the line in `file` when a header value or a height is no finite number, or
// when there are not exactly rows × columns heights.
void check_text_grid(std::string_view bytes, const std::string& file, const Progress& progress);

// The same for a grid written as lines of x, y and z (GDAL's XYZ): after a header line, if there is
// one, every line that holds something must begin with three finite numbers.
void check_point_grid(std::string_view bytes, const std::string& file, const Progress& progress);

}  // namespace hummock::ground
