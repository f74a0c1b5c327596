#include "engine/report/chapters/brief_groups.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/brief/told.h"
#include "engine/check/analyses.h"
#include "engine/check/catalogue.h"
#include "engine/report/chapters/numbers.h"

namespace hummock::report {

const std::vector<Group>& groups() {
  static const std::vector<Group> list{
      {"room", "Room", "Is there enough room, and of the right shape?"},
      {"ground", "Ground", "What is the ground like, and what must be moved to make it?"},
      {"boundary", "Boundary", "Does the boundary hold: over it, and through it?"},
      {"entry", "Entry", "Can people come and go without letting an animal out?"},
      {"below-ground", "Below ground", "Can it dig its way out, and where would it den?"},
      {"sun-and-shade", "Sun and shade", "Can every animal choose between sun and shade?"},
      {"water", "Water", "Is the water safe, and does rain drain?"},
      {"hiding", "Hiding", "Can an animal be where nobody sees it?"},
      {"guests", "Guests", "What do the guests see?"},
      {"indoors", "Indoors", "Is there a house for the weather it cannot bear?"}};
  return list;
}

namespace {

std::string basis(const BriefRow& row, const std::vector<BriefRow>& all) {
  std::string words = row.source;
  const auto add = [&](const std::string& more) {
    if (!more.empty()) words += (words.empty() ? "" : " — ") + more;
  };
  add(row.note);
  if (row.why != row.note) add(row.why);
  for (const std::string& more : more_of(row, all, figure_info)) add(more);
  for (const Assumption& a : row.ifs) {
    add("if " + a.words +
        (a.confirmed() ? ", confirmed by " + a.confirmed_by + ", " + a.confirmed_on : ""));
  }
  return words;
}

// In the words that all faces share; the CSV has the numbers in full.
std::vector<Cell> brief_row(const BriefRow& row, const std::vector<BriefRow>& all) {
  const auto plain = [](const std::string& words) { return Cell{words, std::nullopt, Mark::none}; };
  Cell value = plain(value_of(row, figure_info));
  value.number = cell(row.value).number;
  Cell margin = row.kind == RowKind::figure ? cell(row.margin) : plain("");
  if (row.margin && *row.margin > 0.0) margin.text = "+" + margin.text;
  const std::string where = row.where.empty() ? "" : " (" + row.where + ")";
  return {Cell{in_words(row.standing), std::nullopt, mark_of(row.standing)},
          plain(title_of(row, figure_info) + where),
          value,
          plain(limit_of(row, figure_info)),
          margin,
          plain(basis(row, all)),
          plain(row.key)};
}

}  // namespace

std::string group_of(const std::string& key) {
  const FigureInfo* figure = figure_info(key);
  if (figure != nullptr && !figure->group.empty()) return figure->group;
  const Analysis* analysis = find_analysis(analysis_of(key));
  return analysis == nullptr ? "room" : analysis->group;
}

Mark mark_of(Standing standing) {
  switch (standing) {
    case Standing::met:
      return Mark::met;
    case Standing::waived:
      return Mark::waived;
    case Standing::short_of:
      return Mark::short_of;
    case Standing::met_if:
    case Standing::met_as_drawn:
      return Mark::met_if;
    case Standing::open:
      return Mark::open;
    case Standing::not_checked:
      return Mark::not_checked;
    case Standing::not_asked:
      return Mark::none;
  }
  return Mark::none;
}

Table brief_table(const std::vector<BriefRow>& rows, const std::vector<BriefRow>& all,
                  const std::string& file) {
  Table table;
  table.file = file;
  table.columns = {{"Standing", 1.25, false}, {"Requirement", 2.6, false}, {"Value", 1.2, true},
                   {"Required", 1.5, true},   {"Margin", 0.95, true},      {"Source", 3.3, false},
                   {"Key", 0.0, false}};
  for (const BriefRow& row : rows) table.rows.push_back(brief_row(row, all));
  return table;
}

namespace {

// The rows of every either's sets behind it, and before them what a person is to answer.
void add_worded_tables(const std::vector<BriefRow>& rows, Chapter& chapter) {
  std::vector<BriefRow> asks;
  int number = 0;
  for (const BriefRow& row : rows) {
    if (row.kind == RowKind::ask && !row.in_set()) asks.push_back(row);
    if (row.kind != RowKind::either) continue;
    std::vector<BriefRow> mine{row};
    for (const SetStanding& set : row.sets)
      for (const std::size_t i : set.rows) mine.push_back(rows[i]);
    Table table = brief_table(mine, rows, fmt::format("brief-either-{}", ++number));
    table.title = "One of several: " + row.words;
    chapter.blocks.push_back(table);
  }
  if (asks.empty()) return;
  Table table = brief_table(asks, rows, "brief-in-words");
  table.title = "For a person to answer";
  chapter.blocks.push_back(table);
}

bool is_of_group(const BriefRow& row, const Group& group) {
  const bool of_a_figure = row.kind == RowKind::figure || row.kind == RowKind::words;
  return of_a_figure && !row.in_set() && group_of(row.what) == group.id;
}

}  // namespace

Chapter brief_chapter(const std::vector<BriefRow>& rows) {
  Chapter chapter{"brief", "The brief", "Is each thing asked for there?", {}};
  chapter.blocks.push_back(Text{
      "Every requirement of the species file, of the site file and of its brief files, grouped by "
      "question. The "
      "margin is how far the value is on the right side of the limit, in the value's own unit; "
      "a minus is how far it is short.",
      Tone::body});
  std::string none;
  for (const Group& group : groups()) {
    std::vector<BriefRow> mine;
    for (const BriefRow& row : rows) {
      if (is_of_group(row, group)) mine.push_back(row);
    }
    if (mine.empty()) {
      none += (none.empty() ? "" : ", ") + group.title;
      continue;
    }
    Table table = brief_table(mine, rows, "brief-" + group.id);
    table.title = group.title;
    chapter.blocks.push_back(table);
  }
  add_worded_tables(rows, chapter);
  if (!none.empty()) {
    chapter.blocks.push_back(Text{"No requirement is given for: " + none + ".", Tone::body});
  }
  return chapter;
}

}  // namespace hummock::report
