// The page of all keys, from the same rows as the reader.
#include <sstream>

#include "engine/grammar/help.h"
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const char* const kHead = "| key | unit | allowed | default | meaning |\n|---|---|---|---|---|\n";

// A bar would end the cell.
std::string cell(std::string text) {
  for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2) {
    text.replace(at, 1, "\\|");
  }
  return text;
}

std::string line(const Row& row, const Table& table) {
  return "| `" + row.key + "` | " + cell(unit_of(row)) + " | " + cell(allowed_of(row)) + " | " +
         cell(default_of(row, table)) + " | " + cell(meaning_of(row)) + " |\n";
}

std::string rows(const Table& table) {
  std::string out;
  if (!table.note.empty()) out += table.note + "\n\n";
  out += kHead;
  for (const Row& row : table.rows) out += line(row, table);
  return out;
}

// A table that is written inside another: no heading of its own.
std::string inside(const Row& row) {
  std::string out = "\n`" + row.key + "`: " + row.table().title + "\n\n" + rows(row.table());
  for (const Row& inner : row.table().rows) {
    if (has_table(inner) && inner.kind != Kind::figure) out += inside(inner);
  }
  return out;
}

std::string section(const Row& row, const std::string& path, const std::string& hashes) {
  const bool list = row.kind == Kind::tables;
  const std::string name = list ? "[[" + path + "]]" : "[" + path + "]";
  std::string out =
      "\n" + hashes + " `" + name + "`: " + row.table().title + "\n\n" + rows(row.table());
  for (const Row& inner : row.table().rows) {
    if (!has_table(inner)) continue;
    const bool apart = !list && inner.kind == Kind::tables;
    out += apart ? section(inner, path + "." + inner.key, hashes + "#") : inside(inner);
  }
  return out;
}

std::string site_sections() {
  const Table& site = site_table();
  std::string out = "## Top of the file\n\n" + rows(site);
  for (const Row& row : site.rows) {
    if (has_table(row)) out += section(row, row.key, "##");
  }
  return out;
}

std::string species_section() {
  const Table& species = species_table();
  std::string out = rows(species);
  for (const Row& row : species.rows) {
    if (row.kind != Kind::figure) continue;
    out +=
        "\nEach figure is a table, or a list of such records of which one is marked as used:\n\n" +
        rows(row.table());
    break;
  }
  for (const Row& row : species.rows) {
    if (row.kind == Kind::table) out += inside(row);
  }
  return out;
}

}  // namespace

std::string page(const std::string& prose) {
  std::string out;
  std::istringstream lines(prose);
  for (std::string text; std::getline(lines, text);) {
    if (text == "{site}") {
      out += site_sections();
    } else if (text == "{brief}") {
      out += rows(brief_table());
    } else if (text == "{species}") {
      out += species_section();
    } else {
      out += text + "\n";
    }
  }
  return out;
}

}  // namespace hummock::grammar
