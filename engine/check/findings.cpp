#include "engine/check/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/brief/signed.h"
#include "engine/brief/told.h"
#include "engine/check/catalogue.h"
#include "engine/check/idle_confirmations.h"

namespace hummock {

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> lines{
      "Hummock is a calculation aid. It defers to the species' keepers and vet, to local codes and "
      "to licensed engineers.",
      "A figure that is met is no warranty: animals do what the model does not know. Confirm every "
      "species figure with those who keep the animal.",
      "The animal is a point in flight, sheets have no thickness, and nothing here checks "
      "strength, "
      "footing, wear or upkeep."};
  return lines;
}

namespace {

// Left out on purpose (--only): nothing to tell.
bool not_asked(const BriefRow& row) {
  return row.not_run == NotRun::not_asked;
}

Finding about(const BriefRow& row, Severity severity, const std::string& text) {
  return {severity, "brief", row.what, text, row.note, std::nullopt};
}

std::string if_words(const BriefRow& row) {
  std::string text = title_of(row, figure_info) + " is met, if ";
  for (std::size_t k = 0; k < row.ifs.size(); ++k) {
    text += (k == 0 ? "" : "; and if ") + row.ifs[k].words;
    if (row.ifs[k].confirmed())
      text += " (confirmed by " + row.ifs[k].confirmed_by + ", " + row.ifs[k].confirmed_on + ")";
  }
  return text;
}

void add_either(const BriefRow& row, const CheckResults& results, FindingList& list) {
  const bool is_short = row.standing == Standing::short_of;
  const bool undecided = row.standing == Standing::not_checked || row.standing == Standing::open;
  if (!is_short && !undecided) return;
  list.push_back(about(row, is_short && row.must ? Severity::short_of : Severity::look,
                       row.words + ": " + sets_in_words(row, results.brief, figure_info)));
}

void add_brief(const CheckResults& results, FindingList& list) {
  for (const BriefRow& row : results.brief) {
    if (not_asked(row) || row.in_set()) continue;
    if (row.kind == RowKind::either && row.standing != Standing::met_if) {
      add_either(row, results, list);
    } else if (row.standing == Standing::open) {
      list.push_back(about(row, Severity::look, "open: " + row.words));
      list.back().to_do = "answer it with a [[confirm]] of \"" + row.key + "\"";
    } else if (row.standing == Standing::not_checked) {
      list.push_back(
          about(row, Severity::look,
                title_of(row, figure_info) + " is asked for and could not be checked: " + row.why));
      list.back().to_do.clear();
    } else if (row.standing == Standing::short_of) {
      list.push_back(about(row, row.must ? Severity::short_of : Severity::look,
                           short_in_words(row, figure_info)));
    } else if (row.standing == Standing::met_if) {
      list.push_back(about(row, Severity::look, if_words(row)));
      list.back().to_do =
          "let a keeper confirm it, or change the design so that it does not matter";
    }
  }
}

}  // namespace

FindingList findings(const Model& model, const CheckResults& results) {
  FindingList list;
  for (const Analysis& a : analyses()) {
    if (a.there(results)) a.add_findings(results, model, list);
  }
  add_brief(results, list);
  std::vector<std::string> idle = idle_confirmations(model.site, results);
  for (std::string& words : idle_waivers(model.site, results.brief))
    idle.push_back(std::move(words));
  for (const std::string& words : idle) {
    list.push_back({Severity::look, "brief", "", words, "leave it out", std::nullopt});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Finding& a, const Finding& b) { return a.weight < b.weight; });
  return list;
}

namespace {

struct Count {
  int asked = 0, met = 0, met_if = 0, short_of = 0, not_checked = 0, waived = 0, not_asked = 0;
  int open = 0, not_here = 0;
};

Count count(const std::vector<BriefRow>& rows) {
  Count c;
  for (const BriefRow& row : rows) {
    if (row.in_set()) continue;
    ++(row.standing == Standing::not_asked ? c.not_here : c.asked);
    c.open += row.standing == Standing::open ? 1 : 0;
    c.met += row.standing == Standing::met ? 1 : 0;
    c.met_if += row.standing == Standing::met_if ? 1 : 0;
    c.short_of += row.standing == Standing::short_of ? 1 : 0;
    c.waived += row.standing == Standing::waived ? 1 : 0;
    c.not_asked += not_asked(row) ? 1 : 0;
    c.not_checked += row.standing == Standing::not_checked && !not_asked(row) ? 1 : 0;
  }
  return c;
}

int ways_out(const FindingList& list) {
  return static_cast<int>(std::count_if(
      list.begin(), list.end(), [](const Finding& f) { return f.weight == Severity::way_out; }));
}

// "it meets 7 of its 9 requirements, 1 more only if what is listed holds; is short of 1"
std::string brief_sentence(const Count& c) {
  if (c.asked + c.not_here == 0) return "No requirement was given, so nothing is judged";
  std::string words =
      c.short_of > 0 ? fmt::format(
                           "The design is short of {} of its {} requirements and "
                           "meets {}",
                           c.short_of, c.asked, c.met)
                     : fmt::format("The design meets {} of its {} requirements", c.met, c.asked);
  if (c.met_if > 0) words += fmt::format("; {} only if what is listed with it holds", c.met_if);
  if (c.waived > 0) words += fmt::format("; {} short and signed off", c.waived);
  if (c.open > 0) words += fmt::format("; {} open, for a person to answer", c.open);
  if (c.not_checked > 0) words += fmt::format("; {} could not be checked", c.not_checked);
  if (c.not_here > 0) words += fmt::format("; {} more not asked on this site", c.not_here);
  if (c.not_asked > 0) words += fmt::format("; {} not looked at, as asked", c.not_asked);
  return words;
}

}  // namespace

std::string verdict_sentence(const Model& model, const CheckResults& results) {
  const int ways = ways_out(findings(model, results));
  std::string brief = brief_sentence(count(results.brief)) + ".";
  if (ways == 0) return brief;
  return fmt::format("An animal can get out: {} found. ",
                     ways == 1 ? "one way was" : fmt::format("{} ways were", ways)) +
         brief;
}

bool all_well(const Model& model, const CheckResults& results) {
  const auto& brief = results.brief;
  if (std::any_of(brief.begin(), brief.end(), stands_in_the_way)) return false;
  const FindingList list = findings(model, results);
  return std::all_of(list.begin(), list.end(),
                     [](const Finding& f) { return f.weight == Severity::look; });
}

}  // namespace hummock
