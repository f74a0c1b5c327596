// Pictures as PNG files.
#pragma once

#include <filesystem>

#include "viewer/draw/frame_target.h"

namespace hummock::viewer {

// Opaque RGB, written through save_through. Throws InputError when the place cannot be written.
void save_png(const std::filesystem::path& path, const Pixels& pixels);

// Bottom row first, as drawn. Throws InputError for a file that is not a PNG.
Pixels read_png(const std::filesystem::path& path);

// How far two pictures of one size are apart.
struct PictureDifference {
  double mean = 0.0;         // mean absolute difference of a channel, 0..255
  double changed_share = 0;  // share of pixels with a channel off by more than 24
};
// Throws std::invalid_argument when the sizes differ.
PictureDifference difference(const Pixels& a, const Pixels& b);

}  // namespace hummock::viewer
