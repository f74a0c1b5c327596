#include "engine/leap/search/minimax.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/search/flight_tests.h"
#include "engine/leap/search/look_ahead.h"
#include "engine/leap/search/made_link.h"
#include "engine/leap/search/over_walls.h"
#include "engine/leap/search/room_ways.h"
#include "engine/leap/search/search_queue.h"

namespace hummock::leap {

using geom::Box3;

namespace {

class Search {
 public:
  Search(const std::vector<PatchPtr>& patches, const Quest& quest, const geom::RayScene& scene,
         const LinkRules& rules, const Progress& progress)
      : patches_(patches),
        quest_(quest),
        rules_(rules),
        progress_(progress),
        limit_(std::min(rules.limit, quest.key_limit)),
        tests_(scene, rules, quest.known),
        rooms_(patches, rules, wanted_of(quest)),
        places_(patches),
        upper_(build_patch_tree(patches, flown_to(patches, wanted_of(quest)))),
        tries_(patches.size(), 0),
        walls_(patches, places_, rules, quest.walls),
        ahead_(patches, quest, scene, rules, places_, walls_) {
    result_.patches.resize(patches.size());
    for (const auto& node : upper_.nodes) open_.push_back(node.count);
  }

  // Nothing: it stopped where what was left out may bear on where (look_ahead.h).
  std::optional<SearchResult> run() {
    for (const Start& s : quest_.starts) {
      Gained& g = result_.patches[at(s.patch)];
      g.required_leap = g.required_leap_above = s.required_leap;
      leave(s.patch);
    }
    for (std::int64_t turns = 1; !queue_.empty() && !done_; ++turns) {
      if ((turns & 4095) == 0) progress_.step("leap", result_.key / rules_.limit);
      const Entry e = queue_.pop();
      result_.key = std::max(result_.key, e.key);
      if (tests_.flights() > quest_.most_flights) {
        if (ahead_.left_out() > 0) return std::nullopt;
        result_.complete = false;
        return finish();
      }
      take(e);
    }
    if (!stopped_at_exit_) result_.key = limit_;
    if (given_up_at_ < limit_) {
      result_.complete = false;
      result_.key = std::min(result_.key, given_up_at_);
    }
    if (!ahead_.holds()) return std::nullopt;
    return finish();
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }
  const TreeNode& node(int p, int n) const { return places_.node(p, n); }
  const SurfacePiece& piece(int p, int s) const { return places_.piece(p, s); }
  std::pair<const SurfacePiece&, const SurfacePiece&> spots(const Entry& e) const {
    return {piece(e.pa, e.a), piece(e.pb, e.b)};
  }
  bool ground(int p) const { return patches_[at(p)]->kind == PatchKind::ground; }
  bool reached(int p) const { return result_.patches[at(p)].is(); }
  bool useless(const Entry& e) const {
    return e.kind == EntryKind::upper ? open_[at(e.b)] <= 0 : reached(e.pb);
  }

  SearchResult finish() {
    result_.flights = tests_.flights();
    result_.touched = tests_.touched();
    result_.left_out = ahead_.left_out();
    return std::move(result_);
  }

  void push(const Entry& e) {
    if (e.key <= limit_) queue_.push(e);
  }

  double bound(const Entry& e, const TreeNode& a, const Box3& b, bool hook) const {
    return std::max(e.key, from_patch(e.pa, link_bound(rules_, a.box, a.stand, b, hook)));
  }

  double from_patch(int p, double effort) const { return effort_from(*patches_[at(p)], effort); }
  double cost(int p, const SurfacePiece& from) const {
    return from_patch(p, cost_of_takeoff(rules_.ability, !from.cling));
  }
  double over_walls(const Entry& e) { return walls_.of_pieces(e.pa, e.a, e.pb, e.b); }

  void leave(int p) {
    if (quest_.onward) go_within(p);
    if (upper_.nodes.empty() || open_[0] == 0) return;
    Entry e{.key = result_.patches[at(p)].required_leap, .pa = p, .a = 0, .b = 0};
    e.key = bound(e, node(p, 0), upper_.nodes[0].box, upper_.nodes[0].hook);
    push(e);
  }

  void go_within(int p) {
    for (const auto& [to, link] : rooms_.from(p)) {
      if (reached(to)) continue;
      tests_.touch(node(p, 0).box, node(to, 0).box);
      put_found({.pa = p, .pb = to}, link,
                std::max(result_.patches[at(p)].required_leap, link.effort));
    }
  }

  void put_found(const Entry& e, const Link& link, double key) {
    Entry found = entry_as(e, EntryKind::found, key);
    found.a = static_cast<int>(found_.size());
    found_.push_back(link);
    push(found);
  }

  // Puts a pair back that is known by now to need more.
  bool raised(const Entry& e) {
    if (e.kind != EntryKind::pieces && e.kind != EntryKind::rung) return false;
    const double needs = over_walls(e);
    if (needs <= e.key) return false;
    push(entry_as(e, e.kind, needs));
    return true;
  }

