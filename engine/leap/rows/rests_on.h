// What "no way out" rests on: defaults that are not the careful end, and figures that are assumed,
// told or from memory (engine/brief/assumptions.h).
//
// Every premise is first taken the careful way together with all others: if there is still no way
// out (escape demand above what the animal then leaps), nothing bears the answer and the list is
// empty. Otherwise each is taken alone, then in pairs, until at most kMostIfs least sets are found
// that let it out. The brief's margin is asked at the used figures only; at the careful ones it is
// 1. Where a premise is a number its breaking value is closed in by bisection to a sixteenth of the
// span between the used and the careful value, on the side on which it holds.
//
// A number that lets it out alone may break sooner beside a premise that holds alone (a hedge that
// bears it): the two together are a set of their own, told with the value at which it then breaks.
//
// Premises: a leap that is assumed, told or from memory; that it does not hang beneath sheets it
// climbs; that plantings as tall as its crouch do not bear it, nor the crowns of trees whose bark
// it does not climb; that the walls of a house are smooth where the site file does not say of what
// they are; that nothing in a house of which the file says no hides or places to climb takes it up
// to its vents; that its head passes nothing smaller, where a house has an opening between the used
// and the careful head, or the file gives that a careful end and leaves out `crouch`, which then
// follows it; that it climbs nothing further past upright than is taken for want of a row; that
// waters of which nobody says whether they freeze stay open, and those that can be emptied full;
// that it does not dig from the part of the ground it starts on to another, beneath what stands
// between (ground_tunnels.h; where the site gives a start, and the animal digs, at the careful end
// of its figures); the body's rows where the species file gives a careful value.
//
// Careful values are those of the species file, and where it gives none for a figure that nobody
// has shown those of figure_premises.h; of the leap kStronger times the figure, both in proportion.
//
// Cost: every solve is a leap search up to the leap height, without rows (search/gets_out.h); at
// most kMostSolves of them. A stronger leap alone needs none: its demand is the one already found.
// So an animal that is assumed not to hang and whose leap is assumed takes two solves. When more
// would be needed the answer says that it was not explored.
//
// Not premises here, whatever their evidence: rows that are shown, and have neither a careful value
// nor another record.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/leap/leap.h"
#include "engine/species/doubt.h"

namespace hummock::leap {

inline constexpr double kStronger = kStrongerLeap;  // common practice, no source
inline constexpr int kMostSolves = 12;

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress = {});

}  // namespace hummock::leap
