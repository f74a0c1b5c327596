// Any bytes as surveyed points: points or InputError.
#include "engine/ground/point_file.h"
#include "tests/fuzz/scratch_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const hummock::fuzz::ScratchFile file(data, size);
  try {
    hummock::ground::read_points(file.path(), {});
  } catch (const hummock::InputError&) {
  }
  return 0;
}
