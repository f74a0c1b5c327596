#include "engine/first_yard/design.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <sstream>

#include "engine/base/input_error.h"
#include "engine/check/catalogue.h"
#include "engine/check/findings.h"
#include "engine/first_yard/needs.h"
#include "engine/first_yard/plan.h"
#include "engine/site/read_site.h"

namespace hummock::first_yard {
namespace {

// Steps from one round to the next; numeric, settings.
constexpr double kRaise = 0.3;   // m
constexpr double kDeepen = 0.3;  // m
constexpr double kMore = 1.15;   // of areas and heights
constexpr double kFiner = 0.85;  // of the netting's aperture

bool begins(const std::string& text, const char* with) {
  return text.rfind(with, 0) == 0;
}

// Of one figure of the animal that a taller, deeper or finer fence may answer, or of one and
// another. (Plants or a house's walls alone are a person's to confirm, and where many things are
// taken at their careful ends together no fence of a sane height may help.)
bool is_of_the_animal(const Assumption& a) {
  if (std::count(a.key.begin(), a.key.end(), '+') > 1) return false;
  for (const char* key : {"leap_height", "leap_distance", "grip", "cling_leap", "reach",
                          "least_opening", "dig_depth", "dig_length"})
    if (a.key.find(key) != std::string::npos) return true;
  return false;
}

bool rests_on_the_animal(const BriefRow& row) {
  return row.standing == Standing::met_if &&
         std::any_of(row.ifs.begin(), row.ifs.end(), is_of_the_animal);
}

// What the rows ask of this species, so many of them.
struct Rows {
  const Species& species;
  int animals;
  // The row's value is above the most that is asked, not below the least.
  bool too_much(const BriefRow& row) const {
    const auto most = most_asked(species, row.what, animals);
    return most && row.value && *row.value > *most;
  }
};

void more_or_less(double& share, bool more) {
  share *= more ? kMore : 1.0 / kMore;
}

// Rows that are short for want, or too much, of a thing.
void mend_thing(const BriefRow& row, bool much, Tuning& t) {
  if (begins(row.what, "shade.sun")) more_or_less(t.shade, much);
  if (begins(row.what, "shade.hot")) more_or_less(t.shade, !much);
  if (begins(row.what, "sight.seen")) more_or_less(t.cover, much);
  if (begins(row.what, "sight.unseen")) more_or_less(t.cover, !much);
  if (row.what == "relief.flat_share")
    more_or_less(t.heap, much);
  else if (begins(row.what, "relief."))
    more_or_less(t.heap, !much);
  if (begins(row.what, "water.")) more_or_less(t.pool, !much);
  if (begins(row.what, "houses.")) more_or_less(t.house, !much);
  if (row.what.find("headroom") != std::string::npos) t.raise += kRaise;
}

// What takes ground needs more of it.
void mend_room(const BriefRow& row, bool much, Tuning& t) {
  const bool of_ground = begins(row.what, "space.") || begins(row.what, "shade.hot") ||
                         begins(row.what, "sight.unseen") || begins(row.what, "water.");
  if (of_ground && row.what.find("headroom") == std::string::npos) more_or_less(t.room, !much);
}

// Raises, deepens and makes finer once a round, however many rows and ways out ask for it.
struct Wants {
  bool taller = false, deeper = false, finer = false;
};

Wants wants_of(const CheckResults& results, const FindingList& list) {
  Wants wants;
  for (const BriefRow& row : results.brief) {
    if (row.standing != Standing::short_of && !rests_on_the_animal(row)) continue;
    wants.taller |= begins(row.what, "leap.");
    wants.taller |= begins(row.what, "entry.") && row.standing == Standing::met_if;
    wants.deeper |= begins(row.what, "dig.");
    wants.finer |= begins(row.what, "openings.");
  }
  for (const Finding& f : list) {
    if (f.weight != Severity::way_out) continue;
    wants.taller |= f.analysis == "leap";
    wants.deeper |= f.analysis == "dig";
  }
  return wants;
}

// Whether anything was changed.
bool mend(const CheckResults& results, const FindingList& list, const Rows& rows, bool sized,
          Tuning& t) {
  const Tuning before = t;
  const Wants wants = wants_of(results, list);
  if (wants.taller && !t.roofed) t.raise += kRaise;
  if (wants.deeper) t.deepen += kDeepen;
  if (wants.finer) t.mesh *= kFiner;
  for (const BriefRow& row : results.brief) {
    if (row.standing != Standing::short_of) continue;
    const bool much = rows.too_much(row);
    mend_thing(row, much, t);
    if (!sized) mend_room(row, much, t);
  }
  return before != t;
}

// The plan; a yard that must be roofed starts its walls anew.
Plan planned(const Species& species, const Asked& asked, Tuning& tuning) {
  const Plan plan = plan_of(species, asked, tuning);
  if (!plan.roofed || tuning.roofed) return plan;
  tuning.roofed = true;
  tuning.raise = 0.0;
  return plan_of(species, asked, tuning);
}

// A short row has a finding of its own, which begins with the figure's title.
bool is_of_a_row(const Finding& f, const std::vector<BriefRow>& rows) {
  return std::any_of(rows.begin(), rows.end(), [&](const BriefRow& row) {
    return row.standing == Standing::short_of && begins(f.text, figure_title(row.what).c_str());
  });
}

void put_findings(const FindingList& list, Designed& one) {
  for (const Finding& f : list) {
    if (f.weight == Severity::way_out) one.ways_out.push_back(f.text);
    if (f.weight == Severity::short_of && !is_of_a_row(f, one.results.brief))
      one.faults.push_back(f.text);
  }
}

// The fewer the better, from the first on.
using Faults = std::array<long, 4>;

Faults faults_of(const Designed& one) {
  Faults faults{static_cast<long>(one.ways_out.size()), static_cast<long>(one.faults.size()), 0, 0};
  for (const BriefRow& row : one.results.brief) {
    if (row.standing == Standing::short_of || row.standing == Standing::not_checked) ++faults[1];
    faults[2] += std::count_if(row.ifs.begin(), row.ifs.end(), is_of_the_animal);
    faults[3] += static_cast<long>(row.ifs.size());
  }
  return faults;
}

}  // namespace

void refuse_unsized(const Species& species, const Asked& asked, const Tuning& tuning) {
  const Plan plan = plan_of(species, asked, tuning);
  const auto outside = [](double side) { return !(side >= kShortestSide && side <= kLongestSide); };
  if (!outside(plan.w) && !outside(plan.h)) return;
  throw InputError({"", 0, asked.size ? "--size" : "--animals"},
                   asked.size ? fmt::format("{:g}x{:g}", plan.w, plan.h)
                              : fmt::format("{}, whose yard would be {:g} x {:g} m", asked.animals,
                                            plan.w, plan.h),
                   fmt::format("sides from {:g} to {:g} m", kShortestSide, kLongestSide));
}

Designed design(const Species& species, const Asked& asked, const std::filesystem::path& file,
                const CheckOptions& options, const Progress& progress) {
  Designed best;
  Tuning tuning;
  bool again = true;
  for (int round = 1; again && round <= kRounds; ++round) {
    refuse_unsized(species, asked, tuning);
    const Plan plan = planned(species, asked, tuning);
    Designed one;
    one.text = first_yard(species, asked, tuning);
    one.width = plan.w;
    one.depth = plan.h;
    const Model model = build_model(read_site_text(one.text, file), {}, progress);
    one.results = run_check(model, options, progress);
    const FindingList list = findings(model, one.results);
    put_findings(list, one);
    again = mend(one.results, list, {species, asked.animals}, asked.size.has_value(), tuning);
    if (round == 1 || faults_of(one) < faults_of(best)) best = std::move(one);
    best.rounds = round;
  }
  return best;
}

std::vector<std::string> left_open(const std::string& text) {
  const std::string mark = "# left open: ";
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    const std::size_t at = line.find(mark);
    if (at != std::string::npos) out.push_back(line.substr(at + mark.size()));
  }
  return out;
}

}  // namespace hummock::first_yard
