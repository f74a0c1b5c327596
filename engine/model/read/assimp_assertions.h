// Debian builds Assimp with its assertions on: a damaged file can end the whole program. The
// function below is the one they call; a program's own definition comes before the library's (ELF
// symbol rules), and this one throws instead. Where Assimp is built without assertions nothing
// calls it. Include it in one source of every program that reads or writes by Assimp.
#pragma once

#include <stdexcept>
#include <string>

namespace Assimp {
void aiAssertViolation(const char* expression, const char* file, int line);
[[gnu::used]] inline void aiAssertViolation(const char* expression, const char* /*file*/,
                                            int /*line*/) {
  throw std::runtime_error(std::string("damaged: the reader expected ") + expression);
}
}  // namespace Assimp
