// A report's folder is of one design at any moment: whole, or as it was.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "engine/base/atomic_file.h"
#include "engine/base/replace_folder.h"
#include "engine/base/sha256.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

const std::vector<std::string> kReport{"report", "s.site.toml", "--one-day", "--only",
                                       "relief", "-o",          "r"};

// Every file the manifest lists is there with its checksum; else what is wrong.
std::string not_whole(const fs::path& folder) {
  const auto all = nlohmann::json::parse(text_of(folder / kManifest), nullptr, false);
  if (all.is_discarded()) return "no manifest";
  for (const auto& f : all.at("files")) {
    const std::string name = f.at("file");
    if (sha256_hex(text_of(folder / name)) != f.at("sha256")) return name + " is another";
  }
  return "";
}

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    names.push_back(entry.path().lexically_relative(folder).string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

TEST(ReportFolder, IsReplacedWithItsManifestAndKeepsWhatIsNotOurs) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  EXPECT_EQ(not_whole(folder / "r"), "");
  write_text(folder / "r/my notes.txt", "keep me");
  fs::create_directories(folder / "r/mine/deep");
  write_text(folder / "r/mine/deep/a.txt", "me too");
  fs::create_symlink("my notes.txt", folder / "r/link.txt");
  write_text(folder / "r/tables/old-table.csv", "the user's own, beside ours");
  const auto before = names_in(folder / "r");
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  EXPECT_EQ(not_whole(folder / "r"), "");
  EXPECT_EQ(names_in(folder / "r"), before);
  EXPECT_EQ(text_of(folder / "r/mine/deep/a.txt"), "me too");
  EXPECT_TRUE(fs::is_symlink(folder / "r/link.txt"));
  for (const auto& entry : fs::directory_iterator(folder.path())) {
    EXPECT_EQ(entry.path().filename().string().find(".part"), std::string::npos);
  }
}

TEST(ReportFolder, NothingOfAnotherDesignStays) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  std::vector<std::string> more = kReport;
  more[4] = "relief,space,shade";
  ASSERT_EQ(run_in({}, more, folder.path()).status, 0);
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  std::vector<std::string> alone = kReport;
  alone.back() = "alone";
  ASSERT_EQ(run_in({}, alone, folder.path()).status, 0);
  EXPECT_EQ(names_in(folder / "r"), names_in(folder / "alone"));
}

TEST(ReportFolder, OneFromBeforeManifestsIsReplacedToo) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  fs::remove(folder / "r/manifest.json");
  write_text(folder / "r/figures/leap.svg", "of the other design");
  write_text(folder / "r/notes.txt", "mine");
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  EXPECT_FALSE(fs::exists(folder / "r/figures/leap.svg"));
  EXPECT_TRUE(fs::exists(folder / "r/notes.txt"));
}

TEST(ReportFolder, ThroughALinkAndIntoTheCurrentFolder) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  fs::create_directories(folder / "real");
  fs::create_symlink("real", folder / "r");
  ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  EXPECT_TRUE(fs::is_symlink(folder / "r"));
  EXPECT_EQ(not_whole(folder / "real"), "");
  std::vector<std::string> here = kReport;
  here[1] = "../s.site.toml";
  here.back() = ".";
  ASSERT_EQ(run_in({}, here, folder / "real").status, 0);
  EXPECT_EQ(not_whole(folder / "real"), "");
}

