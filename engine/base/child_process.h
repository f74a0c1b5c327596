// Runs a small program of ours beside this one, with limits, and keeps the bytes it says.
//
// For work on files that may be hostile: what crashes, hangs or grows does so there. The program is
// looked for beside the running one, then where the build put it. It is started by posix_spawn (no
// copy of this process's memory, safe beside threads), gets its limits as its first arguments, ends
// when this process ends, and is killed when `progress` says stop or its time is over.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>
#include <vector>

#include "engine/base/progress.h"

namespace hummock {

struct ChildLimits {
  std::chrono::seconds time{60};  // of the processor; six times as much of the wall clock
  std::uint64_t memory = 0;       // bytes of address space
  std::uint64_t answer = 0;       // bytes
};

struct ChildAnswer {
  enum class End { done, died, too_slow, too_much };  // too_much: an answer beyond its limit
  End end = End::done;
  int status = 0;  // done: of its exit; died: the signal
  std::string bytes;
};

// Throws Cancelled, InputError when the program is not there, ResourceError when the machine cannot
// start it.
ChildAnswer run_child(const std::string& program, const std::vector<std::string>& arguments,
                      const ChildLimits& limits, const Progress& progress);

// In the child: takes the limits off the front of its arguments and sets them. False when they are
// not there. The memory limit is left out under sanitizers, which map terabytes.
bool take_limits(int& argc, char**& argv);

// Address space this process may still be kept to, or the greatest number when there is no limit.
std::uint64_t own_memory_limit();

}  // namespace hummock
