#include "engine/toml/edit_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <random>
#include <sstream>

#include "engine/site/read_site.h"
#include "tests/site/good_site.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

const char* const kSmall = R"(# a yard
name = "small"   # the name

[ground]
level = 0.0  # flat

# the first stone
[[object]]
name = "first"
at = [1.0, 2.0]   # by the wall
size = [1, 1, 1]

# the second stone
[[object]]
name = "second"
at = [3, 4]
crown = { size = [1, 2, 3], base = 1.6 }

[object.extra]
deep = 1

# the end
[leap]
start = [0, 0]
)";

std::string with_windows_line_ends(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return out;
}

std::string example(const std::string& name) {
  std::ifstream in(tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml");
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_FALSE(text.str().empty()) << name;
  return text.str();
}

TEST(EditSite, ChangesOnlyTheBytesOfTheValue) {
  EXPECT_EQ(set_key(kSmall, "object[0]", "at", "[1.5, 2.5]"),
            replaced(kSmall, "[1.0, 2.0]", "[1.5, 2.5]"));
  EXPECT_EQ(set_key(kSmall, "", "name", "\"big\""), replaced(kSmall, "\"small\"", "\"big\""));
  EXPECT_EQ(set_key(kSmall, "ground", "level", "0.25"), replaced(kSmall, "0.0  #", "0.25  #"));
}

TEST(EditSite, FindsTheTableByItsPlaceInTheList) {
  EXPECT_EQ(set_key(kSmall, "object[1]", "at", "[9, 9]"), replaced(kSmall, "[3, 4]", "[9, 9]"));
}

TEST(EditSite, ReachesIntoInlineTablesAndSubTables) {
  EXPECT_EQ(set_key(kSmall, "object[1].crown", "base", "2.0"), replaced(kSmall, "1.6", "2.0"));
  EXPECT_EQ(set_key(kSmall, "object[1].extra", "deep", "2"),
            replaced(kSmall, "deep = 1", "deep = 2"));
}

TEST(EditSite, PutsANewKeyAfterTheTablesLastLine) {
  EXPECT_EQ(set_key(kSmall, "object[0]", "seed", "7"),
            replaced(kSmall, "size = [1, 1, 1]\n", "size = [1, 1, 1]\nseed = 7\n"));
  EXPECT_EQ(set_key(kSmall, "object[1]", "seed", "7"),
            replaced(kSmall, "base = 1.6 }\n", "base = 1.6 }\nseed = 7\n"));
  EXPECT_EQ(set_key(kSmall, "", "animals", "2"),
            replaced(kSmall, "# the name\n", "# the name\nanimals = 2\n"));
  EXPECT_EQ(set_key(kSmall, "object[1].crown", "shape", "\"cone\""),
            replaced(kSmall, "base = 1.6 }", "base = 1.6, shape = \"cone\" }"));
}

TEST(EditSite, MakesATableThatIsNotThereAtTheEnd) {
  EXPECT_EQ(set_key(kSmall, "siting", "count", "5"),
            std::string(kSmall) + "\n[siting]\ncount = 5\n");
}

TEST(EditSite, AddsATableAfterTheLastOfItsList) {
  EXPECT_EQ(
      add_table(kSmall, "object", {{"name", "\"third\""}, {"at", "[5, 6]"}}),
      replaced(kSmall, "deep = 1\n", "deep = 1\n\n[[object]]\nname = \"third\"\nat = [5, 6]\n"));
  EXPECT_EQ(add_table(kSmall, "den", {{"name", "\"new den\""}}),
            std::string(kSmall) + "\n[[den]]\nname = \"new den\"\n");
}

TEST(EditSite, TakesATableOutWithItsSubTablesAndLeavesTheComments) {
  EXPECT_EQ(remove_table(kSmall, "object[0]"),
            replaced(kSmall,
                     "[[object]]\nname = \"first\"\nat = [1.0, 2.0]   # by the wall\n"
                     "size = [1, 1, 1]\n",
                     ""));
  EXPECT_EQ(remove_table(kSmall, "object[1]"),
            replaced(kSmall,
                     "[[object]]\nname = \"second\"\nat = [3, 4]\n"
                     "crown = { size = [1, 2, 3], base = 1.6 }\n\n[object.extra]\ndeep = 1\n",
                     ""));
}

TEST(EditSite, TakesAKeyOutOfALineOrAnInlineTable) {
  EXPECT_EQ(remove_key(kSmall, "ground", "level"), replaced(kSmall, "level = 0.0  # flat\n", ""));
  EXPECT_EQ(remove_key(kSmall, "object[1].crown", "base"), replaced(kSmall, ", base = 1.6", ""));
  EXPECT_EQ(remove_key(kSmall, "object[1].crown", "size"),
            replaced(kSmall, "size = [1, 2, 3], ", ""));
  EXPECT_EQ(remove_key(kSmall, "object[0]", "seed"), kSmall);
}

TEST(EditSite, TakesATableOutOfAnInlineList) {
  const std::string text = "vents = [{ a = 1 }, { a = 2 },\n  { a = 3 }]\n";
  EXPECT_EQ(remove_table(text, "vents[0]"), "vents = [{ a = 2 },\n  { a = 3 }]\n");
  EXPECT_EQ(remove_table(text, "vents[1]"), "vents = [{ a = 1 },\n  { a = 3 }]\n");
  EXPECT_EQ(remove_table(text, "vents[2]"), "vents = [{ a = 1 }, { a = 2 }]\n");
}

TEST(EditSite, KeepsWindowsLineEnds) {
  const std::string text = with_windows_line_ends(kSmall);
  EXPECT_EQ(set_key(text, "object[0]", "seed", "7"),
            with_windows_line_ends(set_key(kSmall, "object[0]", "seed", "7")));
  EXPECT_EQ(add_table(text, "object", {{"at", "[5, 6]"}}),
            with_windows_line_ends(add_table(kSmall, "object", {{"at", "[5, 6]"}})));
  EXPECT_EQ(remove_table(text, "object[0]"),
            with_windows_line_ends(remove_table(kSmall, "object[0]")));
}

TEST(EditSite, AFileWithoutALastLineBreakGetsOneBeforeWhatIsAdded) {
  EXPECT_EQ(set_key("a = 1", "", "b", "2"), "a = 1\nb = 2\n");
  EXPECT_EQ(add_table("a = 1", "t", {{"b", "2"}}), "a = 1\n\n[[t]]\nb = 2\n");
  EXPECT_EQ(set_key("", "", "b", "2"), "b = 2\n");
}

// Texts that mislead a scanner that only looks for lines that begin with a bracket or a key.
TEST(EditSite, IsNotMisledByStringsAndListsThatLookLikeTables) {
  const std::string text =
      "story = \"\"\"\n[[object]]\nat = [7, 7]\n# not a comment \\\"\"\"\"\"\n"
      "'odd key' = '''\n[ground]\n'''\n"
      "list = [\n  1, # ] [ground]\n  2,\n]\n"
      "place.latitude = 1 # level = 3\n"
      "\n[ ground ] # [[object]]\n\"level\"   =\t5 # five\n"
      "[[object]]\nat = [1, 2]\n";
  EXPECT_EQ(set_key(text, "ground", "level", "6"), replaced(text, "\t5 #", "\t6 #"));
  EXPECT_EQ(set_key(text, "object[0]", "at", "[3, 4]"), replaced(text, "[1, 2]", "[3, 4]"));
  EXPECT_EQ(set_key(text, "place", "latitude", "2"),
            replaced(text, "latitude = 1", "latitude = 2"));
  EXPECT_EQ(remove_table(text, "object[0]"), replaced(text, "[[object]]\nat = [1, 2]\n", ""));
}

TEST(EditSite, RefusesWhatIsNotThereOrNotOneValue) {
  EXPECT_THROW(set_key(kSmall, "object[2]", "at", "[1, 1]"), InputError);
  EXPECT_THROW(remove_table(kSmall, "object[2]"), InputError);
  EXPECT_THROW(remove_table(kSmall, "ground"), InputError);
  EXPECT_THROW(set_key(kSmall, "object[0]", "at", "[1, 1"), InputError);
  EXPECT_THROW(set_key(kSmall, "object[0]", "at", "1\nsize = 2"), InputError);
  EXPECT_THROW(set_key(kSmall, "object[0]", "at", "1 # a\n[x]\ny = 2"), InputError);
  EXPECT_THROW(add_table(kSmall, "ground", {{"a", "1"}}), InputError);
  EXPECT_THROW(set_key("not toml", "", "a", "1"), InputError);
}

TEST(EditSite, RefusesAnEditThatWouldChangeMoreThanAskedFor) {
  // The table is open through dotted keys only, so a header for it would be a second definition.
  const std::string text = "place.latitude = 1\n";
  EXPECT_THROW(set_key(text, "place", "longitude", "2"), InputError);
}

TEST(EditSite, WritesValuesThatReadBackTheSame) {
  EXPECT_EQ(toml_number(3.0), "3.0");
  EXPECT_EQ(toml_number(0.1), "0.1");
  EXPECT_EQ(toml_number(-2.25), "-2.25");
  EXPECT_EQ(toml_number(1e22), "1e+22");
  EXPECT_EQ(toml_point({1.0, 2.5}), "[1.0, 2.5]");
  EXPECT_EQ(toml_points({{0, 0}, {1, 0.5}}), "[[0.0, 0.0], [1.0, 0.5]]");
  EXPECT_EQ(toml_text("a \"b\" \\ \n"), "\"a \\\"b\\\" \\\\ \\u000A\"");
}

TEST(EditSite, ADraggedBoulderReadsBackWhereItWasDropped) {
  const std::string text = set_key(good_site_text(), "object[0]", "at", toml_point({4.25, 3.1}));
  const Site before = read_site(good_site_file());
  const Site after = read_site_text(text, good_site_file());
  EXPECT_EQ(after.objects.at(0).at, (Vec2{4.25, 3.1}));
  EXPECT_EQ(after.objects.at(0).size, before.objects.at(0).size);
  EXPECT_EQ(after.objects.at(1).at, before.objects.at(1).at);
  EXPECT_EQ(after.objects.at(1).where.line, before.objects.at(1).where.line);
}

int comments_in(const std::string& text) {
  return static_cast<int>(std::count(text.begin(), text.end(), '#'));
}

// Random edits of every example, each undone: what was not edited is byte for byte as it was.
TEST(EditSite, RandomEditsUndoneLeaveTheTextAsItWas) {
  const unsigned seed = 4711;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const auto any = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  for (const char* name : {"north-yard", "crater-paddock", "larkfell-terrace"}) {
    for (const bool windows : {false, true}) {
      const std::string start = windows ? with_windows_line_ends(example(name)) : example(name);
      const Site site = read_site_text(
          start, tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml");
      std::string text = start;
      for (int i = 0; i < 20; ++i) {
        const std::size_t n = random() % site.objects.size();
        const std::string table = "object[" + std::to_string(n) + "]";
        const std::string moved = set_key(text, table, "at", toml_point({any(0, 9), any(0, 9)}));
        EXPECT_EQ(comments_in(moved), comments_in(start));
        const std::string lifted = set_key(moved, table, "z", toml_number(any(0, 1)));
        const std::string more =
            add_table(lifted, "object", {{"name", "\"added\""}, {"kind", "\"box\""}});
        const std::string last = "object[" + std::to_string(site.objects.size()) + "]";
        EXPECT_EQ(remove_table(more, last), lifted);
        if (lifted.size() > moved.size() && moved.find("\nz = ") == std::string::npos) {
          EXPECT_EQ(remove_key(lifted, table, "z"), moved);
        }
        const std::string fence =
            set_key(lifted, "boundary.section[0]", "height", toml_number(any(2, 3)));
        text = fence;
      }
      for (std::size_t n = 0; n < site.objects.size(); ++n) {
        const std::string table = "object[" + std::to_string(n) + "]";
        text = site.objects[n].z == 0.0 ? remove_key(text, table, "z")
                                        : set_key(text, table, "z", toml_number(site.objects[n].z));
        text = set_key(text, table, "at", toml_point(site.objects[n].at));
      }
      text = set_key(text, "boundary.section[0]", "height",
                     toml_number(site.boundary.sections[0].height));
      // Only the spelling of the values put back may differ: 600 became 600.0.
      EXPECT_EQ(comments_in(text), comments_in(start));
      EXPECT_EQ(std::count(text.begin(), text.end(), '\n'),
                std::count(start.begin(), start.end(), '\n'));
      const Site back = read_site_text(text, site.file);
      for (std::size_t n = 0; n < site.objects.size(); ++n) {
        EXPECT_EQ(back.objects[n].at, site.objects[n].at);
        EXPECT_EQ(back.objects[n].where.line, site.objects[n].where.line);
      }
    }
  }
}

TEST(EditSite, EveryTableOfEveryExampleCanBeTakenOutAndTheRestStays) {
  for (const char* name : {"north-yard", "crater-paddock", "larkfell-terrace"}) {
    SCOPED_TRACE(name);
    std::string text = example(name);
    const int comments = comments_in(text);
    int removed = 0;
    for (const char* list : {"object", "planting", "den", "burrow", "water", "viewing", "house",
                             "surrounding", "ground.form", "boundary.gate", "require"}) {
      for (;;) {
        std::string less;
        try {
          less = remove_table(text, std::string(list) + "[0]");
        } catch (const InputError&) {
          break;
        }
        EXPECT_LT(less.size(), text.size());
        text = less;
        ++removed;
      }
    }
    EXPECT_GT(removed, 15);
    EXPECT_LE(comments_in(text), comments);
    EXPECT_NO_THROW(read_site_text(
        text, tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml"));
  }
}

}  // namespace
}  // namespace hummock
