#include "engine/leap/leap.h"

#include "engine/leap/search/leap_solver.h"

namespace hummock::leap {

Result analyse(const Model& model, const Settings& settings, const Progress& progress) {
  return LeapSolver(model, settings, progress).result();
}

namespace {

// Maps tell what was reached: what would mend it, the half of the work, is not asked.
Settings for_maps(Settings settings) {
  settings.remedies = false;
  return settings;
}

}  // namespace

geom::Raster ground_required_leap(const Model& model, const Settings& settings,
                                  const Progress& progress) {
  return LeapSolver(model, for_maps(settings), progress).ground_required_leap(model);
}

std::map<std::string, std::vector<float>> surface_required_leap(const Model& model,
                                                                const Settings& settings,
                                                                const Progress& progress) {
  return LeapSolver(model, for_maps(settings), progress).surface_required_leap(model);
}

const char* to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::clear:
      return "clear";
    case Verdict::tight:
      return "tight";
    case Verdict::a_way_out:
      return "a way out";
    case Verdict::cannot_be_reached:
      return "cannot be gained";
  }
  return "";
}

const char* to_string(StepKind kind) {
  switch (kind) {
    case StepKind::walk:
      return "walk";
    case StepKind::climb:
      return "climb";
    case StepKind::leap:
      return "leap";
  }
  return "";
}

}  // namespace hummock::leap
