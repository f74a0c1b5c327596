// What those share that run work in a process of its own (child_process.h, supervise.h).
#pragma once

#include <sys/prctl.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>

// Under a sanitizer memory is mapped by terabytes and deaths are its own to tell.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define HUMMOCK_SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define HUMMOCK_SANITIZED 1
#endif
#endif

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
