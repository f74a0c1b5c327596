#include "tests/trials/trials.h"

namespace hummock::trials {
namespace {

const std::string kThompson = "Thompson 1976, thesis (1979, J. Range Manage. 32:457)";
const std::string kCropsey = "deCalesta & Cropsey 1978, Wildl. Soc. Bull. 6:256-259";
const std::string kMoseby = "Moseby & Read 2006, Biol. Conserv. 127:429-437 (abstract)";
const std::string kAgnew = "Agnew & Nichols 2018, technical report";
const std::string kPipe = "the same group, 2019";
const std::string kStock = "the same group, draft of 2020 (as told)";
const std::string kTasmania = "Tasmanian government guidance (a sentence)";
const std::string kDeer = "VerCauteren et al. 2010, J. Wildl. Manage. 74:1378-1381";
const std::string kJump = "Victoria University, New Zealand (The Independent, 6 August 1997)";

const std::string kCoyote = "1.83 m, careful 2.44 m: told";
const std::string kFox = "2.0 m: told";
const std::string kMeasured = "1.0 m: McGowan et al. 2005, another species";
const std::string kToldWallaby = "1.8 m: told by a park";
const std::string kFilm = "2.44 m: told in a film";

const std::string kReach =
    "an animal is taken to reach a body's length round an edge from its hold (reach); no trial of "
    "that is known, and the coyotes' own outcome is kept for the row by construction";
const std::string kStanding =
    "the leap told is as high as the fence; deer that were tried did not take it";
const std::string kRat =
    "it climbs the mesh and its leap of 1.7 m is higher than the fence; rats in the pen did not "
    "leap it";

std::vector<Trial> coyotes() {
  std::vector<Trial> list{{"coyote-bare", kThompson, "wire, 1.68 m, bare", Outcome::some_out,
                           "jumped and climbed up to about here", kCoyote, true, ""}};
  for (const std::string angle : {"60", "30"}) {
    const std::string fence = "wire, 1.8 m, 0.41 m of overhang at " + angle + "° above the level" +
                              (angle == "30" ? " (60° read from upright)" : "");
    list.push_back({"coyote-overhang-" + angle, kCropsey, fence, Outcome::held, "losses to zero",
                    kCoyote, true, kReach});
    list.push_back({"coyote-held-overhang-" + angle, kCropsey, fence, Outcome::held,
                    "losses to zero", kCoyote + "; reach and climbing of this trial", false, ""});
  }
  return list;
}

void add_netting(const std::string& animal, const std::string& name, const std::string& figure,
                 std::vector<Trial>& list) {
  const auto add = [&](const std::string& yard, const std::string& fence, const std::string& told) {
    list.push_back({animal + "-" + yard, kMoseby, name + ": " + fence, Outcome::some_out, told,
                    figure, true, ""});
  };
  add("curved-060", "netting, 1.8 m, 0.60 m curved over", "most held");
  add("curved-094", "the same, read as reaching 0.60 m out", "most held");
  add("low-curved", "netting, 1.15 m, 0.60 m curved over", "as at 1.8 m: most held");
  add("angled-30", "netting, 1.8 m, 0.30 m up at 30° (angle not told)", "fewer held");
  add("angled-60", "netting, 1.8 m, 0.30 m up at 60° (angle not told)", "fewer held");
}

std::vector<Trial> pens() {
  const std::string capped = "capped mesh, 1.10 m";
  return {{"possum-capped-110", kAgnew, "possum: " + capped, Outcome::some_out, "95 % held",
           "1.2 m: " + kJump, true, ""},
          {"stoat-capped-110", kAgnew, "stoat: " + capped, Outcome::some_out, "95 % held",
           "1.9 m: " + kJump, true, ""},
          {"ship-rat-capped-110", kAgnew, "ship rat: " + capped, Outcome::held, "100 % held",
           "1.7 m: " + kJump, true, kRat},
          {"ship-rat-pipe-080", kPipe, "ship rat: mesh with a pipe on it, 0.80 m",
           Outcome::some_out, "15 of 16 held", "1.7 m: " + kJump, true, ""},
          {"possum-stock-090", kStock, "possum: stock fence, 0.90 m, three hot wires",
           Outcome::some_out, "about two thirds held", "1.2 m: " + kJump, true, ""}};
}

std::vector<Trial> grazers() {
  std::vector<Trial> list;
  for (const bool told : {false, true}) {
    const std::string animal = told ? "told-wallaby" : "rock-wallaby";
    const std::string figure = told ? kToldWallaby : kMeasured;
    list.push_back({animal + "-level", kTasmania, "wallaby: 1.15 m on the level", Outcome::held,
                    "most cannot", figure, true,
                    "what a park tells of is more than the guidance allows most animals"});
    list.push_back({animal + "-slope", kTasmania, "wallaby: 1.15 m below a slope of 20°",
                    Outcome::some_out, "some can", figure, true, ""});
  }
  const auto deer = [&](const char* yard, const char* height, Outcome outcome, const char* told) {
    list.push_back({yard, kDeer, std::string("white-tailed deer: ") + height, outcome, told, kFilm,
                    true, kStanding});
  };
  deer("deer-150", "1.5 m", Outcome::some_out, "none deterred");
  deer("deer-180", "1.8 m", Outcome::some_out, "14 % deterred");
  deer("deer-210", "2.1 m", Outcome::some_out, "85 % deterred");
  deer("deer-240", "2.4 m", Outcome::held, "all deterred");
  return list;
}

// The trial of jumping with its own figures: only that the program takes them as they stand.
std::vector<Trial> jumpers() {
  struct Jumper {
    std::string yard, name, height, why;
  };
  const std::vector<Jumper> managed{
      {"stoat", "stoat", "1.9 m", ""},
      {"ship-rat", "ship rat", "1.7 m", ""},
      {"cat", "feral cat", "1.5 m", "0.10 m of grip is added to a leap that may hold it already"},
      {"possum", "possum", "1.2 m", ""},
      {"ferret", "ferret", "0.5 m", ""},
      {"mouse", "mouse", "0.33 m", ""}};
  std::vector<Trial> list;
  for (const Jumper& j : managed) {
    const auto add = [&](const std::string& side, const std::string& wall, Outcome outcome,
                         const std::string& told) {
      list.push_back({j.yard + "-wall-" + side, kJump, j.name + ": smooth wall " + wall, outcome,
                      told, j.height + ": the same trial", false, j.why});
    };
    add("under", "3 cm under its leap", Outcome::some_out, "managed");
    add("over", "5 cm over its leap", Outcome::held, "not managed");
  }
  return list;
}

std::vector<Trial> made() {
  std::vector<Trial> list = coyotes();
  add_netting("red-fox", "red fox", kFox, list);
  add_netting("cat", "feral cat", "1.5 m: " + kJump, list);
  for (const std::vector<Trial>& more : {pens(), grazers(), jumpers()}) {
    list.insert(list.end(), more.begin(), more.end());
  }
  return list;
}

}  // namespace

const std::vector<Trial>& all_trials() {
  static const std::vector<Trial> list = made();
  return list;
}

}  // namespace hummock::trials
