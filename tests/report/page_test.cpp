// The written page: valid, self-contained, the same twice, its numbers those of the JSON.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "engine/check/check_json.h"
#include "engine/report/chapters/numbers.h"
#include "engine/report/setters/html_page.h"
#include "tests/report/written_yard.h"
#include "tests/support/paths.h"

namespace hummock::report {
namespace {

using hummock::testing::run_program;
using hummock::testing::ScratchFolder;
using hummock::testing::text_of;

// What a shell command prints.
std::string said_by(const std::string& command) {
  std::string out;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  char buffer[4096];
  while (pipe != nullptr && fgets(buffer, sizeof buffer, pipe) != nullptr) out += buffer;
  if (pipe != nullptr) pclose(pipe);
  return out;
}

std::string page_of(const WrittenYard& yard) {
  return text_of(yard.folder / "report.html");
}

std::string without_scripts(const std::string& page) {
  std::string out;
  std::size_t at = 0;
  while (true) {
    const std::size_t from = page.find("<script", at);
    out += page.substr(at, from == std::string::npos ? std::string::npos : from - at);
    if (from == std::string::npos) return out;
    at = page.find("</script>", from) + 9;
  }
}

// Every value of an attribute or style that a browser would fetch. Data addresses are cut short.
std::vector<std::string> fetched(const std::string& page) {
  std::vector<std::string> list;
  for (const std::string start : {" src=\"", " href=\"", " srcset=\"", " action=\"", " data=\"",
                                  " poster=\"", " background=\"", "url(", "@import"}) {
    for (std::size_t at = page.find(start); at != std::string::npos;
         at = page.find(start, at + 1)) {
      list.push_back(page.substr(at + start.size(), 24));
    }
  }
  return list;
}

TEST(ReportPage, tidy_has_nothing_to_say) {
  for (const WrittenYard* yard : {&whole_yard(), &half_yard()}) {
    EXPECT_EQ(said_by("tidy -e -q '" + (yard->folder / "report.html").string() + "'"), "");
  }
}

TEST(ReportPage, nothing_in_it_points_outside) {
  const std::string page = without_scripts(page_of(whole_yard()));
  const auto list = fetched(page);
  EXPECT_GT(list.size(), 20u);
  for (const std::string& address : list) {
    EXPECT_TRUE(address.rfind("data:image/", 0) == 0 || address[0] == '#') << address;
  }
  EXPECT_NE(page.find("default-src 'none'"), std::string::npos);
}

TEST(ReportPage, links_within_it_lead_somewhere) {
  const std::string page = without_scripts(page_of(whole_yard()));
  const std::regex link("href=\"#([^\"]+)\"");
  int links = 0;
  for (std::sregex_iterator it(page.begin(), page.end(), link), end; it != end; ++it, ++links) {
    EXPECT_NE(page.find("id=\"" + (*it)[1].str() + "\""), std::string::npos) << (*it)[1];
  }
  EXPECT_GE(links, 14);
}

TEST(ReportPage, names_are_shown_and_not_read_as_marks) {
  const std::string page = page_of(whole_yard());
  EXPECT_EQ(page.find("<img src=x"), std::string::npos);
  EXPECT_EQ(page.find("<script>document.title"), std::string::npos);
  EXPECT_EQ(page.find("<b>&amp;</b>"), std::string::npos);
  EXPECT_NE(page.find(escaped(kBadName)), std::string::npos);
  EXPECT_NE(page.find("dir=\"auto\" data-label=\"Thing\">" + kHebrew), std::string::npos);
}

TEST(ReportPage, the_same_input_gives_the_same_bytes) {
  const WrittenYard& yard = half_yard();
  const ScratchFolder again;
  Settings settings;
  settings.season_days = false;
  const Model model = build_model(yard.model.site);
  write(again.path(), model, run_check(model, yard.options), yard.options, settings);
  for (const auto& file : yard.written.files) {
    EXPECT_TRUE(text_of(yard.folder / file.string()) == text_of(again / file.string())) << file;
  }
}

TEST(ReportPage, says_nothing_of_the_machine_it_was_made_on) {
  const WrittenYard& yard = whole_yard();
  const std::string folder = yard.folder.path().string();
  for (const auto& file : yard.written.files) {
    const std::string bytes = text_of(yard.folder / file.string());
    EXPECT_EQ(bytes.find(folder), std::string::npos) << file;
    EXPECT_EQ(bytes.find(tests::source_dir()), std::string::npos) << file;
  }
}

// The value in the first row of a CSV that begins with `row`.
double in_csv(const std::string& csv, const std::string& row) {
  const std::size_t at = csv.find("\r\n" + row + ",");
  EXPECT_NE(at, std::string::npos) << row;
  return at == std::string::npos ? 0.0 : std::stod(csv.substr(at + 3 + row.size()));
}

TEST(ReportPage, numbers_are_those_of_the_json) {
  const WrittenYard& yard = whole_yard();
  const auto json = to_json(yard.results, yard.model);
  EXPECT_EQ(nlohmann::json::parse(text_of(yard.folder / "check.json")), json);
  const std::string room = text_of(yard.folder / "tables/room.csv");
  EXPECT_EQ(in_csv(room, "plan area"), json["space"]["plan_area_m2"].get<double>());
  EXPECT_EQ(in_csv(room, "usable area"), json["space"]["usable_area_m2"].get<double>());
  const std::string relief = text_of(yard.folder / "tables/relief.csv");
  EXPECT_EQ(in_csv(relief, "Sa"), json["relief"]["sa_m"].get<double>());
  const std::string page = without_scripts(page_of(yard));
  for (const auto& row : json["brief"]) {
    if (!row["value"].is_number()) continue;
    EXPECT_NE(page.find(">" + number(row["value"].get<double>())), std::string::npos)
        << row["what"];
  }
  EXPECT_NE(page.find("needs a leap of " + number(json["leap"]["escape_demand_m"].get<double>())),
            std::string::npos);
  EXPECT_NE(
      page.find(number(json["shade"]["sun_hours"]["mean"].get<double>()) + " h of direct sun"),
      std::string::npos);
}

// Once the cap plan drew lines up to any height: 13 MB of them on one of the examples.
TEST(ReportPage, no_figure_draws_lines_beyond_its_colours) {
  const WrittenYard& yard = half_yard();
  EXPECT_LT(std::filesystem::file_size(yard.folder / "figures/height-cap.svg"), 1'500'000u);
}

TEST(ReportPage, half_the_analyses_are_enough_and_the_rest_is_named) {
  const WrittenYard& yard = half_yard();
  const std::string page = without_scripts(page_of(yard));
  EXPECT_NE(page.find("Not checked: sun and shade (not asked for)"), std::string::npos);
  EXPECT_NE(page.find("Not checked: digging (not asked for)"), std::string::npos);
  EXPECT_NE(page.find("id=\"fig-height-cap\""), std::string::npos);
  EXPECT_EQ(page.find("id=\"fig-shade-curve\""), std::string::npos);
  for (const auto& file : yard.written.files) {
    EXPECT_TRUE(std::filesystem::exists(yard.folder.path() / file)) << file;
  }
}

TEST(ReportPage, an_allowance_the_model_was_built_with_is_written_down) {
  const Model model = build_model(half_yard().model.site, {.snow = 0.2, .growth = 0.2});
  CheckOptions options;
  options.only = {"space"};
  const ScratchFolder folder;
  write(folder.path(), model, run_check(model, options), options);
  const std::string page = without_scripts(text_of(folder / "report.html"));
  EXPECT_NE(page.find("built with 0.2 m of snow"), std::string::npos);
  EXPECT_NE(page.find("built with 20 % of growth"), std::string::npos);
}

TEST(ReportPage, a_jump_figure_is_never_without_its_evidence) {
  const std::string page = without_scripts(page_of(half_yard()));
  const std::string figure = escaped(figure_words(half_yard().model.site.species.leap_height));
  EXPECT_NE(page.find("by "), std::string::npos);
  EXPECT_NE(page.find("for the figure " + figure), std::string::npos);
}

TEST(ReportPage, a_comparison_says_what_changed) {
  const WrittenYard& a = half_yard();
  Site taller = a.model.site;
  taller.boundary.sections[0].height = 2.6;
  const Model model = build_model(taller);
  const CheckResults results = run_check(model, a.options);
  const std::string words = comparison_text(a.model, a.results, model, results);
  EXPECT_NE(words.find("\n  " + key_words("leap.margin").words), std::string::npos) << words;
  EXPECT_EQ(words.find("leap.margin"), std::string::npos) << "a key is for files";
  const ScratchFolder folder;
  write_comparison(folder.path(), a.model, a.results, model, results);
  EXPECT_EQ(said_by("tidy -e -q '" + (folder / "report.html").string() + "'"), "");
  EXPECT_NE(text_of(folder / "tables/results-compared.csv").find("leap.margin"), std::string::npos);
  const std::string same = comparison_text(a.model, a.results, a.model, a.results);
  EXPECT_NE(same.find("Every result that changed\n"), std::string::npos);
  EXPECT_TRUE(same.ends_with("Every result that changed\n")) << same;
}

}  // namespace
}  // namespace hummock::report
