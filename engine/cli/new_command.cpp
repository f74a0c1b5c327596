// hummock new: a first site file to edit, or a first yard for a species.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <memory>
#include <sstream>

#include "engine/base/assets.h"
#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "engine/check/catalogue.h"
#include "engine/check/findings.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/first_yard/design.h"
#include "engine/site/read_site.h"
#include "engine/species/find_species.h"
#include "engine/toml/table_cursor.h"

namespace hummock::cli {
namespace {

struct NewFlags {
  std::string name;
  std::string species;
  std::optional<double> animals;
  std::string size;
  bool unchecked = false;
};

std::string starting_text(const std::string& name) {
  std::ifstream in(assets_folder() / "new.site.toml", std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  std::string filled = text.str();
  const std::string mark = "@NAME@";
  for (std::size_t at = 0; (at = filled.find(mark, at)) != std::string::npos; at += name.size()) {
    filled.replace(at, mark.size(), name);
  }
  return filled;
}

void refuse_bad_name(const std::string& name) {
  if (name.empty() || name.find_first_of("/\\\"\n\r\t") != std::string::npos) {
    throw InputError({"", 0, "NAME"}, "\"" + name + "\"", "a name without slashes or quotes");
  }
}

std::filesystem::path new_file(const std::string& name) {
  refuse_bad_name(name);
  std::filesystem::path path = name + ".site.toml";
  if (std::filesystem::exists(path)) {
    throw InputError({path.string(), 0, ""}, "a file that is already there",
                     "a name not yet taken in this folder");
  }
  return path;
}

int write_new(const std::string& name) {
  const std::filesystem::path path = new_file(name);
  save_bytes(path, starting_text(name));
  fmt::print("{}: edit it, then run hummock check {}\n", path.string(), path.string());
  return kAllMet;
}

void refuse_bad_species(const std::string& named) {
  const bool quoted = named.find_first_of("\\\"\n\r\t") != std::string::npos;
  if (!quoted && find_species(named, "")) return;
  const auto near = nearest_word(named, shipped_species());
  throw InputError({"", 0, "--species"}, "\"" + named + "\"",
                   (near ? "perhaps " + *near + "; " : "") + "a species file's path, or " +
                       shipped_species_in_words());
}

int whole_animals(const std::optional<double>& animals) {
  const double n = animals.value_or(1.0);
  if (n != std::floor(n)) {
    throw InputError({"", 0, "--animals"}, fmt::format("{:g}", n), "a whole number");
  }
  return static_cast<int>(n);
}

// "12x9", in metres.
geom::Vec2 size_of(const std::string& text) {
  std::istringstream in(text);
  geom::Vec2 size;
  char by = ' ';
  if (in >> size.x >> by >> size.y && (by == 'x' || by == 'X') && in.peek() == EOF) return size;
  throw InputError({"", 0, "--size"}, "\"" + text + "\"", "WIDTHxDEPTH in metres, as 12x9");
}

std::string row_line(const BriefRow& row) {
  const bool bounded = row.outcome == Outcome::bounded && row.value;
  std::string line =
      fmt::format("  {}: {} {}{}, {}", in_words(row.standing), figure_title(row.what),
                  bounded ? "≥ " : "", figure_words(row.what, row.value), row.required);
  const std::string& more = row.standing == Standing::not_checked ? row.why : row.where;
  if (row.standing != Standing::met_if && !more.empty()) line += " (" + more + ")";
  const char* joint = ": if ";
  for (const Assumption& a : row.ifs) {
    line += joint + a.words + " [" + a.key + "]";
    joint = "; and if ";
  }
  return line;
}

// What is in the way first, one line each; what is met without an if is counted.
void print_rows(const std::vector<BriefRow>& rows) {
  int met = 0;
  std::string ifs;
  for (const BriefRow& row : rows) {
    if (row.standing == Standing::met || row.standing == Standing::waived) {
      ++met;
    } else if (row.standing == Standing::met_if) {
      ifs += row_line(row) + "\n";
    } else {
      fmt::print("{}\n", row_line(row));
    }
  }
  fmt::print("{}  met: {} of {} rows\n", ifs, met, rows.size());
}

// A row that is only wished for counts as well.
bool nothing_short(const first_yard::Designed& yard) {
  const auto& rows = yard.results.brief;
  return yard.ways_out.empty() && yard.faults.empty() &&
         std::none_of(rows.begin(), rows.end(), [](const BriefRow& row) {
           return row.standing == Standing::short_of || row.standing == Standing::not_checked;
         });
}

void print_left_open(const std::string& text) {
  for (const std::string& line : first_yard::left_open(text)) fmt::print("left open: {}\n", line);
}

int told(const std::filesystem::path& path, const first_yard::Designed& yard) {
  for (const std::string& way : yard.ways_out) fmt::print("  way out: {}\n", way);
  for (const std::string& fault : yard.faults) fmt::print("  short: {}\n", fault);
  print_rows(yard.results.brief);
  print_left_open(yard.text);
  const bool well = nothing_short(yard);
  fmt::print("{}\n",
             well ? "No row is short and no way out was found; look at it and decide what is "
                    "left open."
                  : "This yard does not do yet: see what is short, not checked or a way out "
                    "above.");
  fmt::print("edit it, then run hummock check {}\n", path.string());
  for (const std::string& line : cautions()) fmt::print("{}\n", line);
  return well ? kAllMet : kSomethingShort;
}

int write_unchecked(const std::filesystem::path& path, const Species& species,
                    const first_yard::Asked& asked) {
  const std::string text = first_yard::first_yard(species, asked);
  read_site_text(text, path);
  save_bytes(path, text);
  fmt::print(
      "{}: not checked: its walls, footing and room are where the design begins, and nothing "
      "is known of ways out. Run hummock check {}\n",
      path.string(), path.string());
  print_left_open(text);
  return kSomethingShort;
}

int write_yard(const NewFlags& flags) {
  if (flags.species.empty()) {
    throw InputError({"", 0, "--species"}, "none", "a species, for --animals, --size, --unchecked");
  }
  refuse_bad_species(flags.species);
  first_yard::Asked asked{flags.name, flags.species, whole_animals(flags.animals), {}};
  if (!flags.size.empty()) asked.size = size_of(flags.size);
  const std::filesystem::path path = new_file(flags.name);
  const Species species = read_species(*find_species(flags.species, ""));
  first_yard::refuse_unsized(species, asked);
  if (flags.unchecked) return write_unchecked(path, species, asked);
  const TerminalProgress terminal;
  const first_yard::Designed yard =
      first_yard::design(species, asked, path, {}, terminal.progress());
  save_bytes(path, yard.text);
  fmt::print("{}: {} × {} on {:g} × {:g} m, drawn and checked {} times\n", path.string(),
             asked.animals, species.name, yard.width, yard.depth, yard.rounds);
  return told(path, yard);
}

}  // namespace

void add_new(CommandLine& line) {
  auto flags = std::make_shared<NewFlags>();
  Command command = line.command(
      "new",
      "write a first site file, NAME.site.toml; with --species a first yard for it, checked (0 "
      "nothing short, 1 short, not checked or a way out, 2 bad input)");
  command.required("NAME", flags->name, "name of the site and the file");
  command.text("--species", flags->species, "a shipped species, or a species file's path");
  command.number("--animals", flags->animals, {1.0, 100000.0}, "how many are kept");
  command.text("--size", flags->size, "WIDTHxDEPTH of the yard in metres, 12x9; else by the brief");
  command.flag("--unchecked", flags->unchecked, "only write the yard the design begins with");
  command.runs([flags] {
    const bool plain =
        flags->species.empty() && !flags->animals && flags->size.empty() && !flags->unchecked;
    return plain ? write_new(flags->name) : write_yard(*flags);
  });
}

}  // namespace hummock::cli
