// Bad input: one change to a good file, and the one line that must say what is wrong with it.
#include "tests/site/bad_input.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/site/read_site.h"
#include "tests/site/good_site.h"

namespace hummock {
namespace {

// Each row is a slip that a person makes, or that once passed in silence.
const BadInput kBadSites[] = {
    // Not TOML at all.
    {"a quote that is not closed", "name = \"Test yard\"", "name = \"Test yard", "name = \"Test",
     "", "a slip in the TOML", "key = value"},
    {"a key given twice", "animals = 3", "animals = 3\nanimals = 4", "animals = 4", "",
     "a slip in the TOML", ""},
    {"a table header not closed", "[place]", "[place", "[place", "", "a slip in the TOML", ""},
    {"bytes that are not UTF-8", "Only for", "Only \xff\xfe for", "", "", "a slip in the TOML", ""},
    // Unknown keys and tables.
    {"a misspelt key", "height = 2.44", "heigth = 2.44", "heigth", "boundary.section[0].heigth",
     "an unknown key", "\"height\" (did you mean that?)"},
    {"a misspelt table", "[ground]", "[groud]", "[groud]", "groud", "an unknown key", "\"ground\""},
    {"a key nobody knows", "animals = 3", "animals = 3\ncolour = \"red\"", "colour", "colour",
     "an unknown key", "one of format, name"},
    {"a misspelt key in an inline table", "angle = 40.0 }", "angel = 40.0 }", "angel",
     "boundary.section[0].overhang.angel", "an unknown key", "\"angle\""},
    {"a misspelt vestibule key", "second_gate", "second_gates", "second_gates",
     "boundary.gate[0].vestibule.second_gates", "an unknown key", "\"second_gate\""},
    {"a key with a line break in it", "animals = 3", "animals = 3\n\"a\\nb\" = 1", "\"a\\nb\"",
     "\"a b\"", "an unknown key", ""},
    {"a key of another kind of form", "height = 0.9", "height = 0.9\nlevel = 1.0", "level = 1.0",
     "ground.form[0].level", "a key that a mound does not have", "radius"},
    {"an aperture on a solid wall", "kind = \"solid\"", "kind = \"solid\"\naperture = 0.034",
     "aperture = 0.034", "boundary.section[1].aperture", "a key that a solid section does not have",
     "height"},
    {"a seed on a tree", "trunk = [0.3, 2.0]", "trunk = [0.3, 2.0]\nseed = 2", "seed = 2",
     "object[1].seed", "a key that a tree does not have", "trunk"},
    // Wrong types.
    {"a number in quotes", "height = 2.44", "height = \"2.44\"", "height = \"2.44\"",
     "boundary.section[0].height", "\"2.44\"", "a number from 0.1 to 30 (m)"},
    {"a text that is a number", "name = \"Test yard\"", "name = 7", "name = 7", "name", "7",
     "a text in quotes"},
    {"half an animal", "animals = 3", "animals = 2.5", "animals", "animals", "2.5",
     "a whole number from 1"},
    {"a flag as a number", "guest_view = true", "guest_view = 1", "guest_view",
     "boundary.section[1].guest_view", "1", "true or false"},
    {"a table where a list of tables is meant", "[[object]]\nname = \"split boulder\"",
     "[object]\nname = \"split boulder\"", "", "", "a slip in the TOML", ""},
    {"a list where a table is meant", "[roof]", "[[roof]]", "[[roof]]", "roof", "a list of 1",
     "a table"},
    {"a point of three numbers", "at = [8.0, 6.0]", "at = [8.0, 6.0, 1.0]", "at = [8.0",
     "ground.form[0].at", "a list of 3", "a point [x, y]"},
    {"a date for a number", "elevation = 62.0", "elevation = 2026-01-01", "elevation",
     "place.elevation", "a date", "a number from -500"},
    {"an edge that is not whole", "edges = [0, 1]", "edges = [0, 1.5]", "edges = [0, 1.5]",
     "boundary.section[0].edges[1]", "1.5", "whole numbers"},
    // Missing.
    {"no format", "format = 1\n", "", "", "format", "nothing", "the number 1"},
    {"a format of the future", "format = 1", "format = 2", "format", "format", "2", "the number 1"},
    {"no name", "name = \"Test yard\"\n", "", "", "name", "nothing", "a text in quotes"},
    {"a section without its height", "height = 2.44\n", "", "[[boundary.section]]",
     "boundary.section[0].height", "nothing", "a number from 0.1 to 30 (m)"},
    {"a mesh without its aperture", "aperture = 0.025\nwire", "wire", "",
     "boundary.section[0].aperture", "nothing", "a number from 0.001 to 1 (m)"},
    {"a roof without a height", "height = 3.0\nsag", "sag", "[roof]", "roof.height",
     "neither height nor above_fence", "one of height"},
    {"no time zone", "time_zone = \"+01:00\"\n", "", "[place]", "place.time_zone", "nothing", ""},
    // Out of range.
    {"a latitude beyond the pole", "latitude = 51.5", "latitude = 95", "latitude", "place.latitude",
     "95", "a number from -90 to 90 (degrees north)"},
    {"a longitude beyond the date line", "longitude = -0.6", "longitude = -200", "longitude",
     "place.longitude", "-200", "-180 to 180"},
    {"a fence in centimetres", "height = 2.44", "height = 244", "height = 244",
     "boundary.section[0].height", "244", "0.1 to 30 (m)"},
    {"a mesh in millimetres", "aperture = 0.025\nwire", "aperture = 25\nwire", "aperture = 25",
     "boundary.section[0].aperture", "25", "0.001 to 1 (m)"},
    {"an overhang in radians and straight down", "angle = 40.0 }", "angle = -90 }", "angle = -90",
     "boundary.section[0].overhang.angle", "-90", "-60 to 89 (degrees above horizontal)"},
    {"a panel of no length", "panel = 2.0", "panel = 0", "panel = 0", "boundary.section[0].panel",
     "0", "0.1 to 50 (m between posts)"},
    {"a negative panel", "panel = 1.5", "panel = -1.5", "panel = -1.5", "boundary.section[1].panel",
     "-1.5", "0.1 to 50"},
    {"a cell of no size", "cell = 0.10", "cell = 0", "cell = 0", "ground.cell", "0",
     "a number from 0.005 to 50 (m)"},
    {"a mound of no radius", "radius = 2.5", "radius = 0", "radius = 0", "ground.form[0].radius",
     "0", "a number above 0"},
    {"no animals", "animals = 3", "animals = 0", "animals = 0", "animals", "0", "from 1"},
    {"a cover in per cent", "cover = 0.7", "cover = 70", "cover = 70", "planting[0].cover", "70",
     "0 to 1 (share)"},
    {"a pressure in pascals", "pressure = 1005.0", "pressure = 100500", "pressure",
     "place.pressure", "100500", "300 to 1100 (hPa)"},
    {"a boulder with no thickness", "size = [1.4, 1.1, 0.9]", "size = [1.4, 1.1, 0]",
     "size = [1.4, 1.1, 0]", "object[0].size[2]", "0", "a number above 0"},
    {"a size of two numbers", "size = [1.4, 1.1, 0.9]", "size = [1.4, 1.1]", "size = [1.4, 1.1]",
     "object[0].size", "a list of 2", "a list of 3 numbers"},
    {"a negative seed", "seed = 4", "seed = -4", "seed = -4", "object[0].seed", "-4", "from 0"},
    // Not a number.
    {"not-a-number", "level = 0.0\ncell", "level = nan\ncell", "level = nan", "ground.level",
     "not-a-number", "a number from -500"},
    {"infinity", "margin = 3.0", "margin = inf", "margin = inf", "ground.margin", "infinity",
     "0 to 1000"},
    {"not-a-number in an outline", "[12, 9], [0, 9]]", "[12, nan], [0, 9]]", "[12, nan]",
     "boundary.outline[2]", "not-a-number", "(m)"},
    // Words.
    {"an unknown kind of sheet", "kind = \"solid\"", "kind = \"wall\"", "kind = \"wall\"",
     "boundary.section[1].kind", "\"wall\"", "\"mesh\", \"solid\" or \"glass\""},
    {"an unknown kind of object", "kind = \"boulder\"", "kind = \"rock\"", "kind = \"rock\"",
     "object[0].kind", "\"rock\"", "\"boulder\", \"log\""},
    {"an unknown fit", "fit = \"raked\"", "fit = \"rake\"", "fit = \"rake\"",
     "boundary.section[0].fit", "\"rake\"", "\"raked\" or \"stepped\""},
    {"an apron on no side", "side = \"inside\"", "side = \"in\"", "side = \"in\"",
     "boundary.section[0].apron.side", "\"in\"", "\"inside\" or \"outside\""},
    {"a glass roof", "[roof]\nkind = \"mesh\"", "[roof]\nkind = \"glass\"", "kind = \"glass\"",
     "roof.kind", "\"glass\"", "\"mesh\" or \"solid\""},
    {"a time zone in words", "\"+01:00\"", "\"one hour east\"", "one hour east", "place.time_zone",
     "\"one hour east\"", "an offset such as"},
    {"a time zone without its colon", "\"+01:00\"", "\"+0100\"", "+0100", "place.time_zone",
     "\"+0100\"", "an offset such as"},
    {"a time zone beyond the day", "\"+01:00\"", "\"+15:00\"", "+15:00", "place.time_zone",
     "\"+15:00\"", "an offset such as"},
    {"a city that is no zone", "\"+01:00\"", "\"Europe/Fernhollow\"", "Fernhollow",
     "place.time_zone", "\"Europe/Fernhollow\"", "a zone name such as"},
    {"a bare season of the 31st of November", "bare = [\"11-01\", \"04-01\"]",
     "bare = [\"11-31\", \"04-01\"]", "11-31", "object[1].crown.bare", "\"11-31\"",
     "[\"month-day\", \"month-day\"]"},
    {"a name of blanks", "name = \"split boulder\"", "name = \"  \"", "name = \"  \"",
     "object[0].name", "an empty text", "a text in quotes"},
    // Sources of the ground.
    {"a level and a raster", "level = 0.0\ncell", "level = 0.0\nraster = \"points.csv\"\ncell",
     "raster = ", "ground.raster", "level and raster", "one of level, raster and points"},
    {"no source of the ground", "level = 0.0\ncell", "cell", "[ground]", "ground.level",
     "none of level, raster and points", "one of"},
    {"a raster that is not there", "level = 0.0\ncell", "raster = \"gone.tif\"\ncell", "gone.tif",
     "ground.raster", "\"gone.tif\", which is not there", "a raster file"},
    {"points that are not there", "level = 0.0\ncell", "points = \"gone.csv\"\ncell", "gone.csv",
     "ground.points", "which is not there", "a CSV file"},
    {"an empty raster", "level = 0.0\ncell", "raster = \"empty.asc\"\ncell", "empty.asc",
     "ground.raster", "which is empty", "a raster file"},
    {"a folder as a raster", "level = 0.0\ncell", "raster = \".\"\ncell", "raster = \".\"",
     "ground.raster", "which is not a file", "a raster file"},
    {"a mesh file that is not there", "file = \"rock.obj\"", "file = \"rok.obj\"", "rok.obj",
     "object[2].file", "\"rok.obj\", which is not there", "a mesh file"},
    {"a species that is not there", "species = \"good.species.toml\"", "species = \"griffin\"",
     "griffin", "species", "\"griffin\", which is not there", "a species file"},
    {"a climate that is not there", "animals = 3", "animals = 3\nclimate = \"gone.csv\"",
     "gone.csv", "climate", "which is not there", "an hourly CSV file"},
    // The outline and its edges.
    {"an outline that crosses itself", "[[0, 0], [12, 0], [12, 9], [0, 9]]",
     "[[0, 0], [12, 9], [12, 0], [0, 9]]", "outline = [[0, 0], [12, 9]", "boundary.outline[2]",
     "edges 0 and 2 that touch or cross", "does not meet itself"},
    {"an outline closed by hand", "[12, 9], [0, 9]]", "[12, 9], [0, 9], [0, 0]]", "[0, 9], [0, 0]",
     "boundary.outline[4]", "an edge of no length (edge 4)", "not repeated at the end"},
    {"a corner given twice", "[[0, 0], [12, 0],", "[[0, 0], [12, 0], [12, 0],", "[12, 0], [12, 0]",
     "boundary.outline[1]", "an edge of no length (edge 1)", "corners apart"},
    {"an outline of two corners", "[[0, 0], [12, 0], [12, 9], [0, 9]]", "[[0, 0], [12, 0]]",
     "outline = [[0, 0], [12, 0]]", "boundary.outline", "a list of 2", "3 or more points"},
    {"an edge in two sections", "edges = [2, 3]", "edges = [1, 2, 3]", "edges = [1, 2, 3]",
     "boundary.section[1].edges", "edge 1, which \"south run\" has already",
     "every edge in one section"},
    {"an edge twice in one section", "edges = [2, 3]", "edges = [2, 3, 2]", "edges = [2, 3, 2]",
     "boundary.section[1].edges", "edge 2, which \"back wall\" has already",
     "every edge in one section"},
    {"an edge in no section", "edges = [2, 3]", "edges = [2]", "[[boundary.section]]",
     "boundary.section", "edge 3 in no section", "every edge in one section"},
    {"an edge the outline does not have", "edges = [2, 3]", "edges = [2, 3, 4]",
     "edges = [2, 3, 4]", "boundary.section[1].edges", "edge 4", "edges 0 to 3"},
    {"a negative edge", "edges = [2, 3]", "edges = [2, -1]", "edges = [2, -1]",
     "boundary.section[1].edges[1]", "-1", "whole numbers from 0"},
    // Gates, drains, viewing places.
    {"a gate beyond the end of its edge", "from = 3.0\nwidth = 1.0", "from = 11.5\nwidth = 1.0",
     "from = 11.5", "boundary.gate[0].from", "from + width = 12.5 on edge 2",
     "up to the edge's length, 12 (m)"},
    {"a gate on no edge", "edge = 2", "edge = 7", "edge = 7", "boundary.gate[0].edge", "7",
     "an edge from 0 to 3"},
    {"a gate taller than its fence", "height = 2.1\n", "height = 2.3\n", "height = 2.3",
     "boundary.gate[0].height", "2.3 over a gap of 0.015", "\"back wall\", 2.2 (m)"},
    {"gates that overlap", "[[boundary.drain]]",
     "[[boundary.gate]]\nedge = 2\nfrom = 3.5\nwidth = 1\nheight = 2\n\n[[boundary.drain]]",
     "from = 3.5", "boundary.gate[1].from", "an overlap with \"gate 1\"", "beside each other"},
    {"a drain in a gate", "edge = 0\nfrom = 1.0", "edge = 2\nfrom = 3.1", "from = 3.1",
     "boundary.drain[0].from", "an overlap with \"gate 1\"", "beside each other"},
    {"a viewing place beyond its edge", "from = 2.0\nwidth = 3.0", "from = 8.0\nwidth = 3.0",
     "from = 8.0", "viewing[0].from", "from + width = 11 on edge 3", "length, 9 (m)"},
    {"a drain beyond its edge", "from = 1.0\nwidth = 0.2\n", "from = 11.9\nwidth = 0.2\n",
     "from = 11.9", "boundary.drain[0].from", "12.1", "12 (m)"},
    // Things.
    {"two things of one name", "name = \"old oak\"", "name = \"split boulder\"  # twin", "# twin",
     "object[1].name", "\"split boulder\", the name of object[0]", "a name of its own"},
    {"an object on the next field", "at = [3.0, 2.0]", "at = [30.0, 2.0]", "at = [30.0",
     "object[0].at", "(30, 2)", "within its margin of 3 (m)"},
    {"a den beyond the margin", "at = [10.0, 8.0]", "at = [10.0, 12.5]", "at = [10.0, 12.5]",
     "den[0].at", "(10, 12.5)", "within its margin"},
    {"a pool that reaches out", "outline = [[4, 0.5], [6, 0.5], [6, 1.5]]",
     "outline = [[4, 0.5], [6, 0.5], [6, -9]]", "[6, -9]", "water[0].outline", "(6, -9)",
     "within its margin"},
    {"a start outside", "start = [6.0, 4.0]", "start = [60.0, 4.0]", "start = [60.0", "leap.start",
     "(60, 4)", "inside the outline"},
    {"water with level and depth", "depth = 0.25\n", "depth = 0.25\nlevel = 0.1\n", "level = 0.1",
     "water[0].level", "level and depth", "one of level"},
    {"a planting that crosses itself", "[[1, 6], [3, 6], [3, 8]]",
     "[[1, 6], [3, 8], [3, 6], [1, 8]]", "[[1, 6], [3, 8]", "planting[0].outline[2]",
     "touch or cross", "does not meet itself"},
    {"a roof both ways", "height = 3.0\nsag", "height = 3.0\nabove_fence = 0.2\nsag",
     "height = 3.0", "roof.height", "height and above_fence", "one of height"},
    {"a house colder than its lowest", "temperature = [5, 25]", "temperature = [25, 5]",
     "temperature = [25", "house[0].temperature", "25 above 5", "low <= high"},
    {"lamps on for more than the most", "least = 8, most = 15", "least = 16, most = 15",
     "least = 16", "house[0].light.least", "16 above 15", "least <= most"},
    {"a house door beyond its wall", "from = 1.0, width = 0.4", "from = 2.9, width = 0.4",
     "from = 2.9", "house[0].door.from", "from + width = 3.3 on edge 3", "3 (m)"},
    {"a vent above its house", "sill = 1.8", "sill = 2.3", "sill = 2.3", "house[0].vents[0].height",
     "0.2 over a sill of 2.3", "up to the house's height, 2.4 (m)"},
    {"a horizon that goes back", "[90, 10], [270, 2.5]", "[90, 10], [80, 2.5]", "[80, 2.5]",
     "place.horizon", "azimuth 80 after 90", "azimuths that rise"},
    {"no weights at all", "shade = 3.0\ncount",
     "shade = 0\nsoil = 0\nslope = 0\nponding = 0\nfence = 0\ncount", "shade = 0", "siting.shade",
     "no weight above 0", "at least one"},
    // The brief.
    {"a requirement that is no key", "what = \"shade.hottest_shade_m2_per_animal\"",
     "what = \"plenty of shade\"", "plenty of shade", "require[0].what", "\"plenty of shade\"",
     "a key of the results"},
    {"a requirement of an unknown analysis", "what = \"shade.hottest", "what = \"shaed.hottest",
     "shaed.hottest", "require[0].what", "\"shaed.hottest", "\"shade.hottest"},
    {"limits the wrong way round", "between = [2, 50]", "between = [50, 2]", "between = [50, 2]",
     "require[0].between", "[50, 2]", "low <= high"},
    {"a requirement without a limit", "between = [2, 50]\n", "", "what = \"shade.hottest",
     "require[0].what", "no limit for it", "one of at_least"},
    {"a limit in words", "between = [2, 50]", "at_least = \"plenty\"", "plenty",
     "require[0].at_least", "\"plenty\"", "a number"},
    {"a unit that is a number", "between = [2, 50]", "between = [2, 50]\nunit = 2", "unit = 2",
     "require[0].unit", "2", "a text in quotes"},
    {"two limits", "between = [2, 50]", "between = [2, 50]\nat_most = 9", "what = \"shade.hottest",
     "require[0].what", "more than one limit", "one of at_least"},
    {"a requirement without a source", "per = \"animal\"\nsource = \"invented for the test\"",
     "per = \"animal\"", "", "require[0].source", "nothing", "a text in quotes"},
    {"an extra per group", "per = \"animal\"", "per = \"group\"\nextra = 3", "extra = 3",
     "require[0].extra", "a key that a requirement per group does not have", "what"},
    {"per head", "per = \"animal\"", "per = \"head\"", "per = \"head\"", "require[0].per",
     "\"head\"", "\"group\", \"animal\", \"extra animal\" or \"with offspring\""},
};

TEST(BadInput, EverySlipInASiteFileGivesOneLineThatNamesIt) {
  int cases = 0;
  for (const BadInput& bad : kBadSites) {
    const std::string text = replaced(good_site_text(), bad.from, bad.to);
    expect_error(bad, text, error_of([&] { read_site_text(text, good_site_file()); }));
    ++cases;
  }
  EXPECT_GE(cases, 40);
  RecordProperty("cases", cases);
}

TEST(BadInput, AGroundOfTooManyPointsIsRefusedBeforeItIsMade) {
  const std::string text = replaced(replaced(good_site_text(), "cell = 0.10", "cell = 0.005"),
                                    "margin = 3.0", "margin = 50.0");
  const auto error = error_of([&] { read_site_text(text, good_site_file()); });
  ASSERT_TRUE(error);
  EXPECT_EQ(error->where().key, "ground.cell");
  EXPECT_EQ(error->where().line, line_with(text, "cell = 0.005"));
  EXPECT_NE(error->allowed().find("40 million points"), std::string::npos) << error->what();
}

TEST(BadInput, AnOutlineOfTooManyCornersIsRefusedBeforeItIsSearched) {
  std::string circle = "outline = [";
  for (int i = 0; i < 200000; ++i) {
    const double turn = 2.0 * geom::kPi * i / 200000;
    circle += "[" + std::to_string(6 + 5 * std::cos(turn)) + "," +
              std::to_string(4.5 + 4 * std::sin(turn)) + "],";
  }
  const std::string text =
      replaced(good_site_text(), "outline = [[1, 6], [3, 6], [3, 8]]", circle + "]");
  const auto error = error_of([&] { read_site_text(text, good_site_file()); });
  ASSERT_TRUE(error);
  EXPECT_EQ(error->where().key, "planting[0].outline");
  EXPECT_EQ(error->found(), "a list of 200000");
}

TEST(BadInput, AFileThatIsNotThereOrIsAFolderIsNamed) {
  const auto gone = error_of([] { read_site("/no/such/yard.site.toml"); });
  ASSERT_TRUE(gone);
  EXPECT_STREQ(gone->what(),
               "/no/such/yard.site.toml: found no such file, allowed a site file, NAME.site.toml");
  const auto folder = error_of([] { read_site(good_site_file().parent_path()); });
  ASSERT_TRUE(folder);
  EXPECT_EQ(folder->found(), "not a file");
  const auto species = error_of([] { read_species("/no/such.species.toml"); });
  ASSERT_TRUE(species);
  EXPECT_EQ(species->found(), "no such file");
}

TEST(BadInput, AnEmptyFileLacksItsFormat) {
  const auto error = error_of([] { read_site_text("", good_site_file()); });
  ASSERT_TRUE(error);
  EXPECT_EQ(error->where().key, "format");
}

}  // namespace
}  // namespace hummock
