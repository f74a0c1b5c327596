// Fields made from the rows of the grammar: one for each key that means something, with its unit,
// its range, its meaning as tip; what the file's reader would refuse is refused here in its words.
#include <algorithm>
#include <cctype>
#include <cmath>

#include "engine/grammar/help.h"
#include "engine/grammar/read_table.h"
#include "engine/grammar/write_table.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"

namespace hummock::viewer {
namespace {

using grammar::Kind;
using grammar::Row;
using grammar::Table;
using grammar::Value;

// The key in words: Joint gap.
std::string label_of(const Row& row) {
  std::string out = row.key;
  std::replace(out.begin(), out.end(), '_', ' ');
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  return out;
}

std::string tip_of(const Row& row, const Table& table) {
  std::string out = meaning_of(row) + "\n" + allowed_of(row);
  if (!unit_of(row).empty()) out += " " + unit_of(row);
  const std::string absent = default_of(row, table);
  return out + (absent == "needed" ? "; needed" : "; else " + absent);
}

bool is_number(const Row& row) {
  return row.kind == Kind::length || row.kind == Kind::angle || row.kind == Kind::share ||
         row.kind == Kind::number;
}

struct Fields {
  Session& session;
  grammar::Source source;
  std::string name;  // for the field's mark
  std::string path;  // of the table in the file
  RowsEdit edit{};
};

// Beside its label, as wide as there is room; the tip is of the row.
void put_label(const Row& row, const Table& table) {
  const float width = ImGui::GetContentRegionAvail().x;
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(label_of(row).c_str());
  tip(tip_of(row, table).c_str());
  ImGui::SameLine(width * 0.46F);
  ImGui::SetNextItemWidth(width * 0.54F);
}

void end_field(Fields& at, const Row& row, const Table& table) {
  mark_item(at.session, (at.name + " " + row.key).c_str());
  if (!ImGui::IsItemActive()) tip(tip_of(row, table).c_str());
  const auto refused = at.session.refusals.find(at.path + "." + row.key);
  if (refused == at.session.refusals.end()) return;
  ImGui::PushTextWrapPos(0.0F);
  toned(tone::short_of(), refused->second.c_str());
  ImGui::PopTextWrapPos();
}

// Takes what was typed if the reader would; else keeps what it would say. Returns whether taken.
bool take(Fields& at, const Row& row, void* thing, const std::string& text) {
  const std::string field = at.path + "." + row.key;
  try {
    set_value(row, thing, grammar::value_from(row, text, at.source));
  } catch (const InputError& error) {
    at.session.refusals[field] = "found " + error.found() + ", allowed " + error.allowed();
    return false;
  }
  at.session.refusals.erase(field);
  return true;
}

std::string format_of(const Row& row) {
  const double step = row.step > 0.0 ? row.step : row.kind == Kind::angle ? 0.1 : 0.001;
  const int digits = std::clamp(static_cast<int>(std::lround(-std::log10(step))), 0, 7);
  std::string unit = row.range.unit;
  unit = unit.rfind("degrees", 0) == 0 ? "°" : " " + unit.substr(0, unit.find(' '));
  return "%." + std::to_string(digits) + "f" + unit;
}

float speed_of(const Row& row) {
  if (row.kind == Kind::angle) return 0.5F;
  return row.step > 0.0 ? static_cast<float>(row.step * 10.0) : 0.01F;
}

void number_of(Fields& at, const Row& row, const Table& table, void* thing, double shown) {
  put_label(row, table);
  double typed = shown;
  const bool changed = ImGui::DragScalar("##value", ImGuiDataType_Double, &typed, speed_of(row),
                                         nullptr, nullptr, format_of(row).c_str());
  if (changed) at.edit.moving |= take(at, row, thing, toml_number(typed));
  at.edit.done |= ImGui::IsItemDeactivatedAfterEdit();
  end_field(at, row, table);
}

void whole_of(Fields& at, const Row& row, const Table& table, void* thing, int shown) {
  put_label(row, table);
  int typed = shown;
  if (ImGui::InputInt("##value", &typed, 1, 10)) {
    at.edit.done |= take(at, row, thing, toml_integer(typed));
  }
  end_field(at, row, table);
}

void flag_of(Fields& at, const Row& row, const Table& table, void* thing, bool shown) {
  bool on = shown;
  if (ImGui::Checkbox(label_of(row).c_str(), &on)) {
    set_value(row, thing, on);
    at.edit.done = true;
  }
  end_field(at, row, table);
}

void choice_of(Fields& at, const Row& row, const Table& table, void* thing, const Value& value) {
  put_label(row, table);
  const bool given = grammar::given(value);
  const std::string now = given ? std::get<std::string>(value) : default_of(row, table);
  if (ImGui::BeginCombo("##value", now.c_str())) {
    for (const std::string& word : row.words) {
      if (!ImGui::Selectable(word.c_str(), given && word == now)) continue;
      set_value(row, thing, word);
      at.edit.done = true;
    }
    ImGui::EndCombo();
  }
  end_field(at, row, table);
}

bool is_quoted(const Row& row) {
  return row.kind == Kind::text || row.kind == Kind::name || row.kind == Kind::file;
}

// Texts as they are; lists and places as the file spells them.
void spelled_of(Fields& at, const Row& row, const Table& table, void* thing, const Value& value) {
  const grammar::Style style{grammar::Digits::to_hand, at.source.folder};
  std::string shown = grammar::given(value) ? spelled(row, value, style) : "";
  if (is_quoted(row) && row.kind != Kind::file && grammar::given(value)) {
    shown = std::get<std::string>(value);
  } else if (is_quoted(row) && shown.size() > 1) {
    shown = shown.substr(1, shown.size() - 2);
  }
  put_label(row, table);
  std::vector<char> typed(std::max<std::size_t>(4096, shown.size() * 2), '\0');
  std::copy(shown.begin(), shown.end(), typed.begin());
  ImGui::InputTextWithHint("##value", default_of(row, table).c_str(), typed.data(), typed.size());
  if (ImGui::IsItemDeactivatedAfterEdit() && typed.data() != shown) {
    const std::string text(typed.data());
    if (text.empty() && !row.needed) {
      at.edit.take_out = row.key;
      at.edit.table = at.path;
    } else {
      at.edit.done |= take(at, row, thing, is_quoted(row) ? toml_text(text) : text);
    }
  }
  end_field(at, row, table);
}

// A value to begin with, when a key is given that was not.
std::string first_value(const Row& row) {
  const double low = row.range.above_lo ? std::min(1.0, row.range.hi) : row.range.lo;
  const double plain = std::clamp(0.0, low, row.range.hi);
  return toml_number(plain);
}

// A number that need not be there: a box to give it or to take it out.
void optional_number(Fields& at, const Row& row, const Table& table, void* thing,
                     const Value& value) {
  bool on = grammar::given(value);
  if (ImGui::Checkbox("##given", &on)) {
    if (on) {
      at.edit.done |= take(at, row, thing, first_value(row));
    } else {
      at.edit.take_out = row.key;
      at.edit.table = at.path;
    }
  }
  tip("Whether it is given");
  ImGui::SameLine();
  if (grammar::given(value)) {
    number_of(at, row, table, thing, std::get<double>(value));
  } else {
    soft_text((label_of(row) + ": " + default_of(row, table)).c_str());
    tip(tip_of(row, table).c_str());
  }
}

void one_field(Fields& at, const Row& row, const Table& table, void* thing) {
  const Value value = value_of(row, thing);
  const bool may_be_absent = !row.needed && !row.absent.empty();
  if (is_number(row) && may_be_absent) {
    const bool shown = !(value == value_of(row, table.make().get()));
    optional_number(at, row, table, thing, shown ? value : Value());
  } else if (is_number(row)) {
    number_of(at, row, table, thing, grammar::given(value) ? std::get<double>(value) : 0.0);
  } else if (row.kind == Kind::count && grammar::given(value)) {
    whole_of(at, row, table, thing, std::get<int>(value));
  } else if (row.kind == Kind::flag && grammar::given(value)) {
    flag_of(at, row, table, thing, std::get<bool>(value));
  } else if (row.kind == Kind::choice) {
    choice_of(at, row, table, thing, value);
  } else {
    spelled_of(at, row, table, thing, value);
  }
}

void all_fields(Fields& at, const Table& table, void* thing);

// A table inside: a box to have it, then its fields.
void table_field(Fields& at, const Row& row, const Table& table, void* thing) {
  bool on = row.children.count(thing) > 0;
  if (ImGui::Checkbox(label_of(row).c_str(), &on)) {
    if (on) {
      begin_with(row.table(), row.children.add(thing));
      at.edit.done = true;
    } else {
      at.edit.take_out = row.key;
      at.edit.table = at.path;
    }
  }
  end_field(at, row, table);
  if (row.children.count(thing) == 0 || !on) return;
  const std::string name = at.name, path = at.path;
  at.name += " " + row.key;
  at.path = path.empty() ? row.key : path + "." + row.key;
  ImGui::Indent();
  all_fields(at, row.table(), row.children.at(thing, 0));
  ImGui::Unindent();
  at.name = name;
  at.path = path;
}

// One of a list inside: its fields, and a button to take it out. False when it was.
bool list_entry(Fields& at, const Row& row, void* thing, std::size_t k) {
  const std::string name = at.name, path = at.path;
  at.name += " " + row.key + " " + std::to_string(k + 1);
  at.path += "." + row.key + "[" + std::to_string(k) + "]";
  ImGui::Indent();
  soft_text((label_of(row) + " " + std::to_string(k + 1)).c_str());
  ImGui::SameLine();
  const bool out = ImGui::SmallButton("Take out");
  mark_item(at.session, (at.name + " take out").c_str());
  if (!out) all_fields(at, row.table(), row.children.at(thing, k));
  ImGui::Unindent();
  at.name = name;
  at.path = path;
  if (!out) return true;
  row.children.take_out(thing, k);
  at.edit.done = true;
  return false;
}

// A list of tables inside: each with its fields, and a button to add one.
void list_field(Fields& at, const Row& row, const Table& table, void* thing) {
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(label_of(row).c_str());
  tip(tip_of(row, table).c_str());
  ImGui::SameLine();
  if (ImGui::SmallButton("Add")) {
    begin_with(row.table(), row.children.add(thing));
    at.edit.done = true;
  }
  end_field(at, row, table);
  for (std::size_t k = 0; k < row.children.count(thing); ++k) {
    ImGui::PushID(static_cast<int>(k));
    const bool stays = list_entry(at, row, thing, k);
    ImGui::PopID();
    if (!stays) return;
  }
}

void all_fields(Fields& at, const Table& table, void* thing) {
  std::string group;
  for (const Row& row : table.rows) {
    if (!means_something(row, thing)) continue;
    if (row.kind == Kind::figure || (row.kind == Kind::tables && !row.children.take_out)) continue;
    if (!row.group.empty() && row.group != group) soft_text(row.group.c_str());
    group = row.group;
    ImGui::PushID(row.key.c_str());
    if (row.kind == Kind::table)
      table_field(at, row, table, thing);
    else if (row.kind == Kind::tables)
      list_field(at, row, table, thing);
    else
      one_field(at, row, table, thing);
    ImGui::PopID();
  }
}

}  // namespace

void begin_with(const Table& table, void* thing) {
  for (const Row& row : table.rows) {
    if (!row.needed || !means_something(row, thing)) continue;
    if (is_number(row)) set_value(row, thing, std::stod(first_value(row)));
    if (row.kind == Kind::size) set_value(row, thing, grammar::Numbers{1.0, 1.0, 1.0});
  }
}

RowsEdit row_fields(Session& s, const Table& table, void* thing, const std::string& path,
                    const std::string& name) {
  Fields at{s, {s.document.file().parent_path()}, name, path};
  ImGui::PushID(path.c_str());
  all_fields(at, table, thing);
  ImGui::PopID();
  return at.edit;
}

}  // namespace hummock::viewer
