// hummock check: the whole check, as a table and as JSON.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <memory>

#include "engine/base/json_text.h"
#include "engine/brief/told.h"
#include "engine/check/catalogue.h"
#include "engine/check/check.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"

namespace hummock::cli {
namespace {

struct CheckFlags {
  std::string site;
  std::string json;
  std::vector<std::string> only;
  std::string date;
  double step = 10.0;
  double resolution = 0.05;
  bool times = false;
  BuildFlags build;
};

// Letters, not bytes.
std::size_t wide(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

struct Line {
  std::string standing, title, value, required, margin, where;
};

std::string margin_words(const BriefRow& row) {
  if (!row.margin) return "";
  const FigureInfo* figure = figure_info(row.what);
  return fmt::format("{:+.{}f}", *row.margin, figure == nullptr ? 2 : figure->decimals);
}

Line line_of(const BriefRow& row) {
  Line line{in_words(row.standing),     (row.in_set() ? "  " : "") + title_of(row, figure_info),
            value_of(row, figure_info), limit_of(row, figure_info),
            margin_words(row),          row.where};
  const bool why = row.standing == Standing::not_checked || row.standing == Standing::waived ||
                   row.standing == Standing::not_asked || row.kind == RowKind::ask;
  if (why) line.where = row.why;
  return line;
}

// What is in the way first.
int rank(const BriefRow& row) {
  switch (row.standing) {
    case Standing::short_of:
      return 0;
    case Standing::open:
    case Standing::not_checked:
      return 1;
    case Standing::met_if:
    case Standing::met_as_drawn:
      return 2;
    case Standing::waived:
    case Standing::met:
    case Standing::not_asked:
      return 3;
  }
  return 4;
}

// The rows of an either's sets behind it.
std::vector<const BriefRow*> with_sets(const std::vector<BriefRow>& rows,
                                       const std::vector<const BriefRow*>& order) {
  std::vector<const BriefRow*> out;
  for (const BriefRow* row : order) {
    out.push_back(row);
    for (const SetStanding& set : row->sets)
      for (const std::size_t i : set.rows) out.push_back(&rows[i]);
  }
  return out;
}

void print_brief(const std::vector<BriefRow>& rows) {
  std::vector<const BriefRow*> order;
  for (const BriefRow& row : rows) {
    if (row.not_run != NotRun::not_asked && !row.in_set()) order.push_back(&row);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const BriefRow* a, const BriefRow* b) { return rank(*a) < rank(*b); });
  order = with_sets(rows, order);
  std::size_t title = 4, value = 4, required = 4;
  for (const BriefRow* row : order) {
    const Line line = line_of(*row);
    title = std::max(title, wide(line.title));
    value = std::max(value, wide(line.value));
    required = std::max(required, wide(line.required));
  }
  for (const BriefRow* row : order) {
    const Line line = line_of(*row);
    fmt::print("  {:<12} {:<{}}  {:>{}}  {:<{}} {:>8}  {}\n", line.standing, line.title, title,
               line.value, value, line.required, required, line.margin, line.where);
    for (const std::string& more : more_of(*row, rows, figure_info))
      fmt::print("  {:<12}   {}\n", "", more);
    for (const Assumption& a : row->ifs) {
      // The key is what a keeper confirms.
      fmt::print(
          "  {:<12}   {} {} [{}]{}\n", "", "if", a.words, a.key,
          a.confirmed() ? " (confirmed by " + a.confirmed_by + ", " + a.confirmed_on + ")" : "");
    }
  }
}

void print_findings(const std::vector<Finding>& list) {
  int n = 0;
  for (const Finding& f : list) {
    fmt::print("  {:>2}. [{}] {}{}\n", ++n, to_string(f.weight), f.text,
               f.to_do.empty() ? "" : " → " + f.to_do);
  }
}

void print_result(const Model& model, const CheckResults& results, double build_seconds,
                  bool times) {
  fmt::print("{}: {} × {}\n", model.site.name, model.site.animals, model.site.species.name);
  fmt::print("{}\n\n", verdict_sentence(model, results));
  if (!results.brief.empty()) fmt::print("The brief\n");
  print_brief(results.brief);
  const auto list = findings(model, results);
  if (!list.empty()) fmt::print("\nFindings\n");
  print_findings(list);
  if (times) {
    fmt::print("\nSeconds: model {:.2f}", build_seconds);
    for (const auto& [name, seconds] : results.seconds) fmt::print(", {} {:.2f}", name, seconds);
    fmt::print("\n");
  }
  fmt::print("\n");
  for (const std::string& line : cautions()) fmt::print("{}\n", line);
}

int check(const CheckFlags& flags) {
  CheckOptions options;
  options.only = {flags.only.begin(), flags.only.end()};
  if (!flags.date.empty()) options.date = sun::parse_date(flags.date, {"", 0, "--date"});
  options.shade_step_minutes = flags.step;
  options.leap.resolution = flags.resolution;

  foresight::Asked asked;
  asked.only = options.only;
  asked.step_minutes = flags.step;
  if (flags.build.foresee) return tell_foreseen(flags.site, asked);
  const TerminalProgress terminal;
  const auto start = std::chrono::steady_clock::now();
  const Model model = load(flags.site, flags.build, asked, terminal.progress());
  const std::chrono::duration<double> built = std::chrono::steady_clock::now() - start;
  const CheckResults results = run_check(model, options, terminal.progress());
  if (flags.json != "-") print_result(model, results, built.count(), flags.times);
  if (!flags.json.empty()) save_or_print(flags.json, json_text(to_json(results, model)));
  return all_well(model, results) ? kAllMet : kSomethingShort;
}

}  // namespace

void add_check(CommandLine& line) {
  auto flags = std::make_shared<CheckFlags>();
  Command command = line.command(
      "check",
      "check a site against its brief (0 all met, 1 short, open, not checked or a way out, 2 bad "
      "input)");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.text("--json", flags->json, "also write all results as JSON (- = print only it)");
  command.texts("--only", flags->only, "analyses to run, separated by commas");
  command.text("--date", flags->date, "day for the sun, YYYY-MM-DD");
  command.number("--step", flags->step, {0.5, 120.0}, "minutes between sun positions");
  command.number("--resolution", flags->resolution, {0.005, 5.0}, "metres between leap samples");
  command.flag("--times", flags->times, "show how long each analysis took");
  flags->build.add_to(command);
  command.runs([flags] { return check(*flags); });
}

}  // namespace hummock::cli
