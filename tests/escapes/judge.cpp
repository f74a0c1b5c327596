#include "tests/escapes/judge.h"

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "tests/escapes/bounded_run.h"
#include "tests/escapes/remedy_trial.h"
#include "tests/support/run_program.h"

namespace hummock::escapes {
namespace {

using nlohmann::json;
using testing::ScratchFolder;

std::string quoted(const std::filesystem::path& path) {
  return "'" + path.string() + "'";
}

std::string only_flag(const CheckRun& run) {
  return run.only.empty() ? "" : " --only " + run.only;
}

bool refused_with(const Said& said, const std::string& words) {
  const bool one_line = std::count(said.err.begin(), said.err.end(), '\n') == 1;
  return said.status == 2 && one_line &&
         std::regex_search(said.err, std::regex(words, std::regex::icase));
}

// What is wrong with the way it ended, before any figure is looked at.
std::string ending_fault(const CheckRun& run, const Said& said) {
  if (said.status == kStopped) return "no answer in " + std::to_string(run.seconds) + " s";
  if (!run.status.empty() &&
      std::find(run.status.begin(), run.status.end(), said.status) == run.status.end()) {
    return "exit status " + std::to_string(said.status) + " " + said.err;
  }
  if (said.status != 0 && said.status != 1)
    return "ended with " + std::to_string(said.status) + ": " + said.err;
  return {};
}

double highest_vertex(const std::string& obj) {
  double top = -std::numeric_limits<double>::infinity();
  std::istringstream lines(obj);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string kind;
    double x = 0.0, y = 0.0, z = 0.0;
    if (words >> kind >> x >> y >> z && kind == "v") top = std::max(top, z);
  }
  return top;
}

std::string mesh_fault(const Case& escape, const MeshTop& mesh) {
  const ScratchFolder scratch;
  const Said said = bounded_run("export " + quoted(escape.site) + " -o " +
                                    quoted(scratch / "part.obj") + " --part '" + mesh.part + "'",
                                escape.folder, 60.0);
  if (said.status != 0) return "export ended with " + std::to_string(said.status) + ": " + said.err;
  const double top = highest_vertex(testing::text_of(scratch / "part.obj"));
  if (top >= mesh.at_least && top <= mesh.at_most) return {};
  return "the exported " + mesh.part + " reaches " + std::to_string(top) + " m, in truth " +
         std::to_string(mesh.at_least) + " to " + std::to_string(mesh.at_most);
}

void add(std::vector<std::string>& faults, const std::string& fault) {
  if (!fault.empty()) faults.push_back(fault);
}

void judge_run(const Case& escape, const CheckRun& run, std::vector<std::string>& faults) {
  const ScratchFolder scratch;
  const Said said = bounded_run("check " + quoted(escape.site) + only_flag(run) + " " + run.flags +
                                    " --json " + quoted(scratch / "all.json"),
                                escape.folder, run.seconds);
  if (!run.may_be_refused.empty() && refused_with(said, run.may_be_refused)) return;
  if (!run.refused.empty()) {
    if (!refused_with(said, run.refused)) {
      add(faults, "not refused in one line that says '" + run.refused + "': status " +
                      std::to_string(said.status) + " " + said.err);
    }
    return;
  }
  const std::string ending = ending_fault(run, said);
  add(faults, ending);
  const std::string text = testing::text_of(scratch / "all.json");
  if (text.empty()) return;
  const json results = json::parse(text);
  for (const Expectation& e : run.expect) add(faults, fault_of(e, results, said.out + said.err));
  for (const RemedyTrial& trial : run.remedies) add(faults, fault_of(escape, trial, results));
  if (run.mesh) add(faults, mesh_fault(escape, *run.mesh));
}

}  // namespace

std::vector<std::string> faults_of(const Case& escape) {
  std::vector<std::string> faults;
  for (const CheckRun& run : escape.runs) judge_run(escape, run, faults);
  return faults;
}

}  // namespace hummock::escapes
