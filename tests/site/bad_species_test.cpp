// Slips in a species file.
#include <gtest/gtest.h>

#include "engine/site/read_site.h"
#include "tests/site/bad_input.h"
#include "tests/site/good_site.h"

namespace hummock {
namespace {

const BadInput kBadSpecies[] = {
    {"a value without a source",
     "leap_height   = { value = 0.70, source = \"invented for the test\",",
     "leap_height   = { value = 0.70,", "leap_height", "leap_height.source", "nothing",
     "a text in quotes"},
    {"a figure alone", "grip          = { value = 0.10, source = \"invented for the test\" }",
     "grip = 0.10", "grip = 0.10", "grip", "0.1 alone", "grip = { value"},
    {"a leap of no length", "leap_distance = { value = 1.40", "leap_distance = { value = 0.0",
     "leap_distance", "leap_distance.value", "0", "a number from 0.01 to 50 (m)"},
    {"a leap backwards", "leap_distance = { value = 1.40", "leap_distance = { value = -1.4",
     "leap_distance", "leap_distance.value", "-1.4", "a number from 0.01 to 50 (m)"},
    {"a leap that does not say what was measured",
     "measures = \"ledge\", evidence = \"assumed\" }\nleap_distance",
     "evidence = \"assumed\" }\nleap_distance", "leap_height", "leap_height.measures", "nothing",
     "\"ledge\", \"bar\""},
    {"evidence of a kind nobody knows", "evidence = \"assumed\"", "evidence = \"internet\"",
     "leap_height", "leap_height.evidence", "\"internet\"", "\"trial\", \"biomechanics\""},
    {"a share above one", "cling_leap    = { value = 0.0", "cling_leap    = { value = 1.5",
     "cling_leap", "cling_leap.value", "1.5", "0 to 1 (share of its leap)"},
    {"a slope beyond upright", "value = 40.0", "value = 140", "stand_slope", "stand_slope.value",
     "140", "1 to 89 (degrees)"},
    {"a surface nobody climbs", "[\"mesh\", \"rock\"]", "[\"mesh\", \"ice\"]", "climbs",
     "climbs.value[1]", "\"ice\"", "a list of any of \"mesh\""},
    {"a body of two numbers", "[0.40, 0.12, 0.20]", "[0.40, 0.12]", "body", "body.value",
     "a list of 2", "a list of 3 numbers"},
    {"an ability left out",
     "dig_depth     = { value = 0.90, source = \"invented for the test\" }\n", "", "", "dig_depth",
     "nothing", "dig_depth = { value"},
    {"a misspelt ability", "wade_depth", "wade_deph", "wade_deph", "wade_deph", "an unknown key",
     "\"wade_depth\""},
    {"an eye in the ground", "eye_height    = { value = 0.20", "eye_height    = { value = 0",
     "eye_height", "eye_height.value", "0", "a number above 0"},
    {"an extra animal without its extra", "extra = 10.0\n", "", "[[require]]", "require[0].extra",
     "nothing", "a number"},
};

TEST(BadInput, EverySlipInASpeciesFileGivesOneLineThatNamesIt) {
  const ScratchFolder folder;
  const std::string file = folder.path("bad.species.toml");
  for (const BadInput& bad : kBadSpecies) {
    const std::string text = replaced(good_species_text(), bad.from, bad.to);
    folder.write("bad.species.toml", text);
    const auto error = error_of([&] { read_species(file); });
    expect_error(bad, text, error);
    if (error) {
      EXPECT_EQ(error->where().file, file);
    }
  }
}

}  // namespace
}  // namespace hummock
