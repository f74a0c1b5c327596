#include "engine/report/chapters/brief_groups.h"

#include <fmt/format.h>

#include <cmath>

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

std::string with_unit(const std::string& number, const std::string& unit) {
  if (unit.empty() || unit == "of 1" || number == "–") return number;
  return unit == "°" ? number + unit : number + " " + unit;
}

std::string required_words(const BriefRow& row, const std::string& unit) {
  if (row.at_least && row.at_most) {
    return with_unit(number(*row.at_least) + " to " + number(*row.at_most), unit);
  }
  if (row.at_least) return with_unit("at least " + number(*row.at_least), unit);
  if (row.at_most) return with_unit("at most " + number(*row.at_most), unit);
  return row.required;
}

std::string basis(const BriefRow& row) {
  std::string words = row.source;
  const auto add = [&](const std::string& more) {
    if (!more.empty()) words += (words.empty() ? "" : " — ") + more;
  };
  add(row.note);
  if (row.why != row.note) add(row.why);
  for (const Assumption& a : row.ifs) {
    add("if " + a.words +
        (a.confirmed() ? ", confirmed by " + a.confirmed_by + ", " + a.confirmed_on : ""));
  }
  return words;
}

std::vector<Cell> brief_row(const BriefRow& row) {
  const KeyWords key = key_words(row.what);
  Cell value = cell(row.value);
  value.text = with_unit(value.text, key.unit);
  if (!row.value && row.met == Met::met) value.text = "none found";
  if (row.value && row.outcome == Outcome::bounded) value.text = "≥ " + value.text;
  Cell margin = cell(row.margin);
  if (row.margin && *row.margin > 0.0) margin.text = "+" + margin.text;
  Cell what{key.words + (row.where.empty() ? "" : " (" + row.where + ")"), std::nullopt,
            Mark::none};
  return {Cell{in_words(row.standing), std::nullopt, mark_of(row.standing)},
          what,
          value,
          Cell{required_words(row, key.unit), std::nullopt, Mark::none},
          margin,
          Cell{basis(row), std::nullopt, Mark::none},
          Cell{row.what, std::nullopt, Mark::none}};
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
    case Standing::waived:
      return Mark::met;
    case Standing::short_of:
      return Mark::short_of;
    case Standing::met_if:
    case Standing::met_as_drawn:
      return Mark::met_if;
    case Standing::open:
    case Standing::not_checked:
      return Mark::not_checked;
  }
  return Mark::none;
}

Table brief_table(const std::vector<BriefRow>& rows, const std::string& file) {
  Table table;
  table.file = file;
  table.columns = {{"Standing", 1.25, false}, {"Requirement", 2.6, false}, {"Value", 1.2, true},
                   {"Required", 1.5, true},   {"Margin", 0.95, true},      {"Source", 3.3, false},
                   {"Key", 0.0, false}};
  for (const BriefRow& row : rows) table.rows.push_back(brief_row(row));
  return table;
}

Chapter brief_chapter(const std::vector<BriefRow>& rows) {
  Chapter chapter{"brief", "The brief", "Is each thing asked for there?", {}};
  chapter.blocks.push_back(Text{
      "Every requirement of the species file and of the site file, grouped by question. The "
      "margin is how far the value is on the right side of the limit, in the value's own unit; "
      "a minus is how far it is short.",
      Tone::body});
  std::string none;
  for (const Group& group : groups()) {
    std::vector<BriefRow> mine;
    for (const BriefRow& row : rows) {
      if (group_of(row.what) == group.id) mine.push_back(row);
    }
    if (mine.empty()) {
      none += (none.empty() ? "" : ", ") + group.title;
      continue;
    }
    Table table = brief_table(mine, "brief-" + group.id);
    table.title = group.title;
    chapter.blocks.push_back(table);
  }
  if (!none.empty()) {
    chapter.blocks.push_back(Text{"No requirement is given for: " + none + ".", Tone::body});
  }
  return chapter;
}

}  // namespace hummock::report
