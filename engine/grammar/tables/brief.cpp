// A brief in a file of its own, and sets of rows of which one must be met.
#include <algorithm>

#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

void check_set(const TableCursor& table, const RowSet& set) {
  const bool any = std::any_of(set.requirements.begin(), set.requirements.end(),
                               [](const Requirement& r) { return r.weight == Weight::must; });
  if (any) return;
  table.refuse("require", set.requirements.empty() ? "no row" : "only rows that are wished for",
               "at least one row that must be met");
}

// A waiver names it: never to be taken for a key of the results.
void check_either_name(const TableCursor& table, const Either& either) {
  const bool like_a_key =
      either.name.find('.') != std::string::npos && either.name.find(' ') == std::string::npos;
  if (like_a_key) table.refuse("name", in_quotes(either.name), "words, no key of the results");
}

void check_any_row(const TableCursor& table, const BriefFile& brief) {
  if (brief.requirements.empty() && brief.eithers.empty())
    table.refuse("require", "no row", "at least one [[require]] or [[either]]");
}

void check_sets(const TableCursor& table, const Either& either) {
  const std::size_t count = either.sets.size();
  if (count < 2) table.refuse("set", count == 0 ? "no set" : "one set", "two or more sets of rows");
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (either.sets[i].name == either.sets[j].name)
        table.refuse("set", "two sets named " + in_quotes(either.sets[i].name),
                     "a name of its own for each set");
}

template <class C>
Row rows_row(std::vector<Requirement> C::*member) {
  return {.key = "require",
          .kind = Kind::tables,
          .meaning = require_table().title,
          .absent = "none",
          .children = in(member),
          .table = require_table};
}

}  // namespace

const Table& set_table() {
  static const Table table = [] {
    Table t = table_of<RowSet>("one of the sets; met when each of its rows that must be met is",
                               "a set of rows",
                               {
                                   {.key = "name",
                                    .kind = Kind::name,
                                    .meaning = "what it is told by",
                                    .needed = true,
                                    .example = "\"a larger yard\"",
                                    .member = of(&RowSet::name)},
                                   rows_row(&RowSet::requirements),
                               });
    t.check = check<RowSet>(check_set);
    return t;
  }();
  return table;
}

const Table& either_table() {
  static const Table table = [] {
    Table t = table_of<Either>(
        "sets of rows of which one must be met as a whole", "an either",
        {
            {.key = "name",
             .kind = Kind::name,
             .meaning = "what it is told by; a waiver names it so",
             .needed = true,
             .example = "\"room or a roof\"",
             .member = of(&Either::name),
             .check = check<Either>(check_either_name)},
            {.key = "weight",
             .kind = Kind::choice,
             .meaning = "must: the brief is not met without one of them; should: wished for",
             .words = {"must", "should"},
             .member = of(&Either::weight)},
            {.key = "set",
             .kind = Kind::tables,
             .meaning = set_table().title,
             .absent = "two or more are needed",
             .children = in(&Either::sets),
             .table = set_table},
        });
    t.check = check<Either>(check_sets);
    return t;
  }();
  return table;
}

const Table& brief_table() {
  static const Table table = [] {
    Table t = table_of<BriefFile>("a brief in a file of its own", "a brief file",
                                  {
                                      {.key = "format",
                                       .kind = Kind::count,
                                       .meaning = "version of the file format",
                                       .needed = true,
                                       .range = {1, 1, ""},
                                       .member = of(&BriefFile::format)},
                                      {.key = "name",
                                       .kind = Kind::name,
                                       .meaning = "who asks: told with each of its rows",
                                       .needed = true,
                                       .example = "\"law\", \"association\", \"park\"",
                                       .member = of(&BriefFile::name)},
                                      rows_row(&BriefFile::requirements),
                                      {.key = "either",
                                       .kind = Kind::tables,
                                       .meaning = either_table().title,
                                       .absent = "none",
                                       .children = in(&BriefFile::eithers),
                                       .table = either_table},
                                  });
    t.check = check<BriefFile>(check_any_row);
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
