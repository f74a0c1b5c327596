// Memory foreseen before the start: what is free, what is said of it, and that the foreseen peak is
// not under what a command then takes, nor over three times that.
#include "engine/foresight/foresight.h"

#include <gtest/gtest.h>

#include <csignal>
#include <cstdio>

#include "engine/base/free_memory.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

void write_in(const fs::path& file, const std::string& text) {
  fs::create_directories(file.parent_path());
  write_text(file, text);
}

constexpr std::uint64_t kMebibyte = 1024 * 1024;

void write_meminfo(const fs::path& root) {
  write_in(root / "proc/meminfo",
           "MemTotal:       16000000 kB\nMemFree:          100000 kB\n"
           "MemAvailable:    8388608 kB\n");
}

TEST(FreeMemory, IsWhatTheKernelSaysCanBeHad) {
  const ScratchFolder root;
  EXPECT_FALSE(free_memory(root.path()));
  write_meminfo(root.path());
  EXPECT_EQ(free_memory(root.path()), 8192 * kMebibyte);
}

TEST(FreeMemory, IsLessInAGroupWithALimitAndInOneBelowSuchAGroup) {
  const ScratchFolder root;
  write_meminfo(root.path());
  write_in(root / "proc/self/cgroup", "0::/yards/one\n");
  const fs::path group = root / "sys/fs/cgroup/yards";
  write_in(group / "one/memory.max", "max\n");
  write_in(group / "one/memory.current", "1048576\n");
  EXPECT_EQ(free_memory(root.path()), 8192 * kMebibyte);
  write_in(group / "memory.max", std::to_string(1000 * kMebibyte) + "\n");
  write_in(group / "memory.current", std::to_string(400 * kMebibyte) + "\n");
  write_in(group / "memory.stat",
           "anon 1\ninactive_file " + std::to_string(100 * kMebibyte) + "\nslab 7\n");
  EXPECT_EQ(free_memory(root.path()), 700 * kMebibyte);
  write_in(group / "memory.current", std::to_string(1300 * kMebibyte) + "\n");
  EXPECT_EQ(free_memory(root.path()), 0U);
}

TEST(FreeMemory, KnowsTheFirstVersionOfGroupsToo) {
  const ScratchFolder root;
  write_meminfo(root.path());
  write_in(root / "proc/self/cgroup", "3:cpuset:/\n2:cpu,memory:/yards\n0::/\n");
  const fs::path group = root / "sys/fs/cgroup/memory/yards";
  write_in(group / "memory.limit_in_bytes", std::to_string(500 * kMebibyte) + "\n");
  write_in(group / "memory.usage_in_bytes", std::to_string(200 * kMebibyte) + "\n");
  EXPECT_EQ(free_memory(root.path()), 300 * kMebibyte);
}

