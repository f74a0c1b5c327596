// What the engine has found out about the document, and for which revision.
//
// Asks the engine off the drawing thread and takes in its answers between frames. Four workers:
// one builds and checks the document; one paints map layers and shade curves; one answers live
// while something is being dragged; one works out the corner shade of the picture. Every answer
// carries the revision it belongs to, and the face says which figures are current. Nothing is
// computed here.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/check/check.h"
#include "engine/check/findings.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/model/model.h"
#include "viewer/scene/picking.h"
#include "viewer/scene/scene.h"
#include "viewer/work/worker.h"

namespace hummock::viewer {

// A model as drawn. Everything in it belongs together.
struct Built {
  std::uint64_t revision = 0;
  std::shared_ptr<const Site> site;  // as read, in its own coordinates
  std::shared_ptr<const Model> model;
  std::shared_ptr<const Scene> scene;
  std::shared_ptr<const Picker> picker;
};

struct Judged {
  std::uint64_t revision = 0;
  std::shared_ptr<const Model> model;
  CheckResults results;
  std::vector<Finding> findings;
  std::string verdict;
  std::set<std::string> stale;  // analyses whose figures are of before the change
};

struct Painted {
  std::uint64_t revision = 0;
  std::string layer;  // as asked
  std::string key;    // layer with its date and time: what exactly was asked
  geom::Raster raster;
};

// The answer while something is dragged.
struct Live {
  std::uint64_t serial = 0;          // of the proposal
  std::shared_ptr<const Site> site;  // as proposed
  std::shared_ptr<const Model> model;
  std::optional<leap::Result> leap;
  double seconds = 0.0;  // from taking the proposal up to the answer
};

struct LayerWish {
  std::string layer;
  std::string key;
  CheckOptions options;
  std::optional<sun::Position> sun;  // for shade at one time
};

class Study {
 public:
  explicit Study(Inbox& inbox) : inbox_(inbox) {}

  // Builds and checks the site. Cancels what was under way.
  void show(std::uint64_t revision, std::shared_ptr<const Site> site, const CheckOptions& options);
  // The document's text could not be read: nothing to ask, the model before stays.
  void cannot_read(std::uint64_t revision, std::string why);
  void paint(const LayerWish& wish);
  void shade_day(sun::Date date, double step_minutes);
  // A site that is not in the document yet. While one is being worked on the newest of those that
  // came since waits; none is cancelled half way, so a steady drag gets steady answers.
  // `object`: the only thing that differs from the document, or -1 for any other change. A moved
  // object is answered by a solver kept ready since the last check
  // (engine/leap/search/leap_solver.h).
  void propose(Site site, int object = -1);
  void end_proposals();

  const std::optional<Built>& built() const { return built_; }
  const std::optional<Judged>& judged() const { return judged_; }
  const std::optional<Painted>& painted() const { return painted_; }
  const std::optional<Live>& live() const { return live_; }
  const std::optional<shade::Day>& day() const { return day_; }
  std::uint64_t day_revision() const { return day_revision_; }
  // Why the newest text could not be built or checked; empty = it could. The model before is kept.
  const std::string& trouble() const { return trouble_; }
  const std::string& paint_trouble() const { return paint_trouble_; }
  std::uint64_t asked_revision() const { return asked_; }
  bool figures_current() const;
  // Tallest that anything may stand at a place, m above datum, on the newest built model; while
  // something other than the barrier and the ground moves it stays true.
  std::optional<double> cap_at(Vec2 at) const;
  bool busy() const {
    return main_.busy() || paint_.busy() || live_worker_.busy() || corner_worker_.busy();
  }
  bool proposing() const { return proposing_; }
  bool checking() const { return main_.busy(); }
  bool refining() const { return corner_worker_.busy(); }
  void stop_checking() { main_.cancel(); }
  bool painting() const { return paint_.busy(); }
  bool answering() const { return proposing_ && live_running_; }
  std::string stage() const { return main_.stage(); }
  // Called on the drawing thread when a model to draw has come, and when its corner shade has.
  std::function<void(const Built&)> on_built;
  std::function<void(std::shared_ptr<const Scene>)> on_corner_shade;
  std::function<void()> on_judged;
  std::function<void()> on_painted;
  std::function<void()> on_live;
  // The picture of what was answered, a little after the answer.
  std::function<void(const Built&)> on_live_built;

 private:
  void post_judged(const Judged& judged);
  void refine(const Built& built);
  struct Proposal {
    Site site;
    int object = -1;
    std::uint64_t serial = 0;
  };
  // Only the thread that has it in hand uses it; passed on through the inbox.
  struct ReadySolver {
    std::uint64_t revision = 0;
    int object = -1;  // the one thing that has been moved since; -1 = none yet
    std::shared_ptr<leap::LeapSolver> solver;
  };
  void take_up(Proposal proposal);
  static leap::Result answer(const Model& model, int object, ReadySolver& ready,
                             const CheckOptions& options, const Progress& progress);

  Inbox& inbox_;
  std::optional<Built> built_;
  std::optional<Judged> judged_;
  std::optional<Painted> painted_;
  std::optional<Live> live_;
  std::optional<shade::Day> day_;
  std::optional<geom::Raster> cap_;
  std::uint64_t day_revision_ = 0;
  std::string trouble_;
  std::string paint_trouble_;
  std::uint64_t asked_ = 0;
  CheckOptions options_;  // of the last `show`
  std::uint64_t serial_ = 0;
  bool proposing_ = false;
  bool live_running_ = false;
  std::optional<Proposal> waiting_;
  ReadySolver ready_;
  // Last, so that they end first.
  Worker main_;
  Worker paint_;
  Worker live_worker_;
  Worker corner_worker_;
};

}  // namespace hummock::viewer
