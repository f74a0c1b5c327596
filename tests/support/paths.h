// Where the tests find what they read and run. Known to one source alone: a path on every compile
// line would keep a compiler's cache from being shared between checkouts.
#pragma once

#include <string>

namespace hummock::tests {

std::string source_dir();  // the top of this source tree
std::string test_data();   // its tests/data
std::string program();     // the built hummock

}  // namespace hummock::tests
