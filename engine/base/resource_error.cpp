#include "engine/base/resource_error.h"

#include <cerrno>
#include <cstring>

#include "engine/base/input_error.h"

namespace hummock {

bool means_no_room(int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
    case EIO:
    case ENOMEM:
    case EMFILE:
    case ENFILE:
    case EPIPE:
      return true;
    default:
      return false;
  }
}

void refuse_place(const std::string& path, int error) {
  const std::string reason = std::strerror(error);
  if (means_no_room(error)) {
    throw ResourceError(path + ": could not be written (" + reason + "); nothing was replaced");
  }
  throw InputError({path, 0, ""}, "a place that cannot be written (" + reason + ")",
                   "a writable folder with room");
}

}  // namespace hummock
