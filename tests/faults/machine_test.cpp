// A machine that gives out, and one with another number of processors.
#include <gtest/gtest.h>

#include <map>

#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t kMegabyte = 1'000'000;

// The system's loader could not map the libraries: the program has not begun.
bool never_began(const Ended& ended) {
  return ended.status == 127 && ended.err.find("loading shared libraries") != std::string::npos;
}

// 0 or 3, never another: what memory does is never told as bad input or as nothing.
void expect_done_or_out_of_memory(const Ended& ended, std::uint64_t memory) {
  EXPECT_TRUE(ended.status == 0 || ended.status == 1 || ended.status == 3)
      << memory / kMegabyte << " MB: status " << ended.status << ": " << ended.err;
  EXPECT_FALSE(ended.hung) << memory / kMegabyte;
  if (ended.status == 3) {
    EXPECT_NE(ended.err.find("memory"), std::string::npos) << ended.err;
  }
}

std::string large_yard() {
  std::string site = small_yard();
  site.replace(site.find("cell = 0.5"), 10, "cell = 0.01");  // 800,000 nodes
  return site;
}

TEST(Memory, AnExportThatRunsOutSaysSo) {
  if (is_sanitized()) GTEST_SKIP() << "the sanitizer maps more than any limit here";
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", large_yard());
  int ran_out = 0;
  for (const std::uint64_t mb : {250, 350, 450, 600, 800, 1000, 1200}) {
    Circumstances c;
    c.memory = mb * kMegabyte;
    const Ended ended = run_in(c, {"export", "s.site.toml", "-o", "m.glb"}, folder.path());
    if (never_began(ended)) continue;
    expect_done_or_out_of_memory(ended, c.memory);
    ran_out += ended.status == 3 ? 1 : 0;
    EXPECT_EQ(fs::exists(folder / "m.glb"), ended.status == 0);
    fs::remove(folder / "m.glb");
  }
  EXPECT_GT(ran_out, 0);
}

TEST(Memory, AReportThatRunsOutSaysSoAndLeavesNothing) {
  if (is_sanitized()) GTEST_SKIP() << "the sanitizer maps more than any limit here";
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  int ran_out = 0;
  for (const std::uint64_t mb : {230, 280, 320, 360, 400, 500}) {
    Circumstances c;
    c.memory = mb * kMegabyte;
    const Ended ended = run_in(
        c, {"report", "s.site.toml", "--one-day", "--only", "relief", "-o", "r"}, folder.path());
    if (never_began(ended)) continue;
    expect_done_or_out_of_memory(ended, c.memory);
    ran_out += ended.status == 3 ? 1 : 0;
    if (ended.status != 3) break;  // more is enough too
    EXPECT_EQ(folder.files(), 1) << mb;
  }
  EXPECT_GT(ran_out, 0);
}

std::map<std::string, std::string> all_outputs(const fs::path& site, int processors) {
  const ScratchFolder out;
  Circumstances c;
  c.processors = processors;
  const std::string s = site.string();
  const std::vector<std::vector<std::string>> commands{
      {"export", s, "-o", "m.glb"},
      {"export", s, "-o", "m.obj"},
      {"export", s, "-o", "m.ply"},
      {"export", s, "-o", "m.stl"},
      {"map", s, "demand", "-o", "d.tif"},
      {"map", s, "height", "-o", "g.asc"},
      {"map", s, "height", "-o", "g.png"},
      {"check", s, "--json", "c.json"},
      {"shade", s, "--date", "2026-06-21", "--step", "60", "-o", "shade"},
      {"report", s, "--one-day", "-o", "report"}};
  for (const auto& words : commands) {
    const Ended ended = run_in(c, words, out.path());
    EXPECT_LE(ended.status, 1) << words[0] << ": " << ended.err;
  }
  std::map<std::string, std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(out.path())) {
    if (entry.is_regular_file()) {
      all[entry.path().lexically_relative(out.path()).string()] = text_of(entry.path());
    }
  }
  return all;
}

int rounds() {
  const char* many = std::getenv("HUMMOCK_ROUNDS");  // 5 by hand; 1 in the suite
  return many != nullptr ? std::atoi(many) : 1;
}

TEST(Threads, EveryOutputHasTheSameBytesFromOneProcessorAndFromTwo) {
  const ScratchFolder folder;
  write_text(
      folder / "s.site.toml",
      small_yard("[[object]]\nname = \"crate\"\nkind = \"box\"\nat = [6, 4]\nsize = [2, 0.3, "
                 "0.3]\n"));
  const auto first = all_outputs(folder / "s.site.toml", 1);
  EXPECT_GT(first.size(), 20U);
  for (int k = 0; k < rounds(); ++k) {
    const auto again = all_outputs(folder / "s.site.toml", 2);
    ASSERT_EQ(first.size(), again.size());
    for (const auto& [name, bytes] : first) EXPECT_TRUE(bytes == again.at(name)) << name;
  }
}

}  // namespace
}  // namespace hummock::testing
