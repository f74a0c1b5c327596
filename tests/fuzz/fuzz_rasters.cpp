// Any bytes as a survey raster: pixels or InputError.
#include "engine/ground/raster_file.h"
#include "tests/fuzz/scratch_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const hummock::fuzz::ScratchFile file(data, size);
  std::vector<std::string> notes;
  try {
    hummock::ground::read_pixels(file.path(), {{-2, -2}, {10, 8}}, {}, notes);
  } catch (const hummock::InputError&) {
  }
  return 0;
}