  // Of a flight whose untested ends (arcs.h) may hide faces: asks what stands between the ground.
  bool through(const Entry& e) {
    if (!ground(e.pa) || (!ground(e.pb) && !is_exit(*patches_[at(e.pb)]))) return false;
    if (!tests_.limb_free({piece(e.pa, e.a).at, piece(e.pb, e.b).at})) walls_.ask();
    return raised(e);
  }

  void take(const Entry& e) {
    if (useless(e)) return queue_.took_useless([this](const Entry& o) { return useless(o); });
    if (left_.contains({e.pa, e.pb}) || raised(e)) return;
    switch (e.kind) {
      case EntryKind::upper:
        return split_upper(e);
      case EntryKind::nodes:
        return split_nodes(e);
      case EntryKind::pieces:
        return try_least(e);
      case EntryKind::rung:
        return try_rung(e);
      case EntryKind::reach:
        return try_reach(e);
      case EntryKind::found:
        gain(e, found_[at(e.a)]);
    }
  }

  void split_upper(const Entry& e) {
    const TreeNode& a = node(e.pa, e.a);
    const PatchTree::Node& b = upper_.nodes[at(e.b)];
    if (b.patch >= 0) {
      Entry pair = entry_as(e, EntryKind::nodes, e.key);
      pair.pb = b.patch;
      pair.b = 0;
      return split_nodes(pair);
    }
    const bool split_a = Unfolded::splits(a) && diagonal2(a.box) > diagonal2(b.box);
    const int left = split_a ? places_.children(e.pa, e.a) : b.left;
    if (left < 0) return split_upper(e);
    for (const int child : {left, left + 1}) {
      if (!split_a && open_[at(child)] == 0) continue;
      Entry part = e;
      (split_a ? part.a : part.b) = child;
      const PatchTree::Node& to = upper_.nodes[at(part.b)];
      part.key = bound(e, node(e.pa, part.a), to.box, to.hook);
      push(part);
    }
  }

  void split_nodes(const Entry& e) {
    const TreeNode& a = node(e.pa, e.a);
    const TreeNode& b = node(e.pb, e.b);
    const bool a_splits = Unfolded::splits(a), b_splits = Unfolded::splits(b);
    if (!a_splits && !b_splits) return pair_spots(e, a, b);
    const bool split_a = !b_splits || (a_splits && diagonal2(a.box) >= diagonal2(b.box));
    const int left = split_a ? places_.children(e.pa, e.a) : places_.children(e.pb, e.b);
    if (left < 0) return split_nodes(e);
    if (split_a && ahead_.leaves_out(e, result_.patches[at(e.pa)].required_leap)) return;
    for (const int child : {left, left + 1}) {
      Entry part = e;
      (split_a ? part.a : part.b) = child;
      const TreeNode& to = node(e.pb, part.b);
      part.key = std::max(bound(e, node(e.pa, part.a), to.box, to.hook),
                          walls_.of_nodes(part.pa, part.a, part.pb, part.b));
      push(part);
    }
  }

  void pair_spots(const Entry& e, const TreeNode& a, const TreeNode& b) {
    const double from = result_.patches[at(e.pa)].required_leap;
    for (int i = a.first; i < a.first + a.count; ++i) {
      for (int j = b.first; j < b.first + b.count; ++j) {
        Entry part = entry_as(e, EntryKind::pieces, e.key);
        part.a = i;
        part.b = j;
        const SurfacePiece& p = piece(e.pa, i);
        const SurfacePiece& q = piece(e.pb, j);
        if (no_footing(p, q)) continue;
        if (within_reach(rules_, p.cell, q.cell, q.hook)) {
          push(entry_as(part, EntryKind::reach, std::max(e.key, from)));
        }
        const double leap = leap_bound(rules_, p.cell, !p.cling, q.cell, q.hook);
        part.key = std::max({e.key, from, from_patch(e.pa, leap), over_walls(part)});
        push(part);
      }
    }
  }

  void try_reach(const Entry& e) {
    const auto [p, q] = spots(e);
    if (tests_.limb_reaches(p, q))
      gain(e, link_of(e, LinkKind::reach, least_arc(rules_, p, q), 0.0));
  }

  void try_least(const Entry& e) {
    const auto [p, q] = spots(e);
    const Arc arc = least_arc(rules_, p, q);
    const bool steps = within_step_over(rules_, p, q);
    if (steps && through(e)) return;
    if (steps && over_walls(e) <= 0.0) {
      gain(e, link_of(e, LinkKind::step_over_gap, arc, 0.0));
      return;
    }
    const auto [way, share] = tests_.fly(arc, e, p, q);
    if (way != Way::blocked) return gain_flight(e, way);
    if (give_up(e, arc)) return;
    climb(e, arc, Side::steeper, 1, share);
    climb(e, arc, Side::flatter, 1, share);
  }

