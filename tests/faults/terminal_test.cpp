// What reaches a terminal, a spreadsheet or a drawing from a user's words.
#include <gtest/gtest.h>

#include "engine/base/csv_field.h"
#include "engine/base/input_error.h"
#include "engine/base/printable.h"
#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

TEST(Printable, ControlsOverridesAndBrokenBytesAreEscapedAndScriptsKept) {
  EXPECT_EQ(printable("a\x1B[2Jb"), "a\\x1B[2Jb");
  EXPECT_EQ(printable(std::string("n\0l", 3)), "n\\x00l");
  EXPECT_EQ(printable("\xE2\x80\xAE"
                      "dne"),
            "\\u{202E}dne");  // right-to-left override
  EXPECT_EQ(printable("\xC2\x9B"
                      "31m"),
            "\\u{009B}31m");  // C1: another CSI
  EXPECT_EQ(printable("\xFF\xC3"), "\\xFF\\xC3");
  EXPECT_EQ(printable("\xEF\xBF\xBF"), "\\u{FFFF}");
  EXPECT_EQ(printable("\xC0\xAF"), "\\xC0\\xAF");  // an overlong slash
  EXPECT_EQ(printable("צפון 北 🦊 é"), "צפון 北 🦊 é");
}

TEST(Printable, ALongLineLosesItsMiddle) {
  const std::string line = printable_line(std::string(std::stoul("250000"), 'x') + "end", 300);
  EXPECT_EQ(characters_in(line), 300U);
  EXPECT_NE(line.find("…"), std::string::npos);
  EXPECT_TRUE(line.ends_with("end"));
}

TEST(Printable, AnErrorIsAtMostThreeHundredCharactersWhateverIsInIt) {
  const std::string long_word(std::stoul("250000"), 'w');
  const std::string line =
      one_line({long_word + ".toml", 12345678, long_word}, long_word + "\n", long_word);
  EXPECT_LE(characters_in(line), 300U);
  EXPECT_NE(line.find("found"), std::string::npos);
  EXPECT_NE(line.find("allowed"), std::string::npos);
  EXPECT_EQ(line.find('\n'), std::string::npos);
}

TEST(Drawable, WhatNoXmlMayHoldIsReplaced) {
  EXPECT_EQ(drawable("a\xEF\xBF\xBF"
                     "b\x01\xFF\n"),
            "a\xEF\xBF\xBD"
            "b\xEF\xBF\xBD\xEF\xBF\xBD\n");
  EXPECT_EQ(drawable("צפון 北 🦊"), "צפון 北 🦊");
}

TEST(CsvField, AFormulaIsATextAndQuotesAreDoubled) {
  EXPECT_EQ(csv_field("=1+1"), "'=1+1");
  EXPECT_EQ(csv_field("@x, \"y\""), "\"'@x, \"\"y\"\"\"");
  EXPECT_EQ(csv_field("-2"), "'-2");
  EXPECT_EQ(csv_field("den 3"), "den 3");
}

struct Spoilt {
  const char* why;
  std::string site;
  std::vector<std::string> words;
};

class Terminal : public ::testing::TestWithParam<Spoilt> {};

// Nothing but printable characters and line breaks leaves the program, in lines of 300 at most.
TEST_P(Terminal, GetsOnlyPlainShortLines) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", GetParam().site);
  const Ended ended = run_in({}, GetParam().words, folder.path());
  EXPECT_GE(ended.status, 0);
  EXPECT_LE(ended.status, 2) << ended.err;
  for (const std::string& text : {ended.out, ended.err}) {
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      const std::string line = text.substr(at, end - at);
      EXPECT_EQ(line, printable(line));
      EXPECT_LE(characters_in(line), 300U);
      at = end + 1;
    }
  }
  EXPECT_TRUE(ended.status != 2 || is_one_plain_line(ended.err)) << ended.err;
}

