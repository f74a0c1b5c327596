// Small parts by themselves: escaping, numbers, CSV, checksums, the brief's order.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "engine/report/chapters/brief_groups.h"
#include "engine/report/chapters/changes.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/checksums.h"
#include "engine/report/setters/html_page.h"
#include "engine/report/setters/tables_csv.h"

namespace hummock::report {
namespace {

TEST(ReportWords, what_html_reads_as_marks_is_escaped) {
  EXPECT_EQ(escaped("<a href=\"x\">'&'</a>"),
            "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
  EXPECT_EQ(escaped("סלע ✓ é"), "סלע ✓ é");
}

TEST(ReportWords, what_html_forbids_becomes_the_replacement_character) {
  EXPECT_EQ(escaped(std::string("a\0b", 3)),
            "a\xEF\xBF\xBD"
            "b");
  EXPECT_EQ(escaped("\x1B[31m"), "\xEF\xBF\xBD[31m");
  EXPECT_EQ(escaped("\xFF\xC3"), "\xEF\xBF\xBD\xEF\xBF\xBD");  // no UTF-8
}

// FIPS 180-4, the examples published beside it (NIST CSRC, SHA256.pdf).
TEST(ReportWords, checksums_are_those_of_the_standards_examples) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST(ReportWords, numbers_keep_three_figures_and_no_minus_zero) {
  EXPECT_EQ(number(0.4213), "0.421");
  EXPECT_EQ(number(4.2131), "4.21");
  EXPECT_EQ(number(42.131), "42.1");
  EXPECT_EQ(number(1234.5), "1234");
  EXPECT_EQ(number(-1.5), "−1.50");
  EXPECT_EQ(number(-1e-9), "0.000");
  EXPECT_EQ(number(0.0), "0");
  EXPECT_EQ(number(std::nullopt), "–");
}

TEST(ReportWords, keys_are_put_in_words_with_their_unit) {
  EXPECT_EQ(key_words("space.plan_area_m2").words, "area in plan");
  EXPECT_EQ(key_words("space.plan_area_m2").unit, "m²");
  EXPECT_EQ(key_words("shade.hottest_shade_m2_per_animal").unit, "m² per animal");
  EXPECT_EQ(key_words("entry.gates_short").unit, "");
}

TEST(ReportWords, a_row_that_is_met_only_if_says_so) {
  EXPECT_STREQ(to_string(mark_of(Standing::met_if)), "met, if");
  EXPECT_STREQ(to_string(mark_of(Standing::met)), "met");
  EXPECT_STRNE(sign(mark_of(Standing::met_if)), sign(mark_of(Standing::met)));
}

TEST(ReportWords, csv_keeps_numbers_in_full_and_takes_no_name_for_a_formula) {
  Table table;
  table.columns = {{"Name", 1.0, false}, {"Value", 1.0, true}};
  table.rows = {{Cell{"a \"b\", c", {}, {}}, cell(1.0 / 3.0)},
                {Cell{"=1+1", {}, {}}, cell(std::nullopt)}};
  EXPECT_EQ(to_csv(table), "Name,Value\r\n\"a \"\"b\"\", c\",0.3333333333333333\r\n'=1+1,\r\n");
}

TEST(ReportWords, every_key_the_brief_may_ask_has_a_group) {
  EXPECT_EQ(groups().size(), 10u);
  EXPECT_EQ(group_of("space.guest_view_share"), "guests");
  EXPECT_EQ(group_of("space.plan_area_m2"), "room");
  EXPECT_EQ(group_of("leap.margin"), "boundary");
  EXPECT_EQ(group_of("dig.least_length_m"), "below-ground");
  EXPECT_EQ(group_of("sight.unseen_area_m2"), "hiding");
  EXPECT_EQ(group_of("houses.floor_m2"), "indoors");
}

TEST(ReportWords, things_are_compared_by_name_not_by_their_place_in_the_list) {
  const auto a = nlohmann::json::parse(
      R"({"leap":{"objects":[{"name":"log","top_m":1.0},{"name":"box","top_m":2.0}]}})");
  const auto b = nlohmann::json::parse(
      R"({"leap":{"objects":[{"name":"box","top_m":2.5},{"name":"log","top_m":1.0}]}})");
  const auto changes = result_changes(a, b);
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_EQ(changes[0].what, "leap.objects “box”.top_m");
  EXPECT_DOUBLE_EQ(*changes[0].number_b, 2.5);
}

TEST(ReportWords, a_result_is_said_by_the_catalogue_and_a_thing_by_its_own_name) {
  EXPECT_EQ(in_words("space.plan_area_m2"), key_words("space.plan_area_m2").words + ", m²");
  EXPECT_EQ(in_words("leap.margin"), key_words("leap.margin").words);
  EXPECT_EQ(in_words("leap.objects “box_2.5”.top_m"), "leap, objects “box_2.5”, top m");
}

TEST(ReportWords, a_curve_is_told_by_where_it_differs_most) {
  nlohmann::json a;
  a["shade"]["shaded_share"] = std::vector<double>(20, 0.5);
  nlohmann::json b = a;
  b["shade"]["shaded_share"][7] = 0.9;
  b["shade"]["shaded_share"][3] = 0.6;
  const auto changes = result_changes(a, b);
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_EQ(changes[0].what, "shade.shaded_share[7], where 20 numbers differ most");
}

}  // namespace
}  // namespace hummock::report
