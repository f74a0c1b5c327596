#include "tests/cli/brief_yard.h"

#include <gtest/gtest.h>

namespace hummock::testing {
namespace {

std::string species() {
  const std::string assumed = ", source = \"invented for the test\"";
  const std::string leap = assumed + ", measures = \"ledge\", evidence = \"assumed\" }\n";
  std::string text = "format = 1\nname = \"Test fox\"\n";
  for (const char* key : {"leap_height = { value = 0.7", "leap_distance = { value = 1.4"})
    text += key + leap;
  for (const char* key :
       {"grip = { value = 0.1", "cling_leap = { value = 0.0", "stand_slope = { value = 40.0",
        "climbs = { value = [\"mesh\"]", "body = { value = [0.4, 0.12, 0.2]",
        "least_opening = { value = 0.05", "dig_depth = { value = 0.9", "dig_length = { value = 3.0",
        "wade_depth = { value = 0.05", "eye_height = { value = 0.2"})
    text += key + assumed + " }\n";
  return text;
}

const std::string kLevelYard =
    "[ground]\nlevel = 0.0\ncell = 0.2\nsoil = \"loam\"\n"
    "[boundary]\noutline = [[0, 0], [10, 0], [10, 8], [0, 8]]\n"
    "[[boundary.section]]\nname = \"fence\"\nedges = [0, 1, 2, 3]\nkind = \"mesh\"\n"
    "height = 2.0\naperture = 0.025\n";

void lay_out(const BriefYard& yard, const ScratchFolder& folder) {
  for (const auto& [name, text] : yard.beside) {
    std::filesystem::create_directories((folder / name).parent_path());
    write_text(folder / name, text);
  }
  write_text(folder / "fox.species.toml", species());
  write_text(folder / "yard.site.toml",
             "format = 1\nname = \"Yard\"\nanimals = 2\nspecies = \"fox.species.toml\"\n" +
                 yard.head + kLevelYard + yard.rows);
}

}  // namespace

std::string report_of(const BriefYard& yard) {
  const ScratchFolder folder;
  lay_out(yard, folder);
  const Said said =
      run_program("report yard.site.toml -o out --one-day --only " + yard.only, folder.path());
  EXPECT_EQ(said.status, 0) << said.err;
  return text_of(folder / "out/report.html");
}

Checked check_of(const BriefYard& yard, const std::string& more) {
  const ScratchFolder folder;
  lay_out(yard, folder);
  const std::string only = yard.only.empty() ? "" : " --only " + yard.only;
  Checked out;
  out.said = run_program("check yard.site.toml --json all.json" + only + " " + more, folder.path());
  const std::string json = std::filesystem::exists(folder / "all.json")
                               ? text_of(folder / "all.json")
                               : std::string("{}");
  out.brief = nlohmann::json::parse(json).value("brief", nlohmann::json());
  return out;
}

nlohmann::json Checked::row(const std::string& key) const {
  for (const auto& one : brief)
    for (const char* by : {"key", "what", "words"})
      if (one.value(by, "") == key) return one;
  ADD_FAILURE() << "no row " << key << " in " << brief << said.out << said.err;
  return {{"standing", ""}, {"why", ""}, {"asked_by", ""}, {"where", ""}, {"required", ""}};
}

}  // namespace hummock::testing
