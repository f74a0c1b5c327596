#include "engine/check/figures.h"

#include "engine/check/analyses.h"

namespace hummock {

Figures figures_of(const CheckResults& results, const Model& model) {
  Figures figures;
  for (const Analysis& a : analyses()) {
    if (a.there(results)) a.add_figures(results, model, figures);
  }
  return figures;
}

}  // namespace hummock
