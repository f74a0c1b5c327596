// Where the shipped data is: species, shaders, fonts, the report's page parts.
#pragma once

#include <filesystem>

namespace hummock {

// The assets folder: $HUMMOCK_ASSETS if set, else beside the installed program
// (../share/hummock), else the source tree the program was built from. Throws InputError when
// none exists.
std::filesystem::path assets_folder();

}  // namespace hummock
