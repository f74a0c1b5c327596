// Where outputs go: links, pipes, devices, full disks, a standard output that went away.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <iterator>
#include <thread>

#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "engine/base/resource_error.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

class Output : public ::testing::Test {
 protected:
  void SetUp() override { write_text(folder / "s.site.toml", small_yard()); }
  Ended map_to(const std::string& out, const Circumstances& c = {}) const {
    return run_in(c, {"map", "s.site.toml", "height", "-o", out}, folder.path());
  }
  ScratchFolder folder;
};

TEST_F(Output, ALinkStaysAndItsTargetIsReplaced) {
  fs::create_directories(folder / "there");
  write_text(folder / "there/real.tif", "old");
  fs::create_symlink("there/real.tif", folder / "link.tif");
  fs::create_symlink("there/new.tif", folder / "dangling.tif");
  EXPECT_EQ(map_to("link.tif").status, 0);
  EXPECT_EQ(map_to("dangling.tif").status, 0);
  EXPECT_TRUE(fs::is_symlink(folder / "link.tif"));
  EXPECT_TRUE(fs::is_symlink(folder / "dangling.tif"));
  EXPECT_GT(fs::file_size(folder / "there/real.tif"), 100U);
  EXPECT_GT(fs::file_size(folder / "there/new.tif"), 100U);
}

TEST_F(Output, LinksInACircleAreRefused) {
  fs::create_symlink("b.tif", folder / "a.tif");
  fs::create_symlink("a.tif", folder / "b.tif");
  const Ended ended = map_to("a.tif");
  EXPECT_EQ(ended.status, 2) << ended.err;
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
}

TEST_F(Output, APipeGetsTheFileAndStaysAPipe) {
  ASSERT_EQ(::mkfifo((folder / "p.tif").c_str(), 0600), 0);
  std::string came;
  std::thread reader([&] {
    std::ifstream in(folder / "p.tif", std::ios::binary);
    came.assign(std::istreambuf_iterator<char>(in), {});
  });
  EXPECT_EQ(map_to("p.tif").status, 0);
  reader.join();
  EXPECT_EQ(map_to("plain.tif").status, 0);
  EXPECT_EQ(came, text_of(folder / "plain.tif"));
  EXPECT_TRUE(is_stream(folder / "p.tif"));
}

TEST_F(Output, ADeviceIsWrittenToAndAFullOneIsStatusThree) {
  fs::create_symlink("/dev/null", folder / "null.tif");
  fs::create_symlink("/dev/full", folder / "full.tif");
  EXPECT_EQ(map_to("null.tif").status, 0);
  EXPECT_TRUE(fs::is_symlink(folder / "null.tif"));
  const Ended full = map_to("full.tif");
  EXPECT_EQ(full.status, 3) << full.err;
  EXPECT_TRUE(is_one_plain_line(full.err)) << full.err;
}

TEST_F(Output, AFolderOfFilesAndAFileOfTwoDoNotGoIntoAPipe) {
  ASSERT_EQ(::mkfifo((folder / "p.obj").c_str(), 0600), 0);
  const Ended report = run_in({}, {"report", "s.site.toml", "-o", "p.obj"}, folder.path());
  EXPECT_EQ(report.status, 2) << report.err;
  EXPECT_TRUE(is_one_plain_line(report.err)) << report.err;
  const Ended shade = run_in({}, {"shade", "s.site.toml", "-o", "p.obj"}, folder.path());
  EXPECT_EQ(shade.status, 2) << shade.err;
  const Ended obj = run_in({}, {"export", "s.site.toml", "-o", "p.obj"}, folder.path());
  EXPECT_EQ(obj.status, 2) << obj.err;
}

// A disk that is full after 4 kB stands for any.
TEST_F(Output, AFullDiskIsStatusThreeAndLeavesWhatWasThere) {
  write_text(folder / "m.glb", "old");
  Circumstances small;
  small.file_size = 4096;
  const Ended ended = run_in(small, {"export", "s.site.toml", "-o", "m.glb"}, folder.path());
  EXPECT_EQ(ended.status, 3) << ended.err;
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
  EXPECT_EQ(text_of(folder / "m.glb"), "old");
  EXPECT_EQ(folder.files(), 2);
}

TEST_F(Output, APlaceThatMayNotBeWrittenIsStatusTwo) {
  const Ended ended = map_to("no/such/folder/x.tif");
  EXPECT_EQ(ended.status, 2) << ended.err;
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
}

TEST_F(Output, AStandardOutputThatIsLostIsStatusThree) {
  Circumstances full;
  full.output = "/dev/full";
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"check", "s.site.toml", "--only", "relief"},
        {"check", "s.site.toml", "--only", "relief", "--json", "-"},
        {"map", "s.site.toml", "height", "-o", "x.tif"},
        {"--help"}}) {
    const Ended ended = run_in(full, words, folder.path());
    EXPECT_EQ(ended.status, 3) << words[0] << ": " << ended.err;
    EXPECT_NE(ended.err.find("standard output was lost"), std::string::npos) << ended.err;
  }
}

TEST_F(Output, AReaderThatWentAwayIsStatusThree) {
  ASSERT_EQ(::mkfifo((folder / "gone").c_str(), 0600), 0);
  Circumstances c;
  c.output = (folder / "gone").string();
  std::thread reader([&] {
    const int fd = ::open((folder / "gone").c_str(), O_RDONLY);
    ::close(fd);
  });
  const Ended ended = run_in(c, {"check", "s.site.toml", "--only", "relief"}, folder.path());
  reader.join();
  EXPECT_EQ(ended.status, 3) << ended.err;
}

TEST_F(Output, TheModeOfAFileReplacedIsKept) {
  write_text(folder / "x.tif", "old");
  fs::permissions(folder / "x.tif", fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(map_to("x.tif").status, 0);
  EXPECT_EQ(fs::status(folder / "x.tif").permissions(),
            fs::perms::owner_read | fs::perms::owner_write);
}

}  // namespace
}  // namespace hummock::testing
