// hummock report and hummock compare.
#include <fmt/core.h>

#include <memory>

#include "engine/base/replace_folder.h"
#include "engine/check/check.h"
#include "engine/check/findings.h"
#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/report/report.h"

namespace hummock::cli {
namespace {

struct ReportFlags {
  std::string site;
  std::string other;
  std::string folder;
  std::string date;
  std::vector<std::string> only;
  bool one_day = false;
  BuildFlags build;
};

foresight::Asked asked_of(const ReportFlags& flags, foresight::Work work) {
  foresight::Asked asked;
  asked.work = work;
  asked.only = {flags.only.begin(), flags.only.end()};
  return asked;
}

CheckOptions check_options(const ReportFlags& flags) {
  CheckOptions options;
  options.only = {flags.only.begin(), flags.only.end()};
  if (!flags.date.empty()) options.date = sun::parse_date(flags.date, {"", 0, "--date"});
  return options;
}

int report(const ReportFlags& flags) {
  const CheckOptions options = check_options(flags);
  const foresight::Asked asked = asked_of(flags, foresight::Work::report);
  if (flags.build.foresee) return tell_foreseen(flags.site, asked);
  refuse_no_folder(flags.folder);
  const TerminalProgress terminal;
  const Model model = load(flags.site, flags.build, asked, terminal.progress());
  const CheckResults results = run_check(model, options, terminal.progress());
  report::Settings settings;
  settings.season_days = !flags.one_day;
  const auto written =
      report::write(flags.folder, model, results, options, settings, terminal.progress());
  fmt::print("{}\n{}: {} files, report.html first\n", verdict_sentence(model, results),
             flags.folder, written.files.size());
  return kAllMet;
}

int compare(const ReportFlags& flags) {
  const CheckOptions options = check_options(flags);
  const foresight::Asked asked = asked_of(flags, foresight::Work::check);
  if (flags.build.foresee) return tell_foreseen(flags.other, asked);
  const TerminalProgress terminal;
  const Model a = load(flags.site, flags.build, asked, terminal.progress());
  const Model b = load(flags.other, flags.build, asked, terminal.progress());
  const CheckResults results_a = run_check(a, options, terminal.progress());
  const CheckResults results_b = run_check(b, options, terminal.progress());
  fmt::print("{}", report::comparison_text(a, results_a, b, results_b));
  if (!flags.folder.empty()) {
    const auto written =
        report::write_comparison(flags.folder, a, results_a, b, results_b, terminal.progress());
    fmt::print("{}: {} files\n", flags.folder, written.files.size());
  }
  return kAllMet;
}

void add_shared(Command& command, ReportFlags& flags) {
  command.text("--date", flags.date, "day for the sun, YYYY-MM-DD");
  command.texts("--only", flags.only, "analyses to run, separated by commas");
  flags.build.add_to(command);
}

}  // namespace

void add_report(CommandLine& line) {
  auto flags = std::make_shared<ReportFlags>();
  Command command = line.command("report", "write the report into a folder");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.required("-o,--out", flags->folder, "folder");
  command.flag("--one-day", flags->one_day, "leave out the four season days of sun");
  add_shared(command, *flags);
  command.runs([flags] { return report(*flags); });
}

void add_compare(CommandLine& line) {
  auto flags = std::make_shared<ReportFlags>();
  Command command = line.command("compare", "what changed between two designs");
  command.required("A", flags->site, "the earlier NAME.site.toml");
  command.required("B", flags->other, "the later one");
  command.text("-o,--out", flags->folder, "also write the comparison into this folder");
  add_shared(command, *flags);
  command.runs([flags] { return compare(*flags); });
}

}  // namespace hummock::cli
