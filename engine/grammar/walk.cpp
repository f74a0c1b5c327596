#include "engine/grammar/walk.h"

#include <sstream>

namespace hummock::grammar {
namespace {

void shift_place(const Row& row, void* thing, Vec2 by) {
  Value value = value_of(row, thing);
  if (auto* p = std::get_if<Vec2>(&value)) *p = *p - by;
  if (auto* list = std::get_if<Points>(&value)) {
    for (Vec2& p : *list) p = p - by;
  }
  set_value(row, thing, value);
}

[[noreturn]] void refuse_key(const Table& table, const std::string& path, const std::string& key) {
  Words keys;
  std::string all;
  for (const Row& row : table.rows) {
    keys.push_back(row.key);
    all += (all.empty() ? "one of " : ", ") + row.key;
  }
  const auto near = nearest_word(key, keys);
  throw InputError({"", 0, path}, "an unknown key",
                   near ? "\"" + *near + "\" (did you mean that?)" : all);
}

}  // namespace

void for_each_row(const Table& table, void* thing,
                  const std::function<void(const Row&, void*)>& each) {
  for (const Row& row : table.rows) {
    if (!means_something(row, thing)) continue;
    if (!has_table(row)) {
      each(row, thing);
      continue;
    }
    for (std::size_t i = 0; i < row.children.count(thing); ++i) {
      for_each_row(row.table(), row.children.at(thing, i), each);
    }
  }
}

void shift_places(const Table& table, void* thing, Vec2 by) {
  for_each_row(table, thing, [by](const Row& row, void* in) {
    const bool place =
        row.kind == Kind::point || row.kind == Kind::path || row.kind == Kind::outline;
    if (place) shift_place(row, in, by);
  });
}

Named named(const Table& top, const std::string& path) {
  Named out{&top};
  std::istringstream parts(path);
  for (std::string part; std::getline(parts, part, '.');) {
    const std::string key = part.substr(0, part.find('['));
    if (out.row != nullptr) throw InputError({"", 0, path}, "a key inside a key", "a table's key");
    const Row* row = out.table->find(key);
    if (row == nullptr) refuse_key(*out.table, path, key);
    if (has_table(*row)) {
      out.table = &row->table();
      out.list = row->kind == Kind::tables;
    } else {
      out.row = row;
    }
  }
  return out;
}

}  // namespace hummock::grammar