const std::vector<std::string> kCheck{"check", "s.site.toml", "--only", "relief,space"};
const std::string kLong(std::stoul("250000"), 'A');

INSTANTIATE_TEST_SUITE_P(
    Words, Terminal,
    ::testing::Values(
        Spoilt{"a name that clears the screen", small_yard("", "north \\u001b[2J yard"), kCheck},
        Spoilt{"a name that turns round", small_yard("", "north \\u202edray"), kCheck},
        Spoilt{"a name of another line", small_yard("", "north\\nALL MET: yard"), kCheck},
        Spoilt{"a name with the other CSI", small_yard("", "north \\u009b31m yard"), kCheck},
        Spoilt{"a species of 250,000 characters",
               "format = 1\nname = \"x\"\nanimals = 1\nspecies = \"" + kLong + "\"\n", kCheck},
        Spoilt{"a key of 250,000 characters", kLong + " = 1\n", kCheck},
        Spoilt{"a file of NULs", std::string(5000, '\0'), kCheck},
        Spoilt{"a file of no text", "\xFF\xFE\x1B[31m = 1", kCheck},
        Spoilt{"a climate header of 250,000 characters", small_yard(), kCheck},
        Spoilt{"a command that is none", small_yard(), {"ch\x1B[31meck" + kLong.substr(0, 2000)}},
        Spoilt{"an option that is none", small_yard(), {"check", "s.site.toml", "--\x1B]0;x\x07"}},
        Spoilt{"a file that is not there", small_yard(), {"check", "\x1B[5mno.site.toml"}},
        Spoilt{"a layer that is none",
               small_yard(),
               {"map", "s.site.toml", "gr\xE2\x80\xAEound", "-o", "x.tif"}}));

TEST(TerminalWords, AClimateHeaderOfAnyLengthIsShortened) {
  const ScratchFolder folder;
  write_text(folder / "c.csv", "ti\x1Bme," + kLong + "\n1,2\n");
  write_text(
      folder / "s.site.toml",
      "climate = \"c.csv\"\n" +
          small_yard("[[house]]\nname = \"h\"\noutline = [[8.2, 1], [8.8, 1], [8.8, 2], [8.2, 2]]\n"
                     "height = 2.0\n"));
  const Ended ended = run_in({}, {"check", "s.site.toml", "--only", "houses"}, folder.path());
  EXPECT_EQ(ended.status, 2) << ended.err;
  EXPECT_NE(ended.err.find("c.csv"), std::string::npos) << ended.err.substr(0, 500);
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err.substr(0, 500);
}

// A noncharacter stopped the drawing library half-way through the report.
TEST(Report, IsMadeForAnyNameAFileMayHold) {
  const ScratchFolder folder;
  write_text(folder / "s.site.toml", small_yard("", "north \\uFFFF \\uFDD0 \\u202e yard"));
  const Ended ended = run_in(
      {}, {"report", "s.site.toml", "--one-day", "--only", "relief", "-o", "r"}, folder.path());
  EXPECT_EQ(ended.status, 0) << ended.err;
  EXPECT_TRUE(std::filesystem::exists(folder / "r/report.pdf"));
  EXPECT_TRUE(std::filesystem::exists(folder / "r/manifest.json"));
}

TEST(ShadeTables, HoldNoFormula) {
  const ScratchFolder folder;
  std::string site = small_yard();
  site.replace(site.find("\"stone\""), 7, "\"=1+1\"");
  write_text(folder / "s.site.toml", site);
  ASSERT_EQ(run_in({}, {"shade", "s.site.toml", "--step", "60", "--date", "2026-06-21", "-o", "d"},
                   folder.path())
                .status,
            0);
  const std::string table = text_of(folder / "d/objects-2026-06-21.csv");
  EXPECT_NE(table.find("\n'=1+1,"), std::string::npos) << table;
}

}  // namespace
}  // namespace hummock::testing
