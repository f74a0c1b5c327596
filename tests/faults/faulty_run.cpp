#include "tests/faults/faulty_run.h"

#include <fcntl.h>
#include <sched.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <thread>

#include "tests/support/paths.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

void limit(__rlimit_resource what, std::uint64_t most) {
  if (most == 0) return;
  const rlimit both{most, most};
  ::setrlimit(what, &both);
}

void redirect(int fd, const std::string& file) {
  const int to = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
  ::dup2(to, fd);
}

void keep_to_processors(int count) {
  if (count == 0) return;
  cpu_set_t now;
  cpu_set_t few;
  CPU_ZERO(&few);
  ::sched_getaffinity(0, sizeof now, &now);
  for (int k = 0; k < CPU_SETSIZE && CPU_COUNT(&few) < count; ++k) {
    if (CPU_ISSET(k, &now)) CPU_SET(k, &few);
  }
  ::sched_setaffinity(0, sizeof few, &few);
}

[[noreturn]] void become(const Circumstances& c, const std::vector<std::string>& words,
                         const fs::path& folder, const std::string& out, const std::string& err) {
  ::setpgid(0, 0);
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  redirect(STDOUT_FILENO, c.output.empty() ? out : c.output);
  redirect(STDERR_FILENO, err);
  if (::chdir(folder.c_str()) != 0) ::_exit(97);
  keep_to_processors(c.processors);
  limit(RLIMIT_FSIZE, c.file_size);
  limit(RLIMIT_AS, c.memory);
  const std::string path = tests::program();
  std::vector<char*> argv{const_cast<char*>(path.c_str())};
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  ::execv(path.c_str(), argv.data());
  ::_exit(98);
}

int status_of(int raw) {
  return WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw);
}

void wait_for(pid_t child, const Circumstances& c, Ended& ended) {
  const auto start = Clock::now();
  bool sent = c.signal == 0;
  int raw = 0;
  rusage used{};
  while (::wait4(child, &raw, WNOHANG, &used) == 0) {
    const auto now = Clock::now() - start;
    if (!sent && now >= c.after) {
      ::kill(-child, c.signal);
      sent = true;
    }
    if (now > c.patience && !ended.hung) {
      ended.hung = true;
      ::kill(-child, SIGKILL);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  ended.status = status_of(raw);
  const auto in_seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  ended.peak = 1024.0 * static_cast<double>(used.ru_maxrss);
  ended.processor_seconds = in_seconds(used.ru_utime) + in_seconds(used.ru_stime);
  ended.seconds = std::chrono::duration<double>(Clock::now() - start).count();
}

}  // namespace

Ended run_in(const Circumstances& c, const std::vector<std::string>& words,
             const fs::path& folder) {
  const ScratchFolder said;
  const std::string out = (said / "out").string();
  const std::string err = (said / "err").string();
  // A shell starts what runs beside it with interrupts ignored, and that is handed down.
  for (const int s : {SIGINT, SIGTERM, SIGHUP}) std::signal(s, SIG_DFL);
  const pid_t child = ::fork();
  if (child == 0) become(c, words, folder, out, err);
  ::setpgid(child, child);  // here too: on a busy machine the signal would come before the group is
  Ended ended;
  wait_for(child, c, ended);
  ended.out = text_of(out);
  ended.err = text_of(err);
  return ended;
}

bool is_one_plain_line(const std::string& text) {
  if (text.empty() || text.back() != '\n' || text.find('\n') != text.size() - 1) return false;
  std::size_t characters = 0;
  for (std::size_t k = 0; k + 1 < text.size(); ++k) {
    const auto c = static_cast<unsigned char>(text[k]);
    if (c < 0x20 || c == 0x7F) return false;
    if ((c & 0xC0U) != 0x80U) ++characters;
  }
  return characters <= 300;
}

std::string small_yard(const std::string& more, const std::string& name) {
  return "format = 1\nname = \"" + name + "\"\nanimals = 1\nspecies = \"corsac\"\n" +
         R"([place]
latitude = 50.2
longitude = 4.1
time_zone = "+01:00"
[ground]
level = 0.0
cell = 0.5
margin = 1.0
[boundary]
outline = [[0, 0], [8, 0], [8, 6], [0, 6]]
[[boundary.section]]
name = "fence"
edges = [0, 1, 2, 3]
kind = "mesh"
height = 2.0
aperture = 0.025
[[object]]
name = "stone"
kind = "boulder"
at = [3.0, 2.0]
size = [1.0, 0.8, 0.5]
seed = 7
)" + more;
}

std::string mesh_object(const std::string& file, const std::string& more) {
  return "[[object]]\nname = \"ruin\"\nkind = \"mesh\"\nat = [4, 3]\nfile = \"" + file + "\"\n" +
         more;
}

bool is_sanitized() {
#ifdef HUMMOCK_SANITIZED
  return true;
#else
  return false;
#endif
}

}  // namespace hummock::testing
