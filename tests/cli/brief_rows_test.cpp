// Rows of the brief as a user writes and sees them: rows in words, brief files, waivers, words,
// alternatives, conditions, offspring. The yard is 10 × 8 m: 80 m² in plan, by its corners.
#include <gtest/gtest.h>

#include "engine/base/sha256.h"
#include "tests/cli/brief_yard.h"

namespace hummock::testing {
namespace {

const std::string kSource = "source = \"invented for the test\"\n";

std::string area(const std::string& limits) {
  return "[[require]]\nwhat = \"space.plan_area_m2\"\n" + kSource + limits;
}
std::string signed_by(const std::string& table, const std::string& what,
                      const std::string& more = "") {
  return "[[" + table + "]]\nwhat = \"" + what + "\"\nby = \"R. Alder\"\non = 2026-05-01\n" + more;
}
std::string file_of(const std::string& name, const std::string& rows) {
  return "format = 1\nname = \"" + name + "\"\n" + rows;
}
bool says(const Checked& c, const std::string& words) {
  return c.said.out.find(words) != std::string::npos;
}
void expect_refused(const BriefYard& yard, const std::string& line) {
  const Checked c = check_of(yard);
  EXPECT_EQ(c.said.status, 2) << c.said.out;
  EXPECT_EQ(std::count(c.said.err.begin(), c.said.err.end(), '\n'), 1) << c.said.err;
  EXPECT_NE(c.said.err.find(line), std::string::npos) << c.said.err;
}

const std::string kLock = "[[require]]\nask = \"Is the store locked at night?\"\n" + kSource;

TEST(RowsInWords, StandOpenUntilAPersonAnswersThem) {
  const Checked open = check_of({.rows = kLock});
  EXPECT_EQ(open.said.status, 1);
  EXPECT_EQ(open.row("Is the store locked at night?")["standing"], "open");
  EXPECT_TRUE(says(open, "answer it with a [[confirm]]")) << open.said.out;

  const std::string word = signed_by("confirm", "Is the store locked at night?", "note = \"seen\"");
  const Checked met = check_of({.rows = kLock + word});
  EXPECT_EQ(met.said.status, 0) << met.said.out;
  EXPECT_EQ(met.row("Is the store locked at night?")["standing"], "met");
  EXPECT_TRUE(says(met, "confirmed by R. Alder, 2026-05-01: seen")) << met.said.out;

  const std::string id = kLock + "id = \"night-lock\"\n";
  EXPECT_EQ(check_of({.rows = id + signed_by("confirm", "night-lock")}).said.status, 0);
  EXPECT_EQ(check_of({.rows = id + "weight = \"should\"\n"}).said.status, 0);
}

TEST(RowsInWords, AnAnswerToNothingIsPointedOutAndASlipRefused) {
  const Checked idle = check_of({.rows = kLock + signed_by("confirm", "What of the winter feed?")});
  EXPECT_EQ(idle.said.status, 1);
  EXPECT_TRUE(says(idle, "answers nothing")) << idle.said.out;
  const std::string id = kLock + "id = \"night-lock\"\n";
  expect_refused({.rows = id + signed_by("confirm", "night-luck")},
                 "confirm[0].what: found \"night-luck\", allowed \"night-lock\" (did you mean");
  expect_refused({.rows = kLock + "at_least = 3.0\n"}, "require[0].at_least: found a key of a");
  expect_refused({.rows = id + id}, "require[1].id: found \"night-lock\", as in yard.site.toml");
  expect_refused({.rows = id + "[[require]]\nask = \"night-lock\"\n" + kSource},
                 "require[1].ask: found \"night-lock\", as in yard.site.toml");
  expect_refused({.rows = "[[require]]\nask = \"a\\nb\"\n" + kSource}, "words on one line");
  expect_refused({.rows = "[[require]]\nask = \"hangs\"\n" + kSource}, "require[0].ask");
  expect_refused({.rows = kLock + "id = \"hangs\"\n"}, "an id that is no word of an *if*");
}

TEST(BriefFiles, AreStackedAndTheStricterDecides) {
  const BriefYard yard{
      .rows = area("at_least = 50.0\n"),
      .head = "brief = [\"law.brief.toml\", \"rules/park.brief.toml\"]\n",
      .beside = {{"law.brief.toml", file_of("law", area("at_least = 60.0\n"))},
                 {"rules/park.brief.toml", file_of("park", area("at_least = 90.0\n") + kLock)}}};
  const Checked c = check_of(yard);
  EXPECT_EQ(c.said.status, 1);
  ASSERT_EQ(c.brief.size(), 4U);
  const char* const asked_by[] = {"", "law", "park", "park"};
  const char* const standing[] = {"met", "met", "short", "open"};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_EQ(c.brief[i]["asked_by"], asked_by[i]);
    EXPECT_EQ(c.brief[i]["standing"], standing[i]);
    EXPECT_EQ(c.brief[i].value("stricter", ""), i < 2 ? "park" : "");
  }
  EXPECT_TRUE(says(c, "asked by law")) << c.said.out;
  EXPECT_TRUE(says(c, "park asks more, and decides")) << c.said.out;
}

TEST(BriefFiles, ThatCannotBeReadOrContradictAreRefusedWithBothPlaces) {
  const BriefYard yard{.rows = area("at_most = 50.0\n"),
                       .head = "brief = \"law.brief.toml\"\n",
                       .beside = {{"law.brief.toml", file_of("law", area("at_least = 60.0\n"))}}};
  expect_refused(yard,
                 "yard.site.toml:18: require[0].at_most: found at most 50 of "
                 "space.plan_area_m2, of which law.brief.toml:3 asks at least 60");
  const auto with = [](const std::string& head, const std::string& law) {
    return BriefYard{.rows = "", .head = head, .beside = {{"law.brief.toml", law}}};
  };
  expect_refused(with("brief = \"low.brief.toml\"\n", ""), "which is not there");
  expect_refused(with("brief = [\"law.brief.toml\", \"law.brief.toml\"]\n", "x"), "twice");
  expect_refused(with("brief = \"law.brief.toml\"\n", file_of("law", "")),
                 "law.brief.toml:1: require: found no row");
  expect_refused(with("brief = 3\n", ""), "yard.site.toml:5: brief: found");
  expect_refused(with("brief = \"law.brief.toml\"\n", file_of("law", "animals = 3\n")),
                 "law.brief.toml:3: animals: found an unknown key");
  expect_refused(
      with("brief = \"law.brief.toml\"\n",
           file_of("law", "[[require]]\nwhat = \"space.plan_m2\"\nat_least = 1.0\n" + kSource)),
      "law.brief.toml:3: require[0].what: found \"space.plan_m2\"");
}

TEST(BriefFiles, AndTheirChecksumsStandInTheReport) {
  const std::string law = file_of("law", area("at_least = 60.0\n") + kLock);
  const std::string page = report_of({.rows = area("at_least = 70.0\n"),
                                      .head = "brief = \"law.brief.toml\"\n",
                                      .beside = {{"law.brief.toml", law}}});
  for (const std::string& words :
       {std::string("law.brief.toml"), sha256_hex(law), std::string("asked by law"),
        std::string("the site or its species asks more, and decides"),
        std::string("For a person to answer"), std::string("Is the store locked at night?")})
    EXPECT_NE(page.find(words), std::string::npos) << words;
}

TEST(Waivers, LeaveARowShortAndAreForItsAskerOnly) {
  const std::string off = signed_by("waiver", "space.plan_area_m2", "reason = \"until joined\"\n");
  const Checked own = check_of({.rows = area("at_least = 90.0\n") + off});
  EXPECT_EQ(own.said.status, 0) << own.said.out;
  EXPECT_EQ(own.row("space.plan_area_m2")["standing"], "waived");
  EXPECT_EQ(own.row("space.plan_area_m2")["met"], "short") << "signed off is never met";
  EXPECT_TRUE(says(own, "R. Alder, 2026-05-01: until joined")) << own.said.out;

  BriefYard law{.rows = off,
                .head = "brief = \"law.brief.toml\"\n",
                .beside = {{"law.brief.toml", file_of("law", area("at_least = 90.0\n"))}}};
  const Checked unread = check_of(law);
  EXPECT_EQ(unread.said.status, 1) << "a file added later is not signed off unread";
  EXPECT_EQ(unread.row("space.plan_area_m2")["standing"], "short");
  EXPECT_TRUE(says(unread, "is for a row that law asks: say so in `of`")) << unread.said.out;
  law.rows = off + "of = \"law\"\n";
  EXPECT_EQ(check_of(law).row("space.plan_area_m2")["standing"], "waived");
}

TEST(Waivers, ThatSignNothingArePointedOut) {
  const auto waived = [](const std::string& what) {
    return signed_by("waiver", what, "reason = \"x\"\n");
  };
  const std::string off = waived("space.plan_area_m2");
  EXPECT_TRUE(says(check_of({.rows = area("at_least = 60.0\n") + off}), "for a row that is met"));
  EXPECT_TRUE(says(check_of({.rows = off}), "for a row that is gone: nothing asks it"));
  const std::string young = area("at_least = 90.0\nwhen = { offspring = true }\n");
  EXPECT_TRUE(says(check_of({.rows = young + off, .head = "offspring = 0\n"}),
                   "for a row that is not asked on this site"));
  EXPECT_TRUE(says(check_of({.rows = kLock + waived("Is the store locked at night?")}),
                   "for a row in words, which a confirmation answers"));
  EXPECT_EQ(check_of({.rows = kLock + waived("Is the store locked at night?")}).said.status, 1);
}

std::string kinds(const std::string& what, const std::string& words) {
  return "[[require]]\nwhat = \"quantities." + what + "\"\n" + kSource + words;
}

TEST(Words, AreHeldAgainstWords) {
  const auto standing = [](const std::string& what, const std::string& words) {
    return check_of({.rows = kinds(what, words)}).row("quantities." + what)["standing"];
  };
  EXPECT_EQ(standing("fence_kinds", "one_of = [\"mesh\", \"solid\"]\n"), "met");
  EXPECT_EQ(standing("fence_kinds", "one_of = [\"solid\", \"glass\"]\n"), "short");
  EXPECT_EQ(standing("fence_kinds", "none_of = [\"glass\"]\n"), "met");
  EXPECT_EQ(standing("fence_kinds", "none_of = [\"mesh\"]\n"), "short");
  EXPECT_EQ(standing("fence_kinds", "all_of = [\"mesh\", \"glass\"]\n"), "short");
  EXPECT_EQ(standing("roof_kinds", "all_of = [\"mesh\"]\n"), "short");
  EXPECT_EQ(standing("roof_kinds", "one_of = [\"open\"]\n"), "met");
  EXPECT_EQ(standing("soil", "none_of = [\"sand\"]\n"), "met");
  const Checked c = check_of({.rows = kinds("fence_kinds", "none_of = [\"mesh\"]\n")});
  EXPECT_TRUE(says(c, "there is mesh")) << c.said.out;
  EXPECT_EQ(c.row("quantities.fence_kinds")["found"], nlohmann::json({"mesh"}));
}

TEST(Words, OfTheWrongKindAreRefused) {
  expect_refused({.rows = kinds("fence_kinds", "at_least = 2.0\n")}, "a limit for quantities");
  expect_refused({.rows = area("one_of = [\"mesh\"]\n")}, "words for space.plan_area_m2, which is");
  expect_refused({.rows = kinds("soil", "one_of = [\"mud\"]\n")},
                 "require[0].one_of: found \"mud\", allowed words of sand, loam, clay");
  expect_refused({.rows = kinds("soil", "one_of = []\n")}, "require[0].one_of: found no word");
  expect_refused({.rows = kinds("soil", "one_of = [\"sand\"]\nper = \"animal\"\n")},
                 "require[0].per");
  expect_refused(
      {.rows = kinds("soil", "all_of = [\"sand\"]\n") + kinds("soil", "none_of = [\"sand\"]\n")},
      "require[1].none_of: found \"sand\" of quantities.soil, of which");
}

std::string either(const std::string& least, const std::string& roofed) {
  const auto row = [](const std::string& limits) {
    return "[[either.set.require]]\nwhat = \"space.plan_area_m2\"\n" + kSource + limits;
  };
  return "[[either]]\nname = \"room or a roof\"\n[[either.set]]\nname = \"a larger yard\"\n" +
         row("at_least = " + least + "\n") +
         "[[either.set]]\nname = \"a smaller one with a roof\"\n" + row("at_least = 40.0\n") +
         "[[either.set.require]]\nwhat = \"quantities.roof_kinds\"\n" + kSource + roofed;
}

TEST(Either, IsMetByOneOfItsSetsAsAWhole) {
  const std::string roofed = "none_of = [\"open\"]\n";
  const Checked larger = check_of({.rows = either("70.0", roofed)});
  EXPECT_EQ(larger.said.status, 0) << larger.said.out;
  EXPECT_EQ(larger.row("room or a roof")["standing"], "met");
  EXPECT_TRUE(says(larger, "a larger yard: met")) << larger.said.out;

  // The second set is met but for its roof: not by half.
  const Checked neither = check_of({.rows = either("120.0", roofed)});
  EXPECT_EQ(neither.said.status, 1);
  EXPECT_EQ(neither.row("room or a roof")["standing"], "short");
  EXPECT_TRUE(says(neither, "a larger yard: short (area in plan: 80")) << neither.said.out;
  EXPECT_TRUE(says(neither, "kinds of the roof: open, none of open asked for")) << neither.said.out;

  const Checked roof =
      check_of({.rows = "[roof]\nkind = \"mesh\"\nheight = 3.0\naperture = 0.02\n" +
                        either("120.0", roofed)});
  EXPECT_EQ(roof.said.status, 0) << roof.said.out << roof.said.err;
  const Checked off = check_of({.rows = either("120.0", roofed) +
                                        signed_by("waiver", "room or a roof", "reason = \"x\"\n")});
  EXPECT_EQ(off.row("room or a roof")["standing"], "waived");
}

TEST(Either, ThatIsNoneIsRefusedInOneLine) {
  const std::string one =
      "[[either]]\nname = \"x\"\n[[either.set]]\nname = \"a\"\n[[either.set.require]]\nwhat = "
      "\"space.plan_area_m2\"\nat_least = 1.0\n" +
      kSource;
  expect_refused({.rows = one}, "either[0].set: found one set, allowed two or more");
  expect_refused({.rows = one + "[[either.set]]\nname = \"b\"\n"},
                 "either[0].set[1].require: found no row");
  expect_refused(
      {.rows = one + "[[either.set]]\nname = \"b\"\n[[either.set.either]]\nname = \"c\"\n"},
      "either[0].set[1].either: found an unknown key");
  expect_refused({.rows = area("at_most = 50.0\n") + either("70.0", "none_of = [\"open\"]\n")},
                 "of which yard.site.toml");
}

std::string climate(double coldest) {
  std::string text = "time,temperature\n";
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  char line[64];
  for (int month = 1; month <= 12; ++month)
    for (int day = 1; day <= kDays[month - 1]; ++day)
      for (int hour = 0; hour < 24; ++hour) {
        std::snprintf(line, sizeof line, "2025-%02d-%02d %02d:00,%.1f\n", month, day, hour,
                      month == 1 && day == 9 && hour == 5 ? coldest : 12.0);
        text += line;
      }
  return text;
}

TEST(When, ARowIsAskedOnlyThen) {
  const std::string cold = area("at_least = 90.0\nwhen = { below = -5.0 }\n");
  const auto in = [&](double coldest) {
    return check_of(
        {.rows = cold, .head = "climate = \"c.csv\"\n", .beside = {{"c.csv", climate(coldest)}}});
  };
  EXPECT_EQ(in(-8.0).row("space.plan_area_m2")["standing"], "short");
  const Checked mild = in(-5.0);
  EXPECT_EQ(mild.row("space.plan_area_m2")["standing"], "not_asked");
  EXPECT_EQ(mild.said.status, 0) << mild.said.out;
  EXPECT_TRUE(says(mild, "the coldest hour of the climate file is -5 °C")) << mild.said.out;
  const Checked unknown = check_of({.rows = area("at_least = 9.0\nwhen = { below = -5.0 }\n")});
  EXPECT_EQ(unknown.said.status, 1);
  EXPECT_EQ(unknown.row("space.plan_area_m2")["standing"], "not_checked") << "never met unseen";
  EXPECT_TRUE(says(unknown, "no climate file")) << unknown.said.out;
}

TEST(When, OfTheSunADayOfTheSeasonIsNeeded) {
  const std::string row = "[[require]]\nwhat = \"shade.sun_hours_mean\"\nat_least = 1.0\n" +
                          kSource + "when = { season = [\"11-01\", \"02-28\"] }\n";
  const std::string place = "[place]\nlatitude = 50.0\nlongitude = 10.0\ntime_zone = \"+01:00\"\n";
  const BriefYard yard{.rows = place + row, .only = "shade"};
  const Checked summer = check_of(yard, "--step 60");
  EXPECT_EQ(summer.row("shade.sun_hours_mean")["standing"], "not_checked");
  EXPECT_TRUE(says(summer, "check with --date a day of it")) << summer.said.out;
  const Checked winter = check_of(yard, "--step 60 --date 2026-01-15");
  EXPECT_EQ(winter.row("shade.sun_hours_mean")["standing"], "met") << winter.said.out;
  // Of no day: it holds in every season.
  const Checked room =
      check_of({.rows = area("at_least = 70.0\nwhen = { season = [\"11-01\", \"02-28\"] }\n")});
  EXPECT_EQ(room.row("space.plan_area_m2")["standing"], "met") << room.said.out;
}

TEST(When, OffspringIsTakenAsExpectedUnlessTheSiteSaysNone) {
  const std::string row = area("at_least = 90.0\nwhen = { offspring = true }\n");
  EXPECT_EQ(check_of({.rows = row}).said.status, 1);
  EXPECT_EQ(check_of({.rows = row, .head = "offspring = 3\n"}).said.status, 1);
  const Checked none = check_of({.rows = row, .head = "offspring = 0\n"});
  EXPECT_EQ(none.said.status, 0) << none.said.out;
  EXPECT_EQ(none.row("space.plan_area_m2")["standing"], "not_asked");
  expect_refused({.rows = area("at_least = 9.0\nwhen = { offspring = false }\n")},
                 "require[0].when.offspring: found false");
  expect_refused({.rows = area("at_least = 9.0\nwhen = {}\n")}, "require[0].when");
}

TEST(PerOffspring, AddsForEachYoungExpected) {
  const std::string row = area("at_least = 50.0\nper = \"with offspring\"\nextra = 10.0\n");
  const auto of = [&](const std::string& head) { return check_of({.rows = row, .head = head}); };
  EXPECT_EQ(of("offspring = 3\n").row("space.plan_area_m2")["standing"], "met");
  EXPECT_EQ(of("offspring = 4\n").row("space.plan_area_m2")["standing"], "short");
  EXPECT_EQ(of("offspring = 4\n").row("space.plan_area_m2")["required"],
            "at least 90 (at least 50 for the grown, 10 for each young, 4 expected)");
  const Checked unsaid = of("");
  EXPECT_EQ(unsaid.row("space.plan_area_m2")["standing"], "not_checked");
  EXPECT_EQ(unsaid.said.status, 1);
  expect_refused({.rows = "[[require]]\nwhat = \"leap.margin\"\nat_least = 1.0\nextra = 1.0\n"
                          "per = \"with offspring\"\n" +
                          kSource},
                 "require[0].per: found \"with offspring\"");
}

}  // namespace
}  // namespace hummock::testing
