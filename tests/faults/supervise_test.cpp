// How a death is told: a fault of ours, the machine's, or a stop; never as bad input.
#include "engine/base/supervise.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <new>
#include <stdexcept>

#include "engine/base/input_error.h"
#include "engine/base/resource_error.h"
#include "engine/base/temporaries.h"
#include "engine/cli/outcome.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

// What a process of its own says and ends with.
Ended process_of(const std::function<int()>& work, const fs::path& said) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(::open(said.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644), STDERR_FILENO);
    ::_exit(work());
  }
  Ended ended;
  int raw = 0;
  ::waitpid(child, &raw, 0);
  ended.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw);
  ended.err = text_of(said);
  return ended;
}

class Supervised : public ::testing::Test {
 protected:
  void SetUp() override {
    if (is_sanitized()) GTEST_SKIP() << "the sanitizer tells of deaths itself";
  }
  Ended of(const std::function<int()>& work) const {
    return process_of([&] { return supervise(work); }, folder / "said");
  }
  ScratchFolder folder;
};

TEST_F(Supervised, ADeathIsAFaultOfOursAndSaysSoInOneLine) {
  for (const int signal : {SIGABRT, SIGSEGV, SIGFPE, SIGILL, SIGBUS}) {
    const Ended ended = of([&] { return ::raise(signal); });
    EXPECT_EQ(ended.status, kFaultStatus) << signal << ended.err;
    EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
    EXPECT_EQ(ended.err.find(kFaultLine), 0U) << ended.err;
  }
}

// Libraries that end the program when memory fails, and the system that kills what is too large.
TEST_F(Supervised, ADeathForWantOfMemoryIsTheMachines) {
  const Ended library = of([]() -> int {
    try {
      static_cast<void>(::operator new(static_cast<std::size_t>(-1) / 2));
    } catch (const std::bad_alloc&) {
      std::abort();
    }
    return 0;
  });
  const Ended killed = of([] { return ::raise(SIGKILL); });
  for (const Ended& ended : {library, killed}) {
    EXPECT_EQ(ended.status, kResourceStatus) << ended.err;
    EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
    EXPECT_EQ(ended.err.find(kNoMemoryLine), 0U) << ended.err;
  }
}

TEST_F(Supervised, AStopIsAStopAndWhatWasBegunIsTakenAway) {
  const fs::path begun = folder / ".begun.part";
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    const Ended ended = of([&] {
      remember_temporary(begun);
      fs::create_directories(begun / "deep");
      return ::raise(signal);
    });
    EXPECT_EQ(ended.status, kStoppedStatus) << ended.err;
    EXPECT_FALSE(fs::exists(begun)) << signal;
  }
}

TEST_F(Supervised, WhatItReturnsIsReturned) {
  for (const int status : {0, 1, 2, 130}) {
    EXPECT_EQ(of([&] { return status; }).status, status);
  }
}

// What was thrown, and how it is told.
TEST(Outcome, EachKindOfTroubleHasItsOwnStatusAndWords) {
  const ScratchFolder folder;
  const auto told = [&](const std::function<int()>& work) {
    return process_of([&] { return cli::told_outcome(work); }, folder / "said");
  };
  const Ended bad = told([]() -> int { throw InputError({"s.toml", 3, "k"}, "a", "b"); });
  EXPECT_EQ(bad.status, 2);
  const Ended memory = told([]() -> int { throw std::bad_alloc(); });
  EXPECT_EQ(memory.status, kResourceStatus);
  EXPECT_NE(memory.err.find("memory"), std::string::npos);
  const Ended disk = told([]() -> int { refuse_place("r.html", ENOSPC); });
  EXPECT_EQ(disk.status, kResourceStatus);
  EXPECT_NE(disk.err.find("No space left"), std::string::npos) << disk.err;
  const Ended fault = told([]() -> int { throw std::logic_error("an index"); });
  EXPECT_EQ(fault.status, kFaultStatus);
  EXPECT_EQ(fault.err.find(kFaultLine), 0U) << fault.err;
  const Ended thread = told([]() -> int {
    throw std::runtime_error("rays (pthread_create has failed: Resource temporarily unavailable)");
  });
  EXPECT_EQ(thread.status, kResourceStatus);
  for (const Ended& ended : {bad, memory, disk, fault, thread}) {
    EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
  }
}

}  // namespace
}  // namespace hummock::testing
