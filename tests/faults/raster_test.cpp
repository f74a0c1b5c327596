// Rasters: one plain file each, nothing of the disk or a network behind it.
#include <gtest/gtest.h>

#include <csignal>

#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

std::string grid(int columns, int rows, double cell) {
  std::string text = "ncols " + std::to_string(columns) + "\nnrows " + std::to_string(rows) +
                     "\nxllcorner -2\nyllcorner -2\ncellsize " + std::to_string(cell) + "\n";
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < columns; ++c) text += "1.5 ";
    text += "\n";
  }
  return text;
}

std::string yard_on(const std::string& raster) {
  std::string site = small_yard();
  site.replace(site.find("level = 0.0"), 11, "raster = \"" + raster + "\"");
  return site;
}

const std::vector<std::string> kMap{"map", "s.site.toml", "height", "-o", "x.tif"};

std::string vrt_over(const std::string& source) {
  return "<VRTDataset rasterXSize=\"24\" rasterYSize=\"20\"><GeoTransform>-2, 0.5, 0, 8, 0, -0.5"
         "</GeoTransform><VRTRasterBand dataType=\"Float32\" band=\"1\"><SimpleSource>"
         "<SourceFilename relativeToVRT=\"0\">" +
         source +
         "</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>";
}

constexpr const char* kServiceFile =
    "<GDAL_WMS><Service name=\"WMS\"><ServerUrl>http://127.0.0.1:9/wms?</ServerUrl>"
    "<Layers>a</Layers></Service><DataWindow><UpperLeftX>-2</UpperLeftX><UpperLeftY>8</UpperLeftY>"
    "<LowerRightX>10</LowerRightX><LowerRightY>-2</LowerRightY><SizeX>24</SizeX><SizeY>20</SizeY>"
    "</DataWindow><BandsCount>1</BandsCount></GDAL_WMS>";

TEST(Raster, APlainGridIsRead) {
  const ScratchFolder folder;
  fs::create_directories(folder / "elsewhere");
  write_text(folder / "elsewhere/g.asc", grid(24, 20, 0.5));
  write_text(folder / "s.site.toml", yard_on("elsewhere/g.asc"));
  const Ended ended = run_in({}, kMap, folder.path());
  EXPECT_EQ(ended.status, 0) << ended.err;
}

TEST(Raster, WhatOnlyNamesOthersIsRefusedInOneLine) {
  const ScratchFolder folder;
  write_text(folder / "g.asc", grid(24, 20, 0.5));
  for (const std::string& text :
       {vrt_over((folder / "g.asc").string()), vrt_over("/vsicurl/http://127.0.0.1:9/g.tif"),
        std::string(kServiceFile)}) {
    for (const char* name : {"r.vrt", "r.xml", "r.tif"}) {
      write_text(folder / name, text);
      write_text(folder / "s.site.toml", yard_on(name));
      const Ended ended = run_in({}, kMap, folder.path());
      EXPECT_EQ(ended.status, 2) << name;
      EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
      EXPECT_NE(ended.err.find("ground.raster"), std::string::npos) << ended.err;
    }
  }
}

TEST(Raster, OneMuchCoarserThanTheCellIsRefusedUntilAccepted) {
  const ScratchFolder folder;
  write_text(folder / "g.asc", grid(4, 4, 11.0));  // 22 cells of 0.5 m
  write_text(folder / "s.site.toml", yard_on("g.asc"));
  const Ended refused = run_in({}, kMap, folder.path());
  EXPECT_EQ(refused.status, 2);
  EXPECT_TRUE(is_one_plain_line(refused.err)) << refused.err;
  EXPECT_NE(refused.err.find("accept = [\"survey-coarse\"]"), std::string::npos) << refused.err;
  write_text(folder / "s.site.toml", "accept = [\"survey-coarse\"]\n" + yard_on("g.asc"));
  const Ended accepted = run_in({}, kMap, folder.path());
  EXPECT_EQ(accepted.status, 0) << accepted.err;
  EXPECT_NE(accepted.err.find("accepts: survey-coarse"), std::string::npos) << accepted.err;
}

TEST(Raster, HeightsNoLandHasAreRefused) {
  const ScratchFolder folder;
  std::string high = grid(24, 20, 0.5);
  for (std::size_t at = high.find("1.5"); at != std::string::npos; at = high.find("1.5", at))
    high.replace(at, 3, "20000");
  write_text(folder / "g.asc", high);
  write_text(folder / "s.site.toml", yard_on("g.asc"));
  const Ended ended = run_in({}, kMap, folder.path());
  EXPECT_EQ(ended.status, 2);
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
  EXPECT_NE(ended.err.find("20000 m"), std::string::npos) << ended.err;
  EXPECT_NE(ended.err.find("-500 to 9000 m"), std::string::npos) << ended.err;
}

TEST(Raster, APipeIsRefusedAtOnce) {
  const ScratchFolder folder;
  ASSERT_EQ(std::system(("mkfifo " + (folder / "p.tif").string()).c_str()), 0);
  write_text(folder / "s.site.toml", yard_on("p.tif"));
  const Ended ended = run_in({}, kMap, folder.path());
  EXPECT_FALSE(ended.hung);
  EXPECT_EQ(ended.status, 2) << ended.err;
}

TEST(Raster, TheFirstInterruptIsHonouredWhileOneIsRead) {
  const ScratchFolder folder;
  write_text(folder / "g.asc", grid(6000, 3000, 0.002));
  write_text(folder / "s.site.toml", yard_on("g.asc"));
  Circumstances c;
  c.signal = SIGINT;
  c.after = std::chrono::milliseconds(300);
  const Ended ended = run_in(c, kMap, folder.path());
  EXPECT_EQ(ended.status, 130) << ended.err;
  EXPECT_LT(ended.seconds, 3.0);
}

}  // namespace
}  // namespace hummock::testing
