#include "tests/support/paths.h"

namespace hummock::tests {

std::string source_dir() {
  return HUMMOCK_SOURCE_DIR;
}
std::string test_data() {
  return HUMMOCK_TEST_DATA;
}
std::string program() {
  return HUMMOCK_PROGRAM;
}

}  // namespace hummock::tests
