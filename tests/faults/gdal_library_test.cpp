// GDAL is opened when a raster is met and not before; one that cannot be used is told in one line.
#include <dlfcn.h>
#include <gdal.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

// The file of the library these tests are linked with, for example libgdal.so.32.
std::string gdal_name() {
  Dl_info info{};
  if (dladdr(reinterpret_cast<void*>(&GDALAllRegister), &info) == 0) return "";
  return std::filesystem::path(info.dli_fname).filename().string();
}

// Before a command is run its loader looks here first.
void let_it_find(const std::filesystem::path& folder) {
  setenv("LD_LIBRARY_PATH", folder.c_str(), 1);
}

TEST(GdalLibrary, IsNotPartOfTheStart) {
  const ScratchFolder folder;
  setenv("LD_TRACE_LOADED_OBJECTS", "1", 1);
  const Ended listed = run_in({}, {"--version"}, folder.path());
  unsetenv("LD_TRACE_LOADED_OBJECTS");
  EXPECT_NE(listed.out.find("libembree"), std::string::npos) << listed.out;
  EXPECT_EQ(listed.out.find("libgdal"), std::string::npos);
}

TEST(GdalLibrary, OneThatIsNoneIsToldInOneLineAndOnlyWhereARasterIsMet) {
  const ScratchFolder folder;
  ASSERT_EQ(gdal_name().find("libgdal"), 0U) << gdal_name();
  write_text(folder / gdal_name(), "no library");
  write_text(folder / "s.site.toml", small_yard());
  let_it_find(folder.path());
  const Ended map = run_in({}, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path());
  EXPECT_EQ(map.status, 3) << map.err;
  EXPECT_TRUE(is_one_plain_line(map.err)) << map.err;
  EXPECT_NE(map.err.find(gdal_name()), std::string::npos) << map.err;
  EXPECT_FALSE(std::filesystem::exists(folder / "x.tif"));
  const Ended check = run_in({}, {"check", "s.site.toml", "--only", "relief"}, folder.path());
  EXPECT_LE(check.status, 1) << check.err;
  unsetenv("LD_LIBRARY_PATH");
}

}  // namespace
}  // namespace hummock::testing
