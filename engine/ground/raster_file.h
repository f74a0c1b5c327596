// One band of heights in a raster file, through GDAL, with the checks of raster_survey.h.
//
// Only drivers that read one plain file: GeoTIFF, Arc/Info, GRASS and Surfer grids, XYZ. Lists of
// other files and services (VRT, WMS …) are refused; GDAL sees nothing of the disk but memory
// (memory_files.h) and PROJ asks no network.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/input_file.h"
#include "engine/base/progress.h"
#include "geometry/vec.h"

namespace hummock::ground {

// The pixels around an area. Pixel (c, r) has its centre at file pixel (first_col + c, first_row +
// r); a pixel without a height is NaN.
struct Pixels {
  int first_col = 0, first_row = 0;
  int cols = 0, rows = 0;
  std::vector<double> z;             // m, row by row from the top
  double to_col[3] = {0, 0, 0};      // file column of a point: c0 + c1 x + c2 y, centres at whole
  double to_row[3] = {0, 0, 0};      // numbers
  double pixel_size = 0.0;           // m, the smaller side
  int file_cols = 0, file_rows = 0;  // of the whole raster
  geom::Box2 file_box;               // what the whole raster covers
  double scale = 1.0;                // metres of the projection for one on the ground, at the site
  std::string system;                // the projection's name, or empty
  std::optional<geom::Vec2> place;   // degrees east and north by the projection, at the site
  std::string unusable;              // a height no ground has, e.g. "-9999", where one was met
  std::vector<InputFile> read;       // the files as they were read
};

// Reads what covers `area` (file coordinates) and a pixel more. Throws InputError: no such file,
// not a raster, degrees or feet, no position, nothing in common with `area`, no heights.
Pixels read_pixels(const std::filesystem::path& file, const geom::Box2& area, const Where& where,
                   std::vector<std::string>& notes, const Progress& progress = {});

}  // namespace hummock::ground
