#include "engine/brief/when.h"

#include <algorithm>
#include <cstdio>

#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

enum class IsSo { yes, no, unknown };

struct Judged {
  IsSo is = IsSo::yes;
  std::string why;
};

std::string day_words(MonthDay day) {
  char text[16];
  std::snprintf(text, sizeof text, "%02d-%02d", day.month, day.day);
  return text;
}

std::string season_words(const Season& season) {
  return day_words(season.from) + " to " + day_words(season.to);
}

Judged judge_season(const Season& season, const BriefRow& row, const Circumstances& now) {
  if (now.of_days.count(row.what.substr(0, row.what.find('.'))) == 0) return {};
  for (const sun::Date& day : now.days) {
    if (sun::within(season, day)) continue;
    return {IsSo::unknown, "the sun's figures are of " + sun::text(day) +
                               " too, which is not in the season " + season_words(season) +
                               ": check with --date a day of it"};
  }
  if (now.days.empty()) return {IsSo::unknown, "no day of the sun was worked out"};
  return {};
}

Judged judge_below(double below, const Circumstances& now) {
  if (!now.coldest) return {IsSo::unknown, "no climate file says how cold it gets"};
  if (*now.coldest < below) return {};
  const std::string told = "the coldest hour of the climate file is " + plain_number(*now.coldest) +
                           " °C, not below " + plain_number(below);
  if (now.whole_year) return {IsSo::no, told};
  return {IsSo::unknown, told + ", and that file is not a whole year of hours"};
}

Judged judge_when(const Site& site, const When& when, const BriefRow& row,
                  const Circumstances& now) {
  std::vector<Judged> all;
  if (when.season) all.push_back(judge_season(*when.season, row, now));
  if (when.offspring && site.offspring == 0)
    all.push_back({IsSo::no, "no young are expected on this site"});
  if (when.below) all.push_back(judge_below(*when.below, now));
  for (const IsSo worst : {IsSo::no, IsSo::unknown})
    for (const Judged& one : all)
      if (one.is == worst) return one;
  return {};
}

void apply(const Judged& judged, BriefRow& row) {
  if (judged.is == IsSo::yes) return;
  row.met = Met::not_checked;
  row.margin.reset();
  row.ifs.clear();
  row.why =
      (judged.is == IsSo::no ? "not asked: " : "whether it is asked is not known: ") + judged.why;
  row.standing = judged.is == IsSo::no ? Standing::not_asked : Standing::not_checked;
}

}  // namespace

void apply_when(const Site& site, const Circumstances& now, std::vector<BriefRow>& rows) {
  for (BriefRow& row : rows)
    if (row.when) apply(judge_when(site, *row.when, row, now), row);
}

std::string in_words(const When& when) {
  std::string words;
  const auto add = [&](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
  if (when.season) add("in the season " + season_words(*when.season));
  if (when.offspring) add("where young are expected");
  if (when.below) add("where it gets colder than " + plain_number(*when.below) + " °C");
  return words;
}

bool at_once(const Site& site, const std::optional<When>& a, const std::optional<When>& b) {
  for (const auto& when : {a, b})
    if (when && when->offspring && site.offspring == 0) return false;
  if (!a || !b || !a->season || !b->season) return true;
  // Two spans of a year's circle meet where one begins within the other.
  const auto begins_in = [](const Season& one, const Season& other) {
    return sun::within(other, {2024, one.from.month, one.from.day});
  };
  return begins_in(*a->season, *b->season) || begins_in(*b->season, *a->season);
}

}  // namespace hummock
