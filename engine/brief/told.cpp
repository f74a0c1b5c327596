#include "engine/brief/told.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/brief/judge_words.h"
#include "engine/brief/when.h"

namespace hummock {
namespace {

// What keeps a set's row from being met; empty when nothing does.
std::string lack_of(const BriefRow& row, FindFigure find) {
  switch (row.standing) {
    case Standing::short_of:
      return short_in_words(row, find);
    case Standing::open:
      return title_of(row, find) + ": open";
    case Standing::not_checked:
      return title_of(row, find) + ": not checked, " + row.why;
    default:
      return {};
  }
}

std::string set_in_words(const SetStanding& set, const std::vector<BriefRow>& all,
                         FindFigure find) {
  std::string words = set.name + ": " + in_words(set.standing);
  std::string lacks;
  for (const std::size_t i : set.rows) {
    if (!all[i].must) continue;
    const std::string lack = lack_of(all[i], find);
    if (!lack.empty()) lacks += (lacks.empty() ? "" : "; ") + lack;
  }
  return lacks.empty() ? words : words + " (" + lacks + ")";
}

}  // namespace

std::string value_in_words(const FigureInfo* figure, const std::optional<double>& value) {
  if (!value || !std::isfinite(*value)) return "–";
  if (figure == nullptr) return fmt::format("{:.4g}", *value);
  std::string words = fmt::format("{:.{}f}", *value, figure->decimals);
  if (words.find_first_not_of("-0.") == std::string::npos) words = std::string(1, '0');
  if (figure->unit.empty() || figure->unit == "of 1") return words;
  return figure->unit == "°" ? words + "°" : words + " " + figure->unit;
}

std::string title_of(const BriefRow& row, FindFigure find) {
  if (row.kind == RowKind::ask || row.kind == RowKind::either) return row.words;
  const FigureInfo* figure = find(row.what);
  return figure != nullptr ? figure->title : row.what;
}

std::string value_of(const BriefRow& row, FindFigure find) {
  if (row.kind == RowKind::ask || row.kind == RowKind::either) return {};
  if (row.kind == RowKind::words) return row.found ? listed(*row.found) : "–";
  if (!row.value && row.met == Met::met) return "none found";
  const bool bounded = row.outcome == Outcome::bounded && row.value;
  return (bounded ? "≥ " : "") + value_in_words(find(row.what), row.value);
}

std::string limit_of(const BriefRow& row, FindFigure find) {
  const FigureInfo* figure = row.kind == RowKind::figure ? find(row.what) : nullptr;
  std::string words = row.required;
  if (figure == nullptr || figure->unit.empty() || figure->unit == "of 1") return words;
  // Before the words on how many animals it is for.
  const std::string unit = figure->unit == "°" ? figure->unit : " " + figure->unit;
  return words.insert(std::min(words.find(" ("), words.size()), unit);
}

std::vector<std::string> more_of(const BriefRow& row, const std::vector<BriefRow>& all,
                                 FindFigure find) {
  std::vector<std::string> lines;
  if (!row.asked_by.empty() && !row.in_set()) lines.push_back("asked by " + row.asked_by);
  if (row.when) lines.push_back("asked only " + in_words(*row.when));
  if (!row.stricter.empty()) lines.push_back(row.stricter + " asks more, and decides");
  if (row.in_set()) lines.push_back("of “" + row.either + "”: " + row.set);
  for (const SetStanding& set : row.sets) lines.push_back(set_in_words(set, all, find));
  return lines;
}

std::string short_in_words(const BriefRow& row, FindFigure find) {
  const bool value = row.value || row.found;
  std::string text = fmt::format("{}: {}, {} asked for", title_of(row, find),
                                 value ? value_of(row, find) : "no value", limit_of(row, find));
  if (!row.where.empty()) text += " (" + row.where + ")";
  return text;
}

std::string sets_in_words(const BriefRow& either, const std::vector<BriefRow>& all,
                          FindFigure find) {
  std::string words;
  for (const SetStanding& set : either.sets)
    words += (words.empty() ? "none of its sets is met: " : "; or ") + set_in_words(set, all, find);
  return words;
}

}  // namespace hummock
