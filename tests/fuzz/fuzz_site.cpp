// Any bytes as a site file: a site, or InputError in one line of 300 characters at most.
#include <cstdlib>
#include <string_view>

#include "engine/base/input_error.h"
#include "engine/base/printable.h"
#include "engine/site/read_site.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    hummock::read_site_text(text, "fuzz.site.toml");
  } catch (const hummock::InputError& error) {
    const std::string line = error.what();
    if (hummock::characters_in(line) > 300 || line != hummock::printable(line)) std::abort();
  }
  return 0;
}
