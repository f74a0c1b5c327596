// What is asked, and what is signed: rows that site and species file share.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

// What an answer may rest on (engine/leap/rows/premises.h, engine/dig/rests_on.h,
// engine/openings/rests_on.h, engine/entry/rests_on.h, engine/check/rests_on_body.h,
// engine/site/unseen.h).
const Words kAssumable{"hangs",
                       "leap_height",
                       "leap_distance",
                       "ice",
                       "drained",
                       "grip",
                       "cling_leap",
                       "stand_slope",
                       "crouch",
                       "reach",
                       "perch",
                       "climbs_past_upright",
                       "leap_from_water",
                       "climbs",
                       "swims",
                       "wade_depth",
                       "least_opening",
                       "dig_depth",
                       "dig_length",
                       "plantings",
                       "crowns",
                       "walls",
                       "indoors",
                       "tunnels",
                       "body",
                       "eye_height",
                       "outdoor_low",
                       "forecourt",
                       "lobby",
                       "keepers-way",
                       "headroom",
                       "survey-detail",
                       "form-cut",
                       "form-detail",
                       "form-face",
                       "narrow-strip",
                       "basin-detail",
                       "guest-ground"};

const Words kPer{"group", "animal", "extra animal"};

// "space.plan_area_m2": two or more parts of a-z, 0-9 and _, the first a group of figures.
bool is_figure_key(const std::string& what) {
  if (what.find('.') == std::string::npos || what.size() > 100) return false;
  char before = '.';
  for (const char c : what) {
    const bool word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    if (!word && (c != '.' || before == '.')) return false;
    before = c;
  }
  return before != '.';
}

Value read_what(TableCursor& table, const Row& row, const Source&) {
  const char* key = row.key.c_str();
  std::string what = table.text(key);
  const std::string allowed =
      "a key of the results such as \"space.plan_area_m2\" or \"leap.margin\"";
  if (!is_figure_key(what)) table.refuse(key, in_quotes(what), allowed);
  const std::string group = what.substr(0, what.find('.'));
  for (const std::string& known : figure_groups()) {
    if (known == group) return what;
  }
  const auto near = nearest_word(group, figure_groups());
  table.refuse(
      key, in_quotes(what),
      near ? "\"" + *near + what.substr(group.size()) + "\" (did you mean that?)" : allowed);
}

void check_one_limit(const TableCursor& table, const Requirement&) {
  int forms = 0;
  for (const char* key : {"at_least", "at_most", "between"}) forms += table.has(key) ? 1 : 0;
  if (forms == 1) return;
  table.refuse("what", forms == 0 ? "no limit for it" : "more than one limit for it",
               "one of at_least, at_most and between");
}

void check_between(const TableCursor& table, const Requirement& r) {
  if (!r.at_least || !r.at_most || *r.at_least <= *r.at_most) return;
  table.refuse("between", "[" + plain_number(*r.at_least) + ", " + plain_number(*r.at_most) + "]",
               "[low, high] with low <= high");
}

// Both limits are one key, `between`.
void set_between(Requirement& r, const Value& v) {
  const auto& limits = std::get<Numbers>(v);
  r.at_least = limits.at(0);
  r.at_most = limits.at(1);
}
Value get_between(const Requirement& r) {
  return r.at_least && r.at_most ? Value(Numbers{*r.at_least, *r.at_most}) : Value();
}
template <std::optional<double> Requirement::*limit>
Member one_limit() {
  return by<Requirement>(
      [](Requirement& r, const Value& v) { r.*limit = std::get<double>(v); },
      [](const Requirement& r) { return r.at_least && r.at_most ? Value() : from(r.*limit); });
}

bool is_extra(const Requirement& r) {
  return r.per == Per::extra_animal;
}

}  // namespace

