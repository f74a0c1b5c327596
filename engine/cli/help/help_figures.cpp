#include "engine/cli/help/help_figures.h"

#include <fmt/format.h>

#include "engine/base/input_error.h"
#include "engine/brief/judge_words.h"
#include "engine/check/analyses.h"
#include "engine/check/catalogue.h"
#include "engine/report/chapters/brief_groups.h"

namespace hummock::cli {
namespace {

std::string unit_words(const FigureInfo& f) {
  if (!f.words.empty()) return "words";
  if (f.unit.empty()) return f.decimals == 0 ? "a count" : "a plain number";
  return f.unit == "of 1" ? "a share of 1" : f.unit;
}

std::string better_words(Better better) {
  switch (better) {
    case Better::more:
      return "more is better";
    case Better::less:
      return "less is better";
    case Better::neither:
      break;
  }
  return "neither more nor less is better in itself";
}

std::string list_of(const Analysis& a) {
  std::string out = fmt::format("{}: {}\n", a.name, a.question);
  for (const FigureInfo& f : a.figures()) {
    out += fmt::format("  {:<38} {:<14} {}\n", f.key, unit_words(f), f.title);
  }
  return out;
}

std::string chapter_title(const std::string& key) {
  for (const report::Group& group : report::groups()) {
    if (group.id == report::group_of(key)) return group.title;
  }
  return "";
}

std::string page_of(const FigureInfo& f) {
  const Analysis& a = *find_analysis(analysis_of(f.key));
  std::string after;
  for (const std::string& name : a.after) after += (after.empty() ? "" : ", ") + name;
  const std::string what = f.words.empty()
                               ? fmt::format("Unit: {}; shown with {} decimals; {}.", unit_words(f),
                                             f.decimals, better_words(f.better))
                               : "Words, one or more of: " + listed(f.words) + ".";
  return fmt::format(
      "{}\n  {}\n  {}\n  {}\n  Analysis: {} ({}){}\n"
      "  Explained: the report's chapter “{}”; model, limits and sources in {}\n",
      f.key, f.title, f.meaning, what, a.name, a.question,
      after.empty() ? "" : ", which reads " + after, chapter_title(f.key), a.explained);
}

}  // namespace

std::string figures_page(const std::string& key) {
  if (key.empty()) {
    std::string out = "Figures a requirement may ask for (hummock help figures KEY for one):\n\n";
    for (const Analysis& a : analyses()) out += list_of(a) + "\n";
    return out;
  }
  if (const Analysis* a = find_analysis(key)) return list_of(*a);
  if (const FigureInfo* f = figure_info(key)) return page_of(*f);
  const auto near = nearest_figure(key);
  throw InputError({"", 0, "help figures"}, "\"" + key + "\"",
                   near ? "\"" + *near + "\" (did you mean that?)"
                        : "an analysis or a figure that `hummock help figures` lists");
}

}  // namespace hummock::cli
