#include "tests/escapes/bounded_run.h"

#include <sys/wait.h>

#include <cmath>
#include <csignal>
#include <cstdlib>

#include "tests/support/paths.h"
#include "tests/support/run_program.h"

namespace hummock::escapes {
namespace {

#ifdef HUMMOCK_SANITIZED
constexpr const char* kMemory = "";
constexpr double kSlower = 20.0;
#else
constexpr const char* kMemory = "ulimit -d 3000000 && ";
constexpr double kSlower = 1.0;
#endif

}  // namespace

Said bounded_run(const std::string& arguments, const std::filesystem::path& folder,
                 double seconds) {
  const testing::ScratchFolder words;
  const std::string command = "cd '" + folder.string() + "' && " + kMemory + "timeout -s KILL " +
                              std::to_string(static_cast<int>(std::ceil(kSlower * seconds))) +
                              " '" + tests::program() + "' " + arguments + " >'" +
                              (words / "out").string() + "' 2>'" + (words / "err").string() + "'";
  const int raw = std::system(command.c_str());
  Said said;
  said.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
  if (said.status == 128 + SIGKILL) said.status = kStopped;
  said.out = testing::text_of(words / "out");
  said.err = testing::text_of(words / "err");
  return said;
}

}  // namespace hummock::escapes