const Table& require_table() {
  static const Table table = [] {
    Table t = table_of<Requirement>(
        "a row of the brief, in a site or a species file", "",
        {
            {.key = "what",
             .kind = Kind::text,
             .meaning = "a key of the results",
             .needed = true,
             .example = "\"space.plan_area_m2\", \"leap.margin\"",
             .member = of(&Requirement::what),
             .read = read_what},
            {.key = "at_least",
             .kind = Kind::number,
             .meaning = "the limit, in the unit of `what`",
             .range = kAnyFigure,
             .absent = "one of the three",
             .member = one_limit<&Requirement::at_least>(),
             .before = check<Requirement>(check_one_limit)},
            {.key = "at_most",
             .kind = Kind::number,
             .meaning = "the limit, in the unit of `what`",
             .range = kAnyFigure,
             .absent = "one of the three",
             .member = one_limit<&Requirement::at_most>()},
            {.key = "between",
             .kind = Kind::numbers,
             .meaning = "[low, high], in the unit of `what`",
             .range = kAnyFigure,
             .least = 2,
             .absent = "one of the three",
             .member = by<Requirement>(set_between, get_between),
             .check = check<Requirement>(check_between)},
            {.key = "unit",
             .kind = Kind::text,
             .meaning = "the unit the limits are said in; refused unless it is the figure's own",
             .absent = "the figure's own",
             .example = "\"m²\", \"m2\", \"degrees\"",
             .member = of(&Requirement::unit)},
            {.key = "per",
             .kind = Kind::choice,
             .meaning = "the limit is for all; times the animals; or for up to `up_to` of them",
             .words = kPer,
             .member = of(&Requirement::per)},
            {.key = "up_to",
             .kind = Kind::count,
             .meaning = "animals in the base limit",
             .needed = true,
             .range = {1, 100000, ""},
             .only = "extra animal",
             .when = when<Requirement>(is_extra),
             .member = of(&Requirement::up_to)},
            {.key = "extra",
             .kind = Kind::number,
             .meaning = "added for each further animal, in the unit of `what`",
             .needed = true,
             .range = kAnyFigure,
             .only = "extra animal",
             .when = when<Requirement>(is_extra),
             .member = of(&Requirement::extra)},
            {.key = "source",
             .kind = Kind::text,
             .meaning =
                 "who says so; else `common practice, no source`, `from memory` or `invented "
                 "for the demo`",
             .needed = true,
             .member = of(&Requirement::source)},
            {.key = "note",
             .kind = Kind::text,
             .meaning = "for the reader",
             .absent = "none",
             .member = of(&Requirement::note)},
            {.key = "weight",
             .kind = Kind::choice,
             .meaning = "must: the brief is not met without it; should: wished for",
             .words = {"must", "should"},
             .member = of(&Requirement::weight)},
        });
    t.a = [](const void* r) {
      return "a requirement per " +
             kPer[static_cast<std::size_t>(static_cast<const Requirement*>(r)->per)];
    };
    return t;
  }();
  return table;
}

const Table& confirm_table() {
  static const Table table = table_of<Confirmation>(
      "a keeper's word that an assumption holds: in a species file for all sites, in a site file "
      "for one",
      "a confirmation",
      {
          {.key = "what",
           .kind = Kind::choice,
           .meaning = "the key of what is confirmed; of an *if* over two figures either will do",
           .needed = true,
           .words = kAssumable,
           .member = of(&Confirmation::what)},
          {.key = "by",
           .kind = Kind::text,
           .meaning = "who says so",
           .needed = true,
           .member = of(&Confirmation::by)},
          {.key = "on",
           .kind = Kind::date,
           .meaning = "the day it was said",
           .needed = true,
           .member = of(&Confirmation::on)},
          {.key = "note",
           .kind = Kind::text,
           .meaning = "for the reader",
           .absent = "none",
           .member = of(&Confirmation::note)},
      });
  return table;
}

const Table& waiver_table() {
  static const Table table =
      table_of<Waiver>("something short that is signed off as it is", "a waiver",
                       {
                           {.key = "what",
                            .kind = Kind::text,
                            .meaning = "the key of the results that is short",
                            .needed = true,
                            .member = of(&Waiver::what)},
                           {.key = "reason",
                            .kind = Kind::text,
                            .meaning = "why it may stay so",
                            .needed = true,
                            .member = of(&Waiver::reason)},
                           {.key = "by",
                            .kind = Kind::text,
                            .meaning = "who signs",
                            .needed = true,
                            .member = of(&Waiver::by)},
                           {.key = "on",
                            .kind = Kind::date,
                            .meaning = "the day it was signed",
                            .needed = true,
                            .member = of(&Waiver::on)},
                       });
  return table;
}

}  // namespace hummock::grammar
