// Runs a command in a child process, so that its death is told and tidied up after.
//
// Libraries we draw and mesh with end the whole program when memory fails, in ways no handler can
// catch. The work therefore runs in a process forked before any thread starts; this one only waits,
// hands on SIGINT, SIGTERM and SIGHUP, and when the child dies says why in one line, removes what
// it had begun (temporaries.h) and gives the status: 3 when memory gave out (the allocator had
// failed, a block of 32 MB was no longer to be had at the death, or the system killed it), 4 for
// any other death.
#pragma once

#include <functional>

namespace hummock {

inline constexpr int kResourceStatus = 3;
inline constexpr int kFaultStatus = 4;
inline constexpr int kStoppedStatus = 130;

inline constexpr const char* kNoMemoryLine =
    "out of memory; nothing was replaced. A larger `cell` in [ground] needs less";
inline constexpr const char* kFaultLine =
    "a fault in hummock itself, not in your files; nothing was replaced. Please report it";

// Returns what `work` returned, or the status of its death. `work` must not throw. With
// HUMMOCK_UNSUPERVISED set in the environment (for a debugger) it runs here.
int supervise(const std::function<int()>& work);

}  // namespace hummock
