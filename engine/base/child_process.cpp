#include "engine/base/child_process.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/resource.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <limits>

#include "engine/base/input_error.h"
#include "engine/base/own_process.h"
#include "engine/base/resource_error.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr int kOnABusyMachine = 6;
constexpr int kPatience = 50;  // ms between looks at the clock and at `stopped`

fs::path find_program(const std::string& name) {
  std::error_code ignored;
  const fs::path own = fs::read_symlink("/proc/self/exe", ignored).parent_path();
  for (const fs::path& folder :
       {own, own.parent_path() / "libexec" / "hummock", fs::path(HUMMOCK_PROGRAMS)}) {
    if (fs::is_regular_file(folder / name, ignored)) return folder / name;
  }
  throw InputError({"", 0, name}, "no such program", "the program " + name + " beside this one");
}

// Owns the process and the end of the pipe it speaks into.
class Child {
 public:
  Child(const fs::path& program, std::vector<std::string> words) {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw ResourceError(failed(program, errno));
    from_ = ends[0];
    const int error = start(program, std::move(words), ends[1]);
    ::close(ends[1]);
    if (error == 0) return;
    ::close(from_);
    throw ResourceError(failed(program, error));
  }
  ~Child() {
    ::close(from_);
    if (pid_ <= 0) return;
    ::kill(pid_, SIGKILL);
    reap();
  }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  int from() const { return from_; }

  int reap() {
    const int raw = wait_for_end(pid_);
    pid_ = 0;
    return raw;
  }

 private:
  static std::string failed(const fs::path& program, int error) {
    return program.filename().string() + " could not be started (" + std::strerror(error) + ")";
  }

  int start(const fs::path& program, std::vector<std::string> words, int to) {
    words.insert(words.begin(), program.string());
    std::vector<char*> argv;
    argv.reserve(words.size() + 1);
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, to, STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawnattr_t how;
    posix_spawnattr_init(&how);
    sigset_t usual;
    sigemptyset(&usual);
    sigaddset(&usual, SIGPIPE);
    sigaddset(&usual, SIGXFSZ);
    posix_spawnattr_setsigdefault(&how, &usual);
    posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGDEF);
    const int error = ::posix_spawn(&pid_, program.c_str(), &actions, &how, argv.data(), environ);
    posix_spawnattr_destroy(&how);
    posix_spawn_file_actions_destroy(&actions);
    if (error != 0) pid_ = 0;
    return error;
  }

  pid_t pid_ = 0;
  int from_ = -1;
};

// True at the end of what the child says.
bool read_more(int from, std::string& bytes) {
  std::array<char, 1U << 16U> block;
  const ssize_t got = ::read(from, block.data(), block.size());
  if (got < 0) return errno != EINTR;
  bytes.append(block.data(), static_cast<std::size_t>(got));
  return got == 0;
}

ChildAnswer::End listen(Child& child, const ChildLimits& limits, const Progress& progress,
                        std::string& bytes) {
  const auto over = Clock::now() + kOnABusyMachine * limits.time;
  while (true) {
    if (progress.stopped()) throw Cancelled();
    if (Clock::now() > over) return ChildAnswer::End::too_slow;
    pollfd wait{child.from(), POLLIN, 0};
    if (::poll(&wait, 1, kPatience) <= 0) continue;
    if (read_more(child.from(), bytes)) return ChildAnswer::End::done;
    if (bytes.size() > limits.answer) return ChildAnswer::End::too_much;
  }
}

void limit(__rlimit_resource what, rlim_t most) {
  rlimit now{};
  ::getrlimit(what, &now);
  now.rlim_cur = std::min(now.rlim_cur, std::min(now.rlim_max, most));
  ::setrlimit(what, &now);
}

}  // namespace

ChildAnswer run_child(const std::string& program, const std::vector<std::string>& arguments,
                      const ChildLimits& limits, const Progress& progress) {
  std::vector<std::string> words{std::to_string(::getpid()), std::to_string(limits.time.count()),
                                 std::to_string(limits.memory)};
  words.insert(words.end(), arguments.begin(), arguments.end());
  Child child(find_program(program), std::move(words));
  ChildAnswer answer;
  answer.end = listen(child, limits, progress, answer.bytes);
  if (answer.end != ChildAnswer::End::done) return answer;
  const int raw = child.reap();
  if (progress.stopped()) throw Cancelled();
  answer.end = WIFEXITED(raw) ? ChildAnswer::End::done : ChildAnswer::End::died;
  answer.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : WTERMSIG(raw);
  if (answer.end == ChildAnswer::End::died && answer.status == SIGXCPU) {
    answer.end = ChildAnswer::End::too_slow;
  }
  return answer;
}

bool take_limits(int& argc, char**& argv) {
  if (argc < 4) return false;
  if (!bound_to(std::atoi(argv[1]))) return false;
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) std::signal(s, SIG_IGN);  // the parent decides
  limit(RLIMIT_CPU, static_cast<rlim_t>(std::strtoull(argv[2], nullptr, 10)));
  limit(RLIMIT_CORE, 0);
#ifndef HUMMOCK_SANITIZED
  limit(RLIMIT_AS, static_cast<rlim_t>(std::strtoull(argv[3], nullptr, 10)));
#endif
  argc -= 3;
  argv += 3;
  return true;
}

std::uint64_t own_memory_limit() {
  rlimit now{};
  if (::getrlimit(RLIMIT_AS, &now) != 0 || now.rlim_cur == RLIM_INFINITY) {
    return std::numeric_limits<std::uint64_t>::max();
  }
  return now.rlim_cur;
}

}  // namespace hummock
