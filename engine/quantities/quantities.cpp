#include "engine/quantities/quantities.h"

#include <fmt/format.h>

#include "engine/quantities/schedule_steps.h"

namespace hummock::quantities {

std::vector<Row> schedule(const Model& model) {
  std::vector<Row> rows;
  add_fence(model, rows);
  add_ground(model, rows);
  add_furniture(model, rows);
  return rows;
}

namespace {

std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    quoted += c;
    if (c == '"') quoted += '"';
  }
  return quoted + '"';
}

}  // namespace

std::string to_csv(const std::vector<Row>& rows) {
  std::string out = "item,where,amount,unit,note\r\n";
  for (const Row& r : rows)
    out += fmt::format("{},{},{:.{}f},{},{}\r\n", field(r.item), field(r.where), r.amount,
                       r.unit == "no." ? 0 : 3, field(r.unit), field(r.note));
  return out;
}

}  // namespace hummock::quantities
