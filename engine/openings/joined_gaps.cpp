#include "engine/openings/joined_gaps.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/openings/unrolled_fence.h"

namespace hummock::openings {

namespace {

constexpr double kWorthTelling = 1e-3;  // m by which it is larger; common practice, no source
constexpr double kPrecision = 1e-4;     // m of the radius

// What is listed beside a place: how many openings meet there, and the largest of them.
struct Beside {
  std::size_t openings = 0;
  double largest = 0.0;  // m
  std::set<std::string> things;
};

// Balls of what is listed, by thing, in order of size: joints apart, as only those no larger than
// a meeting's own count there.
struct Listed {
  std::vector<double> joints, others;
};
using ByThing = std::map<std::string, Listed>;

ByThing by_thing(const std::vector<Opening>& list) {
  ByThing all;
  for (const Opening& o : list) {
    if (!o.leads_out || !o.note.empty() || o.what == "mesh aperture") continue;
    if (o.ball_m < kLeastListed) continue;
    Listed& of = all[o.thing];
    (o.what == "joint" ? of.joints : of.others).push_back(o.ball_m);
  }
  for (auto& [thing, of] : all) {
    std::sort(of.joints.begin(), of.joints.end());
    std::sort(of.others.begin(), of.others.end());
  }
  return all;
}

void note(Beside& beside, std::size_t count, double largest, const std::string& thing) {
  if (count == 0) return;
  beside.openings += count;
  beside.largest = std::max(beside.largest, largest);
  beside.things.insert(thing);
}

Beside beside(const Meeting& meeting, const ByThing& all) {
  Beside out;
  for (const std::string& thing : meeting.things) {
    const auto found = all.find(thing);
    if (found == all.end()) continue;
    const auto& [joints, others] = found->second;
    const auto end = std::upper_bound(joints.begin(), joints.end(), meeting.joint + kLeastListed);
    if (end != joints.begin())
      note(out, static_cast<std::size_t>(end - joints.begin()), *(end - 1), thing);
    if (!others.empty()) note(out, others.size(), others.back(), thing);
  }
  if (meeting.joint > out.largest && meeting.joint >= kLeastListed)
    note(out, 1, meeting.joint, meeting.sheet);
  return out;
}

std::string in_words(const std::set<std::string>& things) {
  std::string words;
  for (const std::string& thing : things) words += (words.empty() ? "" : " and ") + thing;
  return words;
}

// The same gap may be found from either side of it: of one place the larger is kept.
void keep(Opening now, std::vector<Opening>& found) {
  constexpr double kOneGap = 0.6;  // m; common practice, no source
  const auto same = std::find_if(found.begin(), found.end(), [&](const Opening& o) {
    return o.thing == now.thing && geom::distance(o.at, now.at) < kOneGap;
  });
  if (same == found.end()) {
    found.push_back(std::move(now));
  } else if (now.ball_m > same->ball_m) {
    *same = std::move(now);
  }
}

void look_at(const Model& model, const UnrolledFence& fence, const Meeting& meeting,
             const ByThing& listed, std::vector<Opening>& found) {
  const Beside near = beside(meeting, listed);
  if (near.openings < 2) return;
  const double more = 0.5 * (near.largest + kWorthTelling);
  const geom::Circle circle = fence.largest_circle(meeting, more, kPrecision);
  if (circle.radius <= more) return;
  Opening o;
  o.what = "joined gap";
  o.thing = in_words(near.things);
  o.at = fence.place(circle.centre);
  o.ball_m = o.rigid_ball_m = 2.0 * circle.radius;
  o.passes = o.ball_m >= model.site.species.least_opening.value;
  keep(std::move(o), found);
}

}  // namespace

void add_joined_gaps(const Model& model, std::vector<Opening>& list) {
  if (list.size() < 2) return;
  const UnrolledFence fence(model);
  const ByThing listed = by_thing(list);
  std::vector<Opening> found;
  for (const Meeting& meeting : fence.meetings()) look_at(model, fence, meeting, listed, found);
  list.insert(list.end(), found.begin(), found.end());
}

}  // namespace hummock::openings
