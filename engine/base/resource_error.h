// The machine gave out: no memory, no room on a disk, an output that went away.
//
// Not bad input and not a fault of the program: `main` prints one line and exits with 3.
// std::bad_alloc means the same.
#pragma once

#include <stdexcept>
#include <string>

namespace hummock {

class ResourceError : public std::runtime_error {
 public:
  explicit ResourceError(const std::string& line) : std::runtime_error(line) {}
};

// Is this what a full disk, a quota, a size limit or a broken device says (errno)?
bool means_no_room(int error);

// "report.html: could not be written (No space left on device)"; throws ResourceError when the
// machine gave out, InputError when the place is one that cannot be written.
[[noreturn]] void refuse_place(const std::string& path, int error);

}  // namespace hummock