  void try_rung(const Entry& e) {
    const auto [p, q] = spots(e);
    const Arc least = least_arc(rules_, p, q);
    const auto [way, share] = tests_.fly(rung(rules_, least, e.side, e.k), e, p, q);
    if (way == Way::blocked) {
      if (!give_up(e, least)) climb(e, least, e.side, e.k + 1, share);
      return;
    }
    if (way != Way::straight) return gain_flight(e, way);
    if (through(e)) return;
    const Edge edge = tests_.close_in(least, q, e.side, e.k, e.share);
    const double below =
        from_patch(e.pa, rung_bound(rules_, least, p, q, e.side, edge.blocked, edge.blocked_at));
    put_found(e, link_of(e, LinkKind::flight, rung(rules_, least, e.side, edge.free), below),
              std::max(e.key, below));
  }

  // Free from point to point or past a corner: from the entry's key on it is there.
  void gain_flight(const Entry& e, Way way) {
    if (through(e)) return;
    const auto [p, q] = spots(e);
    const Aside by = tests_.flown(e, p, q, way);
    gain(e, made_link(rules_, LinkKind::flight, e.pa, by.from, by.to, by.arc, e.key,
                      cost(e.pa, by.from)));
  }

  // Puts rung k in the queue, given that the one before was blocked at `share`.
  void climb(const Entry& e, const Arc& least, Side side, int k, double share) {
    if (const auto next = next_rung(rules_, *patches_[at(e.pa)], e, piece(e.pa, e.a),
                                    piece(e.pb, e.b), {least, side, k, share}))
      push(*next);
  }

  // Counts a blocked flight; true when no more is tried into the patch: a place is taken as gained
  // for want of an end, an exit is left with what is settled so far.
  bool give_up(const Entry& e, const Arc& arc) {
    if (++tries_[at(e.pb)] == quest_.tries_before_walls) walls_.ask();
    const bool exit = is_exit(*patches_[at(e.pb)]);
    if (tries_[at(e.pb)] < (exit ? quest_.most_tries_at_exit : quest_.most_tries)) return false;
    if (exit) given_up_at_ = std::min(given_up_at_, e.key);
    if (exit || quest_.leave_pockets) return exit || leave_pocket(e);
    ++result_.assumed;
    gain(e, link_of(e, LinkKind::assumed, arc, e.key));
    return true;
  }

  // No more is tried from the one patch into the other; from others it is begun anew.
  bool leave_pocket(const Entry& e) {
    tries_[at(e.pb)] = 0;
    left_.insert({e.pa, e.pb});
    return true;
  }

  Link link_of(const Entry& e, LinkKind kind, const Arc& arc, double below) const {
    const SurfacePiece& p = piece(e.pa, e.a);
    return made_link(rules_, kind, e.pa, p, piece(e.pb, e.b), arc, below, cost(e.pa, p));
  }

  void gain(const Entry& e, const Link& link) {
    const Gained& from = result_.patches[at(e.pa)];
    Gained& g = result_.patches[at(e.pb)];
    g.by = link;
    g.required_leap = std::max(e.key, from.required_leap);
    g.required_leap_above = std::max({from.required_leap_above, link.effort, g.required_leap});
    rooms_.gained(e.pb);
    for (int n = upper_.leaf_of[at(e.pb)]; n >= 0; n = upper_.nodes[at(n)].parent) --open_[at(n)];
    const bool exit = is_exit(*patches_[at(e.pb)]);
    stopped_at_exit_ = quest_.stop_at_first_exit && exit;
    done_ = stopped_at_exit_ || ((open_.empty() || open_[0] == 0) && !rooms_.some_left());
    if (quest_.onward && !exit) leave(e.pb);
  }

  const std::vector<PatchPtr>& patches_;
  const Quest& quest_;
  const LinkRules& rules_;
  const Progress& progress_;
  double limit_;  // m, of keys
  FlightTests tests_;
  RoomWays rooms_;
  Unfolded places_;
  PatchTree upper_;
  std::vector<int> open_;  // patches not yet gained below each upper node
  std::vector<std::int64_t> tries_;
  std::set<std::pair<int, int>> left_;  // with `leave_pockets`
  OverWalls walls_;
  LookAhead ahead_;
  SearchQueue queue_;
  std::vector<Link> found_;  // free flights that wait for their turn
  bool done_ = false;
  bool stopped_at_exit_ = false;
  double given_up_at_ = 1e300;  // m, least key at which an exit was left
  SearchResult result_;
};

}  // namespace

SearchResult search(const std::vector<PatchPtr>& patches, const Quest& quest,
                    const geom::RayScene& scene, const LinkRules& rules, const Progress& progress) {
  if (auto found = Search(patches, quest, scene, rules, progress).run()) return *std::move(found);
  Quest again = quest;
  again.look_ahead = false;
  return *Search(patches, again, scene, rules, progress).run();
}

}  // namespace hummock::leap
