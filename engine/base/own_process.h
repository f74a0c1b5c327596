// What those share that run work in a process of its own (child_process.h, supervise.h).
#pragma once

#include <sys/prctl.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>

namespace hummock {

// The child's raw status once it has ended, whatever signals come meanwhile.
inline int wait_for_end(pid_t child) {
  int raw = 0;
  while (::waitpid(child, &raw, 0) < 0 && errno == EINTR) {
  }
  return raw;
}

// In the child: it dies with its parent from now on. False when the parent died before.
inline bool bound_to(pid_t parent) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  return ::getppid() == parent;
}

}  // namespace hummock
