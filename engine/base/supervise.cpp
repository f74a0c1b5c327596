#include "engine/base/supervise.h"

#include <fmt/format.h>
#include <sys/mman.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <new>

#include "engine/base/own_process.h"
#include "engine/base/temporaries.h"

namespace hummock {
namespace {

constexpr std::size_t kLastBlock = 32U << 20U;

// Handlers of signals and of failed allocation reach nothing but globals.
std::atomic<bool>* memory_failed = nullptr;
volatile pid_t child_of_ours = 0;

void on_failed_allocation() {
  if (memory_failed != nullptr) memory_failed->store(true);
  throw std::bad_alloc();
}

// Only calls that a signal handler may make.
void on_death(int number) {
  void* block =
      ::mmap(nullptr, kLastBlock, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  if (block == MAP_FAILED && memory_failed != nullptr) memory_failed->store(true);
  std::signal(number, SIG_DFL);
  ::raise(number);
}

void watch_own_death() {
  std::set_new_handler(on_failed_allocation);
#ifndef HUMMOCK_SANITIZED
  static std::array<char, 65536> stack;
  stack_t own{};
  own.ss_sp = stack.data();
  own.ss_size = stack.size();
  ::sigaltstack(&own, nullptr);
  struct sigaction action {};
  action.sa_handler = on_death;
  action.sa_flags = SA_ONSTACK | SA_NODEFER;
  for (const int s : {SIGABRT, SIGSEGV, SIGBUS, SIGTRAP, SIGILL, SIGFPE}) {
    ::sigaction(s, &action, nullptr);
  }
#endif
}

// What the terminal sends reaches the child by itself; what was sent to this process does not.
void hand_on(int number, siginfo_t* from, void* /*context*/) {
  if (from->si_code <= 0 && child_of_ours > 0) ::kill(child_of_ours, number);
}

sigset_t requests_to_stop() {
  sigset_t set;
  ::sigemptyset(&set);
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) ::sigaddset(&set, s);
  return set;
}

void hand_on_signals() {
  struct sigaction action {};
  action.sa_sigaction = hand_on;
  action.sa_flags = SA_SIGINFO | SA_RESTART;
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) ::sigaction(s, &action, nullptr);
}

int told(const char* line, int status) {
  std::fprintf(stderr, "%s\n", line);
  return status;
}

int status_of_death(int number) {
  remove_temporaries();
  const bool stopped = number == SIGINT || number == SIGTERM || number == SIGHUP;
  if (stopped) return told("stopped; nothing half-written is left", kStoppedStatus);
  if (number == SIGKILL || memory_failed->load()) return told(kNoMemoryLine, kResourceStatus);
  return told(fmt::format("{} (signal {})", kFaultLine, number).c_str(), kFaultStatus);
}

int wait_for(pid_t child) {
  const int raw = wait_for_end(child);
  return WIFEXITED(raw) ? WEXITSTATUS(raw) : status_of_death(WTERMSIG(raw));
}

[[noreturn]] void run_as_child(const std::function<int()>& work, pid_t parent) {
  if (!bound_to(parent)) std::_Exit(kFaultStatus);  // it died in between
  watch_own_death();
  std::exit(work());
}

// What comes while the two part is held back: before there is a child it would be lost here, and in
// the child before its own handlers stand. What came before the fork has not reached the child.
pid_t fork_with_signals(const std::function<int()>& work, pid_t parent) {
  const sigset_t requests = requests_to_stop();
  ::sigprocmask(SIG_BLOCK, &requests, nullptr);
  hand_on_signals();
  const pid_t child = ::fork();
  if (child == 0) {
    for (const int s : {SIGINT, SIGTERM, SIGHUP}) std::signal(s, SIG_DFL);
    ::sigprocmask(SIG_UNBLOCK, &requests, nullptr);
    run_as_child(work, parent);
  }
  child_of_ours = child;
  sigset_t came;
  ::sigpending(&came);
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) {
    if (child > 0 && ::sigismember(&came, s) == 1) ::kill(child, s);
  }
  ::sigprocmask(SIG_UNBLOCK, &requests, nullptr);
  return child;
}

}  // namespace

int supervise(const std::function<int()>& work) {
  if (std::getenv("HUMMOCK_UNSUPERVISED") != nullptr) return work();
  share_temporaries();
  void* page = ::mmap(nullptr, sizeof(std::atomic<bool>), PROT_READ | PROT_WRITE,
                      MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  if (page == MAP_FAILED) return told(kNoMemoryLine, kResourceStatus);
  memory_failed = new (page) std::atomic<bool>(false);
  const pid_t parent = ::getpid();
  std::fflush(nullptr);
  const pid_t child = fork_with_signals(work, parent);
  if (child < 0) return told(kNoMemoryLine, kResourceStatus);
  return wait_for(child);
}

}  // namespace hummock
