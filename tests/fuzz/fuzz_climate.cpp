// Any bytes as an hourly climate file: rows or InputError.
#include "engine/base/input_error.h"
#include "engine/houses/houses.h"
#include "tests/fuzz/scratch_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const hummock::fuzz::ScratchFile file(data, size);
  try {
    hummock::houses::read_climate(file.path());
  } catch (const hummock::InputError&) {
  }
  return 0;
}
