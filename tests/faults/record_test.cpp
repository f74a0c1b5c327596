// The report's checksums are of the bytes that were judged.
#include <gtest/gtest.h>

#include "engine/base/sha256.h"
#include "engine/report/checksums.h"
#include "engine/site/read_site.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

TEST(Record, IsOfTheBytesReadThoughTheFilesChangeAfterwards) {
  const ScratchFolder folder;
  const std::string mesh =
      "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 3\n3 1 2 3\n3 0 3 2\n";
  const std::string points = "x,y,z\n-3,-3,0\n11,-3,0\n11,9,0\n-3,9,0\n";
  std::string site = small_yard(mesh_object("t.off"));
  site.replace(site.find("level = 0.0"), 11, "points = \"p.csv\"");
  write_text(folder / "t.off", mesh);
  write_text(folder / "p.csv", points);
  write_text(folder / "s.site.toml", site);
  const Model model = build_model(read_site(folder / "s.site.toml"));
  for (const char* name : {"t.off", "p.csv", "s.site.toml"}) write_text(folder / name, "changed");
  std::map<std::string, std::string> sums;
  for (const InputFile& f : report::input_files(model, {})) sums[f.name] = f.sha256;
  EXPECT_EQ(sums["s.site.toml"], sha256_hex(site));
  EXPECT_EQ(sums["p.csv"], sha256_hex(points));
  EXPECT_EQ(sums["t.off"], sha256_hex(mesh));
  EXPECT_EQ(sums.size(), 4U);  // and the species
}

}  // namespace
}  // namespace hummock::testing
