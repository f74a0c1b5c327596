// One row of the grammar: a key of a table of the site or species file, declared once.
//
// From its row come the reading of a key (read_table.h), its writing (write_table.h), its help and
// its line on the page (help.h, page.h), its field in the viewer and its shift to local coordinates
// (walk.h). What no row can say stands as a function beside it: `before`, `check`, `read`.
// Adding a key is one row in tables/ and its use.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/grammar/value.h"
#include "engine/toml/table_cursor.h"

namespace hummock::grammar {

enum class Kind {
  length,   // m
  angle,    // degrees in the file, radians in the member
  share,    // of a whole
  number,   // with any other unit
  count,    // whole
  choice,   // one of `words`
  flag,     // true or false
  text,     // not empty
  name,     // of a thing, on one line; by default its kind and its number in the list
  texts,    // a list of texts
  date,     // a day
  file,     // a path from the file's folder
  point,    // [x, y]
  path,     // [[x, y], …], `least` or more
  outline,  // [[x, y], …], simple
  size,     // three lengths
  numbers,  // `least` numbers
  season,   // ["11-01", "04-01"]
  edges,    // a list of edge numbers
  choices,  // a list of any of `words`
  pairs,    // [[a, b], …]
  table,    // a table of its own
  tables,   // a list of tables
  figure    // { value, source, … }, or a list of such records of one figure
};

struct Table;
struct Row;

// What a file's paths are taken from, and the thing's number in its list (from 1).
struct Source {
  std::filesystem::path folder;
  int number = 1;
};

using Test = std::function<bool(const void*)>;
using Check = std::function<void(const TableCursor&, const void*)>;
using Read = std::function<Value(TableCursor&, const Row&, const Source&)>;

// A member as a value of the file's. `by_word`: a choice kept as its word, not as a number.
struct Member {
  std::function<void(void*, const Value&)> set;
  std::function<Value(const void*)> get;
  bool by_word = false;
};

// The tables inside a table: none or one, or a list.
struct Children {
  std::function<void*(void*)> add;  // opens it, or appends one
  std::function<std::size_t(const void*)> count;
  std::function<void*(void*, std::size_t)> at;
  std::function<void(void*, std::size_t)> take_out = nullptr;  // one of a list
};

// Several records of one figure, kept with it: `use` takes over the one that is marked and says how
// many are.
struct Records {
  std::function<void*(void*)> add;
  std::function<std::size_t(void*)> use;
  std::function<std::size_t(const void*)> count;
  std::function<void*(void*, std::size_t)> at;
  explicit operator bool() const { return static_cast<bool>(add); }
};

struct Row {
  std::string key;
  Kind kind = Kind::text;
  std::string meaning;  // one sentence, no full stop
  bool needed = false;  // where it means something
  Range range{};        // of numbers, with the unit
  std::size_t least = 0;
  Words words{};           // of a choice
  std::string only{};      // in words, what has it: "mesh"; "" = all
  Test when = nullptr;     // the same as a test; none = always
  std::string absent{};    // what it means when left out; "" = the member's own default
  std::string example{};   // a value as written, where the kind does not say enough
  std::string group = "";  // heading in the editor; "" = the measures
  double step = 0.0;       // the digit the editor writes to; 0 = by kind
  Member member{};
  Children children{};
  std::function<const Table&()> table = nullptr;
  Read read = nullptr;     // in place of the kind's own reading
  Check before = nullptr;  // asked before the row is read
  Check check = nullptr;   // asked after it was read
};

struct Table {
  std::string title;                          // what it is, for headings
  std::vector<Row> rows;                      // in the order they are read
  std::function<std::string(const void*)> a;  // "a bench", for keys that mean nothing here
  std::function<std::shared_ptr<void>()> make;
  std::function<void(void*, const Where&)> put_where = nullptr;  // notes where it was written
  Check check = nullptr;                                         // asked when all rows were read
  Records records{};                                             // of a figure
  std::string note{};                                            // a paragraph for the page

  const Row* find(const std::string& key) const;
};

// A member of T, or two functions on T.
template <class T, class M>
Member of(M T::*member) {
  return {[member](void* t, const Value& v) { into(v, static_cast<T*>(t)->*member); },
          [member](const void* t) { return from(static_cast<const T*>(t)->*member); },
          std::is_same_v<M, std::string>};
}
template <class T>
Member by(std::function<void(T&, const Value&)> set, std::function<Value(const T&)> get) {
  return {[set](void* t, const Value& v) { set(*static_cast<T*>(t), v); },
          [get](const void* t) { return get(*static_cast<const T*>(t)); }, false};
}
template <class T, class F>
Test when(F test) {
  return [test](const void* t) { return test(*static_cast<const T*>(t)); };
}
template <class T, class F>
Check check(F test) {
  return [test](const TableCursor& c, const void* t) { test(c, *static_cast<const T*>(t)); };
}

template <class T, class C>
Children in(C T::*member) {
  return {[member](void* t) -> void* { return &(static_cast<T*>(t)->*member); },
          [](const void*) { return std::size_t{1}; },
          [member](void* t, std::size_t) -> void* { return &(static_cast<T*>(t)->*member); }};
}
template <class T, class C>
Children in(std::optional<C> T::*member) {
  return {[member](void* t) -> void* { return &(static_cast<T*>(t)->*member).emplace(); },
          [member](const void* t) {
            return std::size_t{(static_cast<const T*>(t)->*member).has_value() ? 1U : 0U};
          },
          [member](void* t, std::size_t) -> void* { return &*(static_cast<T*>(t)->*member); }};
}
template <class T, class C>
Children in(std::vector<C> T::*member) {
  return {
      [member](void* t) -> void* { return &(static_cast<T*>(t)->*member).emplace_back(); },
      [member](const void* t) { return (static_cast<const T*>(t)->*member).size(); },
      [member](void* t, std::size_t i) -> void* { return &(static_cast<T*>(t)->*member).at(i); },
      [member](void* t, std::size_t i) {
        auto& list = static_cast<T*>(t)->*member;
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(i));
      }};
}

// A table of T: how one is made and where it notes its place.
template <class T>
Table table_of(std::string title, std::string a, std::vector<Row> rows) {
  Table out;
  out.title = std::move(title);
  out.rows = std::move(rows);
  out.a = [a](const void*) { return a; };
  out.make = [] { return std::make_shared<T>(); };
  if constexpr (requires(T t) { t.where; }) {
    out.put_where = [](void* t, const Where& where) { static_cast<T*>(t)->where = where; };
  }
  return out;
}

// The row's value in the file's terms, and back. A value that is not given leaves the member.
Value value_of(const Row& row, const void* thing);
void set_value(const Row& row, void* thing, const Value& value);
// The radians of a degree figure read back the same: the fewest digits that do.
double degrees_of(double radians);

inline bool means_something(const Row& row, const void* thing) {
  return !row.when || row.when(thing);
}
inline bool has_table(const Row& row) {
  return row.table != nullptr;
}

}  // namespace hummock::grammar
