#include "engine/base/version.h"

namespace hummock {

const char* version() {
  return HUMMOCK_VERSION;
}

}  // namespace hummock
