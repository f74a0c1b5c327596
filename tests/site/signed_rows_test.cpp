// Rows that people sign, several records of a figure, the young: read and refused.
#include <gtest/gtest.h>

#include <functional>
#include <optional>

#include "engine/site/read_site.h"
#include "tests/site/good_site.h"

namespace hummock {
namespace {

Site site_with(const std::string& more) {
  return read_site_text(good_site_text() + more, good_site_file());
}

Species species_with(const std::string& from, const std::string& to) {
  const ScratchFolder folder;
  folder.write("one.species.toml", replaced(good_species_text(), from, to));
  return read_species(folder.path("one.species.toml"));
}

std::string refusal_of(const std::function<void()>& read) {
  try {
    read();
  } catch (const InputError& error) {
    return error.where().key + ": " + error.found() + " / " + error.allowed();
  }
  return "was let through";
}

const std::string kLeap =
    "leap_height   = { value = 0.70, source = \"invented for the test\", measures = \"ledge\", "
    "evidence = \"assumed\" }";
const std::string kTail = "source = \"invented for the test\", measures = \"ledge\", evidence = ";

TEST(SignedRows, AConfirmationAndAWaiverAreKept) {
  const Site site = site_with(
      "\n[[confirm]]\nwhat = \"hangs\"\nby = \"head keeper\"\non = 2026-05-01\n"
      "[[waiver]]\nwhat = \"space.plan_area_m2\"\nreason = \"until the yard is joined\"\n"
      "by = \"curator\"\non = 2026-06-02\n");
  ASSERT_EQ(site.confirmations.size(), 1U);
  EXPECT_EQ(site.confirmations[0].on, "2026-05-01");
  EXPECT_EQ(site.confirmations[0].by, "head keeper");
  ASSERT_EQ(site.waivers.size(), 1U);
  EXPECT_EQ(site.waivers[0].reason, "until the yard is joined");
}

TEST(SignedRows, AConfirmationWithoutNameOrDateIsRefused) {
  EXPECT_EQ(refusal_of([] { site_with("\n[[confirm]]\nwhat = \"hangs\"\non = 2026-05-01\n"); }),
            "confirm[0].by: nothing / a text in quotes");
  EXPECT_EQ(refusal_of([] { site_with("\n[[confirm]]\nwhat = \"hangs\"\nby = \"keeper\"\n"); }),
            "confirm[0].on: nothing / a date such as 2026-05-01, without quotes");
  EXPECT_EQ(refusal_of([] {
              site_with("\n[[confirm]]\nwhat = \"hangs\"\nby = \"a\"\non = \"in May\"\n");
            }),
            "confirm[0].on: \"in May\" / a date such as 2026-05-01, without quotes");
  EXPECT_EQ(refusal_of([] {
              site_with("\n[[waiver]]\nwhat = \"leap.margin\"\nby = \"a\"\non = 2026-05-01\n");
            }),
            "waiver[0].reason: nothing / a text in quotes");
}

TEST(SignedRows, AConfirmationOfWhatNoAnswerRestsOnIsRefused) {
  const std::string refusal = refusal_of(
      [] { site_with("\n[[confirm]]\nwhat = \"hang\"\nby = \"keeper\"\non = 2026-05-01\n"); });
  EXPECT_EQ(refusal.rfind("confirm[0].what: \"hang\" / \"hangs\"", 0), 0U) << refusal;
}

TEST(SignedRows, BandsOfAFenceAreReadAndRefusedWhereTheyMeet) {
  const auto with = [](const std::string& rows) {
    return read_site_text(
        replaced(good_site_text(), "joint_gap = 0.01", "joint_gap = 0.01\n" + rows),
        good_site_file());
  };
  const Site site = with(
      "band = [{ to = 0.6, kind = \"solid\", surface = \"wood\" }, { from = 1.0, to = 1.2, kind = "
      "\"mesh\", aperture = 0.02 }]");
  const Section* section = nullptr;
  for (const Section& s : site.boundary.sections) section = s.bands.empty() ? section : &s;
  ASSERT_NE(section, nullptr);
  EXPECT_EQ(section->bands[0].surface, "wood");
  EXPECT_EQ(section->bands[1].aperture, 0.02);
  const auto refusal = [&](const std::string& rows) { return refusal_of([&] { with(rows); }); };
  EXPECT_NE(refusal("band = [{ to = 0.6, kind = \"solid\" }, { from = 0.5, to = 0.8, kind = "
                    "\"solid\" }]")
                .find("bands 0 to 0.6 and 0.5 to 0.8 / bands apart from each other"),
            std::string::npos);
  EXPECT_NE(refusal("band = [{ to = 99, kind = \"solid\" }]").find("band[0].to: 99"),
            std::string::npos);
  EXPECT_NE(refusal("band = [{ to = 29, kind = \"solid\" }]").find("a band up to 29"),
            std::string::npos);
  EXPECT_NE(
      refusal("band = [{ from = 1.0, to = 0.5, kind = \"solid\" }]").find("above its `from`, 1"),
      std::string::npos);
  EXPECT_NE(refusal("band = [{ to = 0.5, kind = \"mesh\" }]").find("aperture: nothing"),
            std::string::npos);
  EXPECT_NE(refusal("cap = 29").find("cap: 29 / up to the section's height"), std::string::npos);
}

TEST(SignedRows, ARequirementMayBeAWish) {
  EXPECT_EQ(read_site(good_site_file()).requirements.at(0).weight, Weight::must);
  const Site site = read_site_text(
      replaced(good_site_text(), "per = \"animal\"", "per = \"animal\"\nweight = \"should\""),
      good_site_file());
  EXPECT_EQ(site.requirements.at(0).weight, Weight::should);
}

TEST(SignedRows, AcceptedInputIsAListOfKnownIds) {
  const auto with = [](const char* ids) {
    const std::string rows = std::string("animals = 3\naccept = ") + ids;
    return read_site_text(replaced(good_site_text(), "animals = 3", rows), good_site_file());
  };
  EXPECT_EQ(with("[\"heights\", \"climate-year\"]").accept,
            (std::vector<std::string>{"heights", "climate-year"}));
  EXPECT_THROW(with("[\"height\"]"), InputError);
}

TEST(SignedRows, WhatIsNotedAndNotCreditedIsSaid) {
  const Site site = read_site_text(replaced(good_site_text(), "joint_gap = 0.01",
                                            "joint_gap = 0.01\nhot_wire = true\ncap = 0.4"),
                                   good_site_file());
  ASSERT_EQ(site.warnings.size(), 1U);  // the cap is built, only the wire is not credited
  EXPECT_NE(site.warnings[0].find("never credited"), std::string::npos);
}

TEST(Figures, OfSeveralRecordsTheOneMarkedIsUsed) {
  const Species s = species_with(kLeap, "leap_height = [{ value = 0.70, " + kTail +
                                            "\"assumed\" }, { value = 0.9, " + kTail +
                                            "\"record\", used = true, careful = 1.1 }]");
  EXPECT_EQ(s.leap_height.value, 0.9);
  EXPECT_EQ(s.leap_height.evidence, "record");
  EXPECT_EQ(s.leap_height.careful, 1.1);
  ASSERT_EQ(s.leap_height.records.size(), 2U);
  EXPECT_EQ(s.leap_height.records[0].value, 0.70);
}

TEST(Figures, TwoRecordsWithoutOneMarkedAsUsedAreRefused) {
  const std::string two = "leap_height = [{ value = 0.70, " + kTail +
                          "\"assumed\" }, { value = 0.9, " + kTail + "\"record\" }]";
  EXPECT_EQ(refusal_of([&] { species_with(kLeap, two); }),
            "leap_height: a list of 2 records, none marked used = true / exactly one record marked "
            "used = true");
  const std::string both = "leap_height = [{ value = 0.70, used = true, " + kTail +
                           "\"assumed\" }, { value = 0.9, used = true, " + kTail + "\"record\" }]";
  EXPECT_EQ(refusal_of([&] { species_with(kLeap, both); }),
            "leap_height: a list of 2 records, 2 marked used = true / exactly one record marked "
            "used = true");
}

TEST(Figures, ACrouchTallerThanTheBodyAndAReachBelowZeroAreRefused) {
  const std::string eye = "eye_height    =";
  EXPECT_EQ(
      refusal_of([&] { species_with(eye, "crouch = { value = 0.3, source = \"x\" }\n" + eye); }),
      "crouch: 0.3 / a crouch no taller than the body (0.2 m)");
  EXPECT_EQ(
      refusal_of([&] { species_with(eye, "reach = { value = -0.1, source = \"x\" }\n" + eye); }),
      "reach.value: -0.1 / a number from 0 to 10 (m)");
}

TEST(Figures, TheYoungHaveFiguresOfTheirOwn) {
  const Species s =
      species_with("eye_height    =",
                   "young = { least_opening = { value = 0.02, source = \"x\" } }\neye_height    =");
  ASSERT_TRUE(s.young.has_value());
  EXPECT_EQ(s.young->least_opening->value, 0.02);
  EXPECT_FALSE(s.young->body.has_value());
}

}  // namespace
}  // namespace hummock
