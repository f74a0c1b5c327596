// Any bytes as a species file: a species or InputError.
#include "engine/base/input_error.h"
#include "engine/site/read_site.h"
#include "tests/fuzz/scratch_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const hummock::fuzz::ScratchFile file(data, size);
  try {
    hummock::read_species(file.path());
  } catch (const hummock::InputError&) {
  }
  return 0;
}