// The first signal of each kind: nothing half-written, nothing hidden is left.
TEST(ReportFolder, AStoppedOneLeavesWhatWasThere) {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    const ScratchFolder folder;
    write_text(folder / "s.site.toml", small_yard());
    ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
    const std::string before = text_of(folder / "r/manifest.json");
    write_text(folder / "s.site.toml", small_yard("", "Another design"));
    Circumstances c;
    c.signal = signal;
    c.after = std::chrono::milliseconds(150);
    const Ended ended = run_in(c, kReport, folder.path());
    // On a busy machine the signal may come before the program has begun to listen.
    const bool stopped = ended.status == 130 || ended.status == 128 + signal;
    EXPECT_TRUE(stopped || ended.status == 0) << ended.status << ended.err;
    EXPECT_EQ(not_whole(folder / "r"), "");
    EXPECT_EQ(text_of(folder / "r/manifest.json") == before, stopped);
    for (const auto& entry : fs::directory_iterator(folder.path())) {
      EXPECT_EQ(entry.path().filename().string().find(".part"), std::string::npos);
    }
  }
}

int kills() {
  const char* many = std::getenv("HUMMOCK_KILLS");  // 100 by hand; few in the suite
  return many != nullptr ? std::atoi(many) : 10;
}

std::ptrdiff_t folders_in(const fs::path& folder) {
  return std::count_if(fs::directory_iterator(folder), fs::directory_iterator(),
                       [](const fs::directory_entry& entry) { return entry.is_directory(); });
}

// kill -9 of the whole group at random moments: whole and old, whole and new, or absent.
TEST(Killed, OutputsAreWholeOrAbsent) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard());
  const std::vector<std::pair<std::vector<std::string>, std::string>> commands{
      {kReport, "r"},
      {{"map", "s.site.toml", "height", "-o", "m.tif"}, "m.tif"},
      {{"export", "s.site.toml", "-o", "e.glb"}, "e.glb"}};
  std::mt19937 random(2024);  // the seed of these moments
  for (const auto& [words, out] : commands) {
    const Ended whole = run_in({}, words, folder.path());
    ASSERT_EQ(whole.status, 0) << whole.err;
    const std::string good = out == "r" ? "" : text_of(folder / out);
    fs::remove_all(folder / out);
    int killed = 0;
    for (int k = 0; k < kills(); ++k) {
      if (k == kills() / 2) fs::remove_all(folder / out);
      Circumstances c;
      c.signal = SIGKILL;
      c.after = std::chrono::milliseconds(
          std::uniform_int_distribution<int>(0, static_cast<int>(1100 * whole.seconds))(random));
      killed += run_in(c, words, folder.path()).status == 0 ? 0 : 1;
      if (!fs::exists(folder / out)) continue;
      if (out == "r") {
        EXPECT_EQ(not_whole(folder / out), "");
      } else {
        EXPECT_EQ(text_of(folder / out), good);
      }
    }
    EXPECT_GT(killed, 0) << out;
    ASSERT_EQ(run_in({}, words, folder.path()).status, 0);
  }
  // A killed writer still counts as alive until the system has buried it.
  for (int k = 0; k < 20 && folders_in(folder.path()) > 1; ++k) {
    std::this_thread::sleep_for(std::chrono::milliseconds(250));
    ASSERT_EQ(run_in({}, kReport, folder.path()).status, 0);
  }
  EXPECT_EQ(folders_in(folder.path()), 1) << "a later writer sweeps what kill -9 left";
}

// What the viewer's save is made of, killed while it saves again and again.
TEST(Killed, ASaveIsOneOfTheTwoTextsWhole) {
  const ScratchFolder folder;
  const std::string file = (folder / "s.site.toml").string();
  const std::string a(300'000, 'a');
  const std::string b(500'000, 'b');
  std::mt19937 random(7);  // the seed of these moments
  for (int k = 0; k < kills(); ++k) {
    const pid_t child = ::fork();
    if (child == 0) {
      while (true) {
        save_bytes(file, a);
        save_bytes(file, b);
      }
    }
    std::this_thread::sleep_for(
        std::chrono::milliseconds(std::uniform_int_distribution<int>(1, 60)(random)));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    const std::string text = text_of(file);
    EXPECT_TRUE(text.empty() || text == a || text == b) << text.size();
  }
  EXPECT_FALSE(text_of(file).empty());
}

}  // namespace
}  // namespace hummock::testing
