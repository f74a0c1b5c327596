// Findings: what a reviewer should look at first, in words, with the place and what to do.
//
// Made from results only; nothing is computed here. Worst first, then in the order of the analyses;
// the same results give the same list.
#pragma once

#include <string>
#include <vector>

#include "engine/check/check.h"
#include "engine/findings/finding.h"

namespace hummock {

FindingList findings(const Model& model, const CheckResults& results);

// "An animal can get out: one way was found. The design is short of 3 of its 17 requirements and
// meets 14." The ways out come first: no count of what is met stands before them.
std::string verdict_sentence(const Model& model, const CheckResults& results);

// Exit status 0: every `must` row of the brief met (or met if what is confirmed, or signed off), no
// way out found, nothing short.
bool all_well(const Model& model, const CheckResults& results);

// The lines every output carries (rule: a calculation aid, no warranty).
const std::vector<std::string>& cautions();

}  // namespace hummock
