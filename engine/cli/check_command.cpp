// hummock check: the whole check, as a table and as JSON.
#include <fmt/core.h>

#include <chrono>
#include <cmath>
#include <memory>

#include "engine/check/check.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/finite_range.h"
#include "engine/cli/terminal.h"

namespace hummock::cli {
namespace {

struct Flags {
  std::string site;
  std::string json;
  std::vector<std::string> only;
  std::string date;
  double step = 10.0;
  double resolution = 0.05;
  bool times = false;
  BuildFlags build;
};

// Four figures, but no more decimals than a tape measures.
std::string number(const std::optional<double>& value) {
  if (!value) return "–";
  return std::abs(*value) < 5e-4 ? "0" : fmt::format("{:.4g}", *value);
}

std::string signed_number(const std::optional<double>& value) {
  return value ? fmt::format("{:+.4g}", *value) : "";
}

void print_brief(const std::vector<BriefRow>& rows) {
  std::size_t width = 4;
  std::size_t required = 4;
  for (const BriefRow& row : rows) {
    width = std::max(width, row.what.size());
    required = std::max(required, row.required.size());
  }
  for (const Met met : {Met::short_of, Met::met, Met::not_checked}) {
    for (const BriefRow& row : rows) {
      if (row.met != met) continue;
      fmt::print("  {:<11} {:<{}}  {:>9}  {:<{}} {:>9}  {}\n", to_string(row.met), row.what, width,
                 number(row.value), row.required, required, signed_number(row.margin),
                 row.met == Met::not_checked ? row.note : row.where);
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

// Met in full: what was asked for but could not be checked is not met.
bool all_well(const Model& model, const CheckResults& results) {
  for (const BriefRow& row : results.brief) {
    if (row.met == Met::not_checked && row.note != "not asked for") return false;
  }
  for (const Finding& f : findings(model, results)) {
    if (f.weight != Severity::look) return false;
  }
  return true;
}

int check(const Flags& flags) {
  CheckOptions options;
  options.only = {flags.only.begin(), flags.only.end()};
  if (!flags.date.empty()) options.date = sun::parse_date(flags.date, {"", 0, "--date"});
  options.shade_step_minutes = flags.step;
  options.leap.resolution = flags.resolution;

  const TerminalProgress terminal;
  const auto start = std::chrono::steady_clock::now();
  const Model model = load(flags.site, flags.build.options(), terminal.progress());
  const std::chrono::duration<double> built = std::chrono::steady_clock::now() - start;
  const CheckResults results = run_check(model, options, terminal.progress());
  if (flags.json != "-") print_result(model, results, built.count(), flags.times);
  if (!flags.json.empty())
    save_or_print(
        flags.json,
        to_json(results, model).dump(2, ' ', false, nlohmann::json::error_handler_t::replace) +
            "\n");
  return all_well(model, results) ? kAllMet : kSomethingShort;
}

}  // namespace

void add_check(CLI::App& app, Run& run) {
  auto flags = std::make_shared<Flags>();
  CLI::App* command = app.add_subcommand(
      "check", "check a site against its brief (0 all met, 1 short, 2 bad input)");
  command->add_option("SITE", flags->site, "NAME.site.toml")->required();
  command->add_option("--json", flags->json, "also write all results as JSON (- = print only it)");
  command->add_option("--only", flags->only, "analyses to run, separated by commas")
      ->delimiter(',');
  command->add_option("--date", flags->date, "day for the sun, YYYY-MM-DD");
  command->add_option("--step", flags->step, "minutes between sun positions")
      ->check(finite_range(0.5, 120.0));
  command->add_option("--resolution", flags->resolution, "metres between leap samples")
      ->check(finite_range(0.005, 5.0));
  command->add_flag("--times", flags->times, "show how long each analysis took");
  flags->build.add_to(*command);
  command->callback([flags, &run] { run = [flags] { return check(*flags); }; });
}

}  // namespace hummock::cli