TEST(Foresight, SaysAWordFromHalfOnAndRefusesMoreThanThereIs) {
  using foresight::word_on;
  EXPECT_FALSE(word_on(9e9, std::nullopt));
  EXPECT_FALSE(word_on(4.9e9, 10'000'000'000U));
  const auto half = word_on(5.1e9, 10'000'000'000U);
  ASSERT_TRUE(half);
  EXPECT_FALSE(half->refuse);
  EXPECT_NE(half->line.find("5.1 GB"), std::string::npos) << half->line;
  const auto over = word_on(12.34e9, 10'000'000'000U);
  ASSERT_TRUE(over);
  EXPECT_TRUE(over->refuse);
  for (const char* part : {"12.3 GB", "10.0 GB", "--all-the-same", "memory"})
    EXPECT_NE(over->line.find(part), std::string::npos) << over->line;
}

std::string yard_of(double side, const std::string& cell) {
  std::string site = small_yard();
  const auto put = [&](const std::string& from, const std::string& to) {
    site.replace(site.find(from), from.size(), to);
  };
  const std::string s = std::to_string(side);
  put("outline = [[0, 0], [8, 0], [8, 6], [0, 6]]",
      "outline = [[0, 0], [" + s + ", 0], [" + s + ", " + s + "], [0, " + s + "]]");
  put("cell = 0.5", "cell = " + cell);
  return site;
}

double foreseen_by(std::vector<std::string> words, const fs::path& folder) {
  words.emplace_back("--foresee");
  const Ended told = run_in({}, words, folder);
  EXPECT_EQ(told.status, 0) << told.err;
  double mb = 0.0;
  EXPECT_EQ(std::sscanf(told.out.c_str(), "foreseen_mb %lf", &mb), 1) << told.out;
  return mb * 1e6;
}

// Bytes no machine is short of: what the program takes without a site. A peak falls by as much
// where analyses that run side by side happen to take their most one after another.
constexpr double kTrifle = 20e6;

TEST(Foresight, IsNotUnderThePeakNorOverThreeTimesIt) {
  if (is_sanitized()) GTEST_SKIP() << "the sanitizer takes memory of its own";
  const std::vector<std::vector<std::string>> commands{
      {"check", "s.site.toml"},
      {"check", "s.site.toml", "--only", "relief"},
      {"check", "s.site.toml", "--only", "leap"},
      {"check", "s.site.toml", "--only", "space,water"},
      {"shade", "s.site.toml", "--step", "60", "-o", "shade"},
      {"shade", "s.site.toml", "--seasons", "--step", "120", "-o", "seasons"},
      {"map", "s.site.toml", "height", "-o", "h.tif"},
      {"export", "s.site.toml", "-o", "m.glb"},
      {"export", "s.site.toml", "-o", "m.stl"},
      {"report", "s.site.toml", "--one-day", "-o", "report"}};
  struct Size {
    double side;
    const char* cell;
    std::size_t commands;  // the first so many: the larger, the fewer
  };
  for (const Size size : {Size{8.0, "0.5", 10}, Size{20.0, "0.1", 10}, Size{20.0, "0.05", 7}}) {
    const ScratchFolder folder;
    write_text(folder / "s.site.toml", yard_of(size.side, size.cell));
    for (std::size_t k = 0; k < size.commands; ++k) {
      const double told = foreseen_by(commands[k], folder.path());
      const Ended ended = run_in({}, commands[k], folder.path());
      EXPECT_LE(ended.status, 1) << ended.err;
      const std::string what = commands[k][0] + " " + commands[k][2 % commands[k].size()] + ", " +
                               std::to_string(size.side) + " m, cell " + size.cell;
      EXPECT_GE(told, ended.peak) << what;
      EXPECT_LE(told, 3.0 * ended.peak + kTrifle) << what;
    }
  }
}

TEST(Foresight, MoreThanIsFreeIsRefusedBeforeTheStartUnlessAskedAllTheSame) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", yard_of(620.0, "0.1"));  // 39 million nodes
  const std::vector<std::string> words{"check", "s.site.toml"};
  const auto free = free_memory();
  if (!free || foreseen_by(words, folder.path()) < static_cast<double>(*free))
    GTEST_SKIP() << "this machine has memory for it";
  const Ended refused = run_in({}, words, folder.path());
  EXPECT_EQ(refused.status, 3);
  EXPECT_TRUE(is_one_plain_line(refused.err)) << refused.err;
  EXPECT_NE(refused.err.find("--all-the-same"), std::string::npos) << refused.err;
  EXPECT_LT(refused.peak, 300e6);
  std::vector<std::string> nevertheless = words;
  nevertheless.emplace_back("--all-the-same");
  Circumstances stopped;
  stopped.signal = SIGINT;
  Ended begun;
  for (const int ms : {500, 2000, 8000, 30000}) {  // a busy machine may not have read it sooner
    stopped.after = std::chrono::milliseconds(ms);
    begun = run_in(stopped, nevertheless, folder.path());
    EXPECT_NE(begun.status, 3) << begun.err;
    if (begun.err.find("memory: ") != std::string::npos) break;
  }
  EXPECT_NE(begun.err.find("memory: "), std::string::npos) << begun.err;
}

}  // namespace
}  // namespace hummock::testing
