#include "viewer/draw/picture.h"

#include <png.h>

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"

namespace hummock::viewer {

void save_png(const std::filesystem::path& path, const Pixels& pixels) {
  // libpng's simple face wants the top row first: a negative stride turns the picture over.
  std::vector<unsigned char> rgb;
  rgb.reserve(pixels.rgba.size() / 4 * 3);
  for (std::size_t i = 0; i + 3 < pixels.rgba.size(); i += 4)
    rgb.insert(rgb.end(), pixels.rgba.begin() + static_cast<std::ptrdiff_t>(i),
               pixels.rgba.begin() + static_cast<std::ptrdiff_t>(i) + 3);
  save_through(path, [&](const std::filesystem::path& part) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(pixels.width);
    image.height = static_cast<png_uint_32>(pixels.height);
    image.format = PNG_FORMAT_RGB;
    if (png_image_write_to_file(&image, part.c_str(), 0, rgb.data(), -pixels.width * 3, nullptr) ==
        0)
      throw InputError({path.string(), 0, ""},
                       std::string("a picture that cannot be written (") + image.message + ")",
                       "a writable place");
  });
}

Pixels read_png(const std::filesystem::path& path) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  if (png_image_begin_read_from_file(&image, path.c_str()) == 0)
    throw InputError({path.string(), 0, ""}, image.message, "a PNG picture");
  image.format = PNG_FORMAT_RGBA;
  Pixels out{static_cast<int>(image.width), static_cast<int>(image.height), {}};
  out.rgba.resize(PNG_IMAGE_SIZE(image));
  if (png_image_finish_read(&image, nullptr, out.rgba.data(), -out.width * 4, nullptr) == 0)
    throw InputError({path.string(), 0, ""}, image.message, "a PNG picture");
  return out;
}

PictureDifference difference(const Pixels& a, const Pixels& b) {
  if (a.width != b.width || a.height != b.height)
    throw std::invalid_argument("pictures of different size");
  double sum = 0.0;
  std::size_t changed = 0;
  for (std::size_t i = 0; i + 3 < a.rgba.size(); i += 4) {
    int most = 0;
    for (std::size_t c = 0; c < 3; ++c) {
      const int d = std::abs(a.rgba[i + c] - b.rgba[i + c]);
      sum += d;
      most = std::max(most, d);
    }
    if (most > 24) ++changed;
  }
  const double pixels = static_cast<double>(a.rgba.size()) / 4.0;
  return {sum / (3.0 * pixels), static_cast<double>(changed) / pixels};
}

}  // namespace hummock::viewer
