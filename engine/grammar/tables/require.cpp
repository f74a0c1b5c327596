// What is asked: rows that site, species and brief files share.
#include <algorithm>
#include <array>

#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kPer{"group", "animal", "extra animal", "with offspring"};
const Words kWeight{"must", "should"};

bool is_asked_of_a_person(const Requirement& r) {
  return !r.ask.empty();
}
bool has_figure(const Requirement& r) {
  return r.ask.empty();
}
bool has_limits(const Requirement& r) {
  return r.ask.empty() && !r.of_words();
}

constexpr std::array<const char*, 3> kWordForms{"one_of", "none_of", "all_of"};

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

// Asked before any of them is read.
void check_one_limit(const TableCursor& table, const Requirement&) {
  int limits = 0, words = 0;
  for (const char* key : {"at_least", "at_most", "between"}) limits += table.has(key) ? 1 : 0;
  for (const char* key : kWordForms) words += table.has(key) ? 1 : 0;
  if (limits == 1 && words == 0) return;
  if (limits == 0 && words > 0) return;
  const std::string allowed =
      "one of at_least, at_most and between, or of one_of, none_of and all_of";
  table.refuse("what",
               limits + words == 0       ? "no limit for it"
               : limits > 0 && words > 0 ? "a limit and words for it"
                                         : "more than one limit for it",
               allowed);
}

// On one line, as it stands in a table.
Value read_ask(TableCursor& table, const Row& row, const Source&) {
  const char* key = row.key.c_str();
  std::string words = table.text(key);
  const bool plain = std::none_of(words.begin(), words.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
  });
  if (!plain || words.size() > 400)
    table.refuse(key, in_quotes(words), "words on one line, at most 400 bytes");
  return words;
}

// Of a row in words: nothing of a figure beside it. Its `ask` is read first.
void check_ask(const TableCursor& table, const Requirement& r) {
  if (!is_asked_of_a_person(r)) return;
  if (std::find(assumable().begin(), assumable().end(), r.ask) != assumable().end())
    table.refuse("ask", in_quotes(r.ask), "words that are no word of an *if* ([[confirm]])");
  for (const char* key : {"what", "at_least", "at_most", "between", "one_of", "none_of", "all_of",
                          "unit", "per", "up_to", "extra"}) {
    if (table.has(key))
      table.refuse(key, "a key of a figure beside `ask`",
                   "either `ask` (a row in words) or `what`");
  }
}

// So that it is never taken for a key of the results, and stands in a table cell.
Value read_id(TableCursor& table, const Row& row, const Source&) {
  const char* key = row.key.c_str();
  std::string id = table.text(key);
  const bool plain = std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
  const bool taken = std::find(assumable().begin(), assumable().end(), id) != assumable().end();
  if (!plain || id.size() > 60)
    table.refuse(key, in_quotes(id), "an id of a-z, 0-9, - and _, at most 60 long");
  if (taken) table.refuse(key, in_quotes(id), "an id that is no word of an *if* ([[confirm]])");
  return id;
}

template <std::vector<std::string> Requirement::*words>
void check_some(const TableCursor& table, const Requirement& r) {
  constexpr const char* key = words == &Requirement::one_of    ? "one_of"
                              : words == &Requirement::none_of ? "none_of"
                                                               : "all_of";
  if (table.has(key) && (r.*words).empty()) table.refuse(key, "no word", "at least one word");
}

void check_offspring(const TableCursor& table, const When& when) {
  if (table.has("offspring") && !when.offspring)
    table.refuse("offspring", "false", "true (asked where young are expected), or leave it out");
}

void check_when(const TableCursor& table, const When& when) {
  if (when.season || when.offspring || when.below) return;
  table.refuse("season", "nothing", "one or more of season, offspring and below");
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
  return has_limits(r) && r.per == Per::extra_animal;
}
bool adds_some(const Requirement& r) {
  return is_extra(r) || (has_limits(r) && r.per == Per::with_offspring);
}

std::string row_in_words(const Requirement& r) {
  if (is_asked_of_a_person(r)) return "a row in words";
  if (r.of_words()) return "a requirement of words";
  return "a requirement per " + kPer[static_cast<std::size_t>(r.per)];
}

template <std::vector<std::string> Requirement::*words>
Row words_row(const char* key, const char* meaning) {
  return {.key = key,
          .kind = Kind::texts,
          .meaning = meaning,
          .when = when<Requirement>(has_figure),
          .absent = "none",
          .example = "[\"mesh\", \"solid\"]",
          .member = of(words),
          .check = check<Requirement>(check_some<words>)};
}

}  // namespace

