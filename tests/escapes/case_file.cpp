#include "tests/escapes/case_file.h"

#include <algorithm>
#include <functional>
#include <map>
#include <sstream>
#include <stdexcept>

#include "engine/toml/toml_tree.h"

namespace hummock::escapes {
namespace {

namespace fs = std::filesystem;
const fs::path kFolder = HUMMOCK_ESCAPES;

using Read = std::function<void(const TomlNode&)>;

[[noreturn]] void wrong(const std::string& what) {
  throw std::runtime_error(what);
}

// Every key of the table goes to its reader; a key without one is an error.
void read_table(const TomlNode& table, const std::map<std::string, Read>& readers) {
  for (std::size_t k = 0; k < table.keys.size(); ++k) {
    const auto reader = readers.find(table.keys[k]);
    if (reader == readers.end()) wrong("unknown key '" + table.keys[k] + "'");
    reader->second(table.items[k]);
  }
}

Read into(std::string& to) {
  return [&to](const TomlNode& n) { to = n.text; };
}
Read into(bool& to) {
  return [&to](const TomlNode& n) { to = n.flag; };
}
Read into(double& to) {
  return [&to](const TomlNode& n) { to = n.number; };
}
Read into(std::optional<double>& to) {
  return [&to](const TomlNode& n) { to = n.number; };
}
Read into(std::vector<int>& to) {
  return [&to](const TomlNode& n) {
    for (const TomlNode& item : n.items) to.push_back(static_cast<int>(item.integer));
  };
}

// One text, or a list of them.
Read into(std::vector<std::string>& to) {
  return [&to](const TomlNode& n) {
    if (n.kind == TomlNode::Kind::text) to.push_back(n.text);
    for (const TomlNode& item : n.items) {
      const bool flag = item.kind == TomlNode::Kind::flag;
      to.push_back(flag ? (item.flag ? "true" : "false") : item.text);
    }
  };
}

template <std::size_t N>
std::array<double, N> numbers(const TomlNode& n) {
  if (n.items.size() != N) wrong("a list of another length");
  std::array<double, N> out{};
  std::transform(n.items.begin(), n.items.end(), out.begin(),
                 [](const TomlNode& item) { return item.number; });
  return out;
}

template <class Item>
Read each(std::vector<Item>& to, Item (*read)(const TomlNode&)) {
  return [&to, read](const TomlNode& n) {
    for (const TomlNode& item : n.items) to.push_back(read(item));
  };
}

Expectation expectation(const TomlNode& table) {
  Expectation e;
  read_table(table, {{"at", into(e.at)},
                     {"of", into(e.of)},
                     {"may_be_absent", into(e.may_be_absent)},
                     {"at_least", into(e.at_least)},
                     {"at_most", into(e.at_most)},
                     {"one_of", into(e.one_of)},
                     {"row", into(e.row)},
                     {"standing", into(e.standing)},
                     {"says", into(e.says)},
                     {"never_says", into(e.never_says)},
                     {"or_says", into(e.or_says)},
                     {"no_pair", into(e.no_pair)},
                     {"below", [&e](const TomlNode& n) { e.below = numbers<2>(n); }}});
  const int set = static_cast<int>(!e.at.empty()) + static_cast<int>(!e.row.empty()) +
                  static_cast<int>(!e.says.empty()) + static_cast<int>(!e.never_says.empty()) +
                  static_cast<int>(!e.no_pair.empty());
  if (set != 1) wrong("an expectation needs one of at, row, says, never_says, no_pair");
  if (!e.at.empty() && !e.at_least && !e.at_most && e.one_of.empty()) wrong("'at' without limit");
  if (!e.row.empty() && e.standing.empty()) wrong("'row' without 'standing'");
  return e;
}

RemedyTrial remedy(const TomlNode& table) {
  RemedyTrial r;
  read_table(table, {{"thing", into(r.thing)},
                     {"margin_at_least", into(r.margin_at_least)},
                     {"off", each<std::array<double, 4>>(r.off, numbers<4>)},
                     {"within", [&r](const TomlNode& n) { r.within = numbers<4>(n); }}});
  return r;
}

MeshTop mesh_top(const TomlNode& table) {
  MeshTop m;
  read_table(
      table,
      {{"part", into(m.part)}, {"at_least", into(m.at_least)}, {"at_most", into(m.at_most)}});
  return m;
}

CheckRun check_run(const TomlNode& table) {
  CheckRun r;
  read_table(table, {{"only", into(r.only)},
                     {"flags", into(r.flags)},
                     {"status", into(r.status)},
                     {"refused", into(r.refused)},
                     {"may_be_refused", into(r.may_be_refused)},
                     {"seconds", into(r.seconds)},
                     {"expect", each<Expectation>(r.expect, expectation)},
                     {"remedy", each<RemedyTrial>(r.remedies, remedy)},
                     {"mesh", [&r](const TomlNode& n) { r.mesh = mesh_top(n); }}});
  if (r.refused.empty() && r.expect.empty() && r.remedies.empty() && !r.mesh) {
    wrong("a run that expects nothing");
  }
  return r;
}

fs::path site_in(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.size() > 10 && name.substr(name.size() - 10) == ".site.toml") return entry.path();
  }
  wrong("no site file");
}

void fill(Case& c, const fs::path& file) {
  const TomlNode top = parse_toml(read_text_file(file.string(), "case"), file.string());
  read_table(top, {{"hard", into(c.hard)},
                   {"before", into(c.before)},
                   {"truth", into(c.truth)},
                   {"known", into(c.known)},
                   {"run", each<CheckRun>(c.runs, check_run)}});
  for (const std::string* needed : {&c.hard, &c.before, &c.truth, &c.known}) {
    if (needed->empty()) wrong("hard, before, truth and known are all needed");
  }
  if (c.runs.empty()) wrong("no [[run]]");
}

}  // namespace

Case read_case(const fs::path& folder) {
  Case c;
  c.folder = folder;
  c.name = folder.filename().string();
  try {
    c.site = site_in(folder);
    fill(c, folder / "case.toml");
  } catch (const std::exception& e) {
    throw std::runtime_error(c.name + "/case.toml: " + e.what());
  }
  return c;
}

std::vector<std::string> case_names() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolder / "cases")) {
    if (entry.is_directory()) names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> open_cases() {
  std::vector<std::string> names;
  std::istringstream lines(read_text_file((kFolder / "open.txt").string(), "list"));
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty() && line.front() != '#') names.push_back(line);
  }
  return names;
}

}  // namespace hummock::escapes
