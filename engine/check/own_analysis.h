// The row of an analysis that nothing else reads by name and that has no settings of the command
// line's: everything follows from its own folder. `analyse` makes its result from the model;
// `about` says what it is; the rest is found by the type of the result:
//   figure_rows()                          needed, by the caller
//   to_json(result, model)                 needed
//   add_figures(result, model, figures)    needed
//   add_findings(result, model, list)      when a reviewer should look at something
//   layers(of), layer(result, name)        its map layers
//   look_at(result, model)                 where its figures are to be looked for
//   chapter(result, model)                 tables of the report, beside its figures
//   what_it_rests_on(result, model)        when its answer rests on what nobody has shown
#pragma once

#include <type_traits>
#include <utility>

#include "engine/check/analyses.h"
#include "engine/check/rests_on_body.h"

namespace hummock {

template <class T>
std::vector<Layer> layers_of(T (*analyse)(const Model&)) {
  std::vector<Layer> out;
  if constexpr (requires(const T& result) { layers(result); }) {
    for (const LayerInfo& info : layers(T())) {
      const auto make = [analyse, name = info.name](const Model& m, const EffectiveSettings&,
                                                    const Progress&) {
        return layer(analyse(m), name);
      };
      out.push_back({info, make});
    }
  }
  return out;
}

template <class T>
void add_faces(Analysis& a) {
  using R = CheckResults;
  a.make_place = [](R& r) { r.others.make_place<T>(); };
  a.there = [](const R& r) { return r.others.find<T>() != nullptr; };
  a.take_over = [](R& into, const R& from) { into.others.take_over<T>(from.others); };
  a.to_json = [](const R& r, const Model& m) { return to_json(*r.others.find<T>(), m); };
  a.add_figures = [](const R& r, const Model& m, Figures& f) {
    add_figures(*r.others.find<T>(), m, f);
  };
  a.add_findings = [](const R& r, const Model& m, FindingList& list) {
    if constexpr (requires(const T& t) { add_findings(t, m, list); })
      add_findings(*r.others.find<T>(), m, list);
  };
  a.look_at = [](const R& r, const Model& m) -> std::optional<LookAt> {
    if constexpr (requires(const T& t) { look_at(t, m); })
      return look_at(*r.others.find<T>(), m);
    else
      return std::nullopt;
  };
  a.chapter = [](const R& r, const Model& m) {
    if constexpr (requires(const T& t) { chapter(t, m); })
      return chapter(*r.others.find<T>(), m);
    else
      return PlainTables{};
  };
}

// `cannot`: why a site cannot be asked; nothing = every site can.
template <auto analyse>
Analysis own(AnalysisInfo about, const FigureRows& (*figures)(),
             std::optional<NotRun> (*cannot)(const Site&)) {
  using T = std::invoke_result_t<decltype(analyse), const Model&>;
  AnalysisWork work{.layers = layers_of<T>(analyse), .cannot = cannot, .figures = figures};
  work.run = [](const Model& m, CheckResults& r, const Progress&) { r.others.put(analyse(m)); };
  if constexpr (requires(const T& t, const Model& m) { what_it_rests_on(t, m); })
    work.rests_on = [](const Model& m, const CheckResults& r, const Progress&) {
      return what_it_rests_on(*r.others.find<T>(), m);
    };
  Analysis a{std::move(about), std::move(work)};
  add_faces<T>(a);
  return a;
}

// The same for an answer that rests on what the animal's body can do: worked out again for it.
template <auto analyse>
Analysis own_of_body(AnalysisInfo about, const FigureRows& (*figures)(),
                     std::optional<NotRun> (*cannot)(const Site&)) {
  using T = std::invoke_result_t<decltype(analyse), const Model&>;
  Analysis a = own<analyse>(std::move(about), figures, cannot);
  a.rests_on = [](const Model& m, const CheckResults& r, const Progress&) {
    const auto figures_in = [](const T& result, const Model& of) {
      Figures out;
      add_figures(result, of, out);
      return out;
    };
    const Figures found = figures_in(*r.others.find<T>(), m);
    return rests_on_body(m, analysis_of(found.begin()->first), found,
                         [&](const Model& c) { return figures_in(analyse(c), c); });
  };
  return a;
}

}  // namespace hummock