const Table& when_table() {
  static const Table table = [] {
    Table t = table_of<When>(
        "the row is asked only then; of several all must be so", "a `when`",
        {
            {.key = "season",
             .kind = Kind::season,
             .meaning = "first and last day; figures of the sun are then met only by days of it",
             .absent = "the year",
             .member = of(&When::season)},
            {.key = "offspring",
             .kind = Kind::flag,
             .meaning = "where young are expected (the site's `offspring` is not 0)",
             .member = of(&When::offspring),
             .check = check<When>(check_offspring)},
            {.key = "below",
             .kind = Kind::number,
             .meaning = "where the outdoor air goes below it, by the climate file",
             .range = {-90.0, 60.0, "°C"},
             .absent = "any",
             .member = of(&When::below)},
        });
    t.check = check<When>(check_when);
    return t;
  }();
  return table;
}

const Table& require_table() {
  static const Table table = [] {
    Table t = table_of<Requirement>(
        "a row of the brief, in a site, a species or a brief file", "",
        {
            {.key = "ask",
             .kind = Kind::text,
             .meaning =
                 "a row in words for a person, in place of `what`: open until a `[[confirm]]` "
                 "answers it",
             .absent = "none",
             .example = "\"Is the keepers' store locked at night?\"",
             .member = of(&Requirement::ask),
             .read = read_ask,
             .check = check<Requirement>(check_ask)},
            {.key = "id",
             .kind = Kind::text,
             .meaning = "what a confirmation or a waiver names it by; one of its own",
             .absent = "`what`, or its own words",
             .example = "\"night-lock\"",
             .member = of(&Requirement::id),
             .read = read_id},
            {.key = "what",
             .kind = Kind::text,
             .meaning = "a key of the results",
             .needed = true,
             .only = "without ask",
             .when = when<Requirement>(has_figure),
             .example = "\"space.plan_area_m2\", \"leap.margin\"",
             .member = of(&Requirement::what),
             .read = read_what,
             .before = check<Requirement>(check_one_limit)},
            words_row<&Requirement::one_of>(
                "one_of", "of a figure whose value is words: each of its words is among these"),
            words_row<&Requirement::none_of>("none_of", "none of its words is among these"),
            words_row<&Requirement::all_of>("all_of", "all of these are among its words"),
            {.key = "at_least",
             .kind = Kind::number,
             .meaning = "the limit, in the unit of `what`",
             .range = kAnyFigure,
             .when = when<Requirement>(has_limits),
             .absent = "one of these forms",
             .member = one_limit<&Requirement::at_least>()},
            {.key = "at_most",
             .kind = Kind::number,
             .meaning = "the limit, in the unit of `what`",
             .range = kAnyFigure,
             .when = when<Requirement>(has_limits),
             .absent = "one of these forms",
             .member = one_limit<&Requirement::at_most>()},
            {.key = "between",
             .kind = Kind::numbers,
             .meaning = "[low, high], in the unit of `what`",
             .range = kAnyFigure,
             .least = 2,
             .when = when<Requirement>(has_limits),
             .absent = "one of these forms",
             .member = by<Requirement>(set_between, get_between),
             .check = check<Requirement>(check_between)},
            {.key = "unit",
             .kind = Kind::text,
             .meaning = "the unit the limits are said in; refused unless it is the figure's own",
             .when = when<Requirement>(has_limits),
             .absent = "the figure's own",
             .example = "\"m²\", \"m2\", \"degrees\"",
             .member = of(&Requirement::unit)},
            {.key = "per",
             .kind = Kind::choice,
             .meaning =
                 "the limit is for all; times the animals; for up to `up_to` of them; or for "
                 "the grown, with `extra` for each young expected (the site's `offspring`)",
             .words = kPer,
             .when = when<Requirement>(has_limits),
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
             .meaning = "added for each further animal or young, in the unit of `what`",
             .needed = true,
             .range = kAnyFigure,
             .only = "extra animal, with offspring",
             .when = when<Requirement>(adds_some),
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
             .words = kWeight,
             .member = of(&Requirement::weight)},
            {.key = "when",
             .kind = Kind::table,
             .meaning = when_table().title,
             .absent = "always",
             .children = in(&Requirement::when),
             .table = when_table},
        });
    t.a = [](const void* r) { return row_in_words(*static_cast<const Requirement*>(r)); };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
