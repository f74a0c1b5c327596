#include "engine/openings/joined_gaps.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/openings/unrolled_fence.h"

namespace hummock::openings {

namespace {

constexpr double kWorthTelling = 1e-3;  // m by which it is larger; common practice, no source
constexpr double kPrecision = 1e-4;     // m of the radius

// What is listed beside a place: how many openings meet there, and the largest of them.
struct Beside {
  int openings = 0;
  double largest = 0.0;  // m
  std::set<std::string> things;
};

void note(Beside& beside, double ball, const std::string& thing) {
  if (ball < kLeastListed) return;
  ++beside.openings;
  beside.largest = std::max(beside.largest, ball);
  beside.things.insert(thing);
}

Beside beside(const Meeting& meeting, const std::vector<Opening>& list) {
  Beside out;
  for (const Opening& o : list) {
    if (!o.leads_out || o.what == "mesh aperture") continue;
    if (o.what == "joint" && o.ball_m > meeting.joint + kLeastListed) continue;
    if (meeting.things.count(o.thing) != 0) note(out, o.ball_m, o.thing);
  }
  if (meeting.joint > out.largest) note(out, meeting.joint, meeting.sheet);
  return out;
}

std::string in_words(const std::set<std::string>& things) {
  std::string words;
  for (const std::string& thing : things) words += (words.empty() ? "" : " and ") + thing;
  return words;
}

// The same gap, found from its other side.
bool told(const std::vector<Opening>& list, std::size_t from, const Opening& now) {
  constexpr double kOneGap = 0.6;  // m; common practice, no source
  return std::any_of(list.begin() + static_cast<std::ptrdiff_t>(from), list.end(),
                     [&](const Opening& o) {
                       return o.thing == now.thing && geom::distance(o.at, now.at) < kOneGap;
                     });
}

void add_meeting(const Model& model, const UnrolledFence& fence, const Meeting& meeting,
                 std::size_t first, std::vector<Opening>& list) {
  const Beside near =
      beside(meeting,
             std::vector<Opening>(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(first)));
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
  if (!told(list, first, o)) list.push_back(o);
}

}  // namespace

void add_joined_gaps(const Model& model, std::vector<Opening>& list) {
  if (list.size() < 2) return;
  const UnrolledFence fence(model);
  const std::size_t first = list.size();
  for (const Meeting& meeting : fence.meetings()) {
    add_meeting(model, fence, meeting, first, list);
  }
}

}  // namespace hummock::openings
