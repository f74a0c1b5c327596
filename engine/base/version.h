#pragma once

namespace hummock {

// "0.1.0", from the build file.
const char* version();

}  // namespace hummock
