// What is signed: a keeper's word, and what may stay short.
#include <algorithm>

#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

// Any text: whether it is the word of an *if* or of a row in words is known when all files are read
// (engine/brief/signed.h).
Value read_confirmed(TableCursor& table, const Row& row, const Source&) {
  return table.text(row.key.c_str());
}

}  // namespace

// What an answer may rest on (engine/leap/rows/premises.h, engine/dig/rests_on.h,
// engine/openings/rests_on.h, engine/entry/rests_on.h, engine/check/rests_on_body.h,
// engine/site/unseen.h).
const Words& assumable() {
  static const Words words{"hangs",
                           "leap_height",
                           "leap_distance",
                           "ice",
                           "drained",
                           "grip",
                           "cling_leap",
                           "stand_slope",
                           "crouch",
                           "reach",
                           "perch",
                           "climbs_past_upright",
                           "leap_from_water",
                           "climbs",
                           "swims",
                           "wade_depth",
                           "least_opening",
                           "dig_depth",
                           "dig_length",
                           "plantings",
                           "crowns",
                           "walls",
                           "indoors",
                           "tunnels",
                           "body",
                           "eye_height",
                           "outdoor_low",
                           "forecourt",
                           "lobby",
                           "keepers-way",
                           "headroom",
                           "survey-detail",
                           "form-cut",
                           "form-detail",
                           "form-face",
                           "narrow-strip",
                           "basin-detail",
                           "guest-ground"};
  return words;
}

const Table& confirm_table() {
  static const Table table = table_of<Confirmation>(
      "a keeper's word that an assumption holds: in a species file for all sites, in a site file "
      "for one",
      "a confirmation",
      {
          {.key = "what",
           .kind = Kind::choice,
           .meaning = "the key of what is confirmed (of an *if* over two figures either will do), "
                      "or the `id` or "
                      "the own words of an `ask` row",
           .needed = true,
           .words = assumable(),
           .member = of(&Confirmation::what),
           .read = read_confirmed},
          {.key = "by",
           .kind = Kind::text,
           .meaning = "who says so",
           .needed = true,
           .member = of(&Confirmation::by)},
          {.key = "on",
           .kind = Kind::date,
           .meaning = "the day it was said",
           .needed = true,
           .member = of(&Confirmation::on)},
          {.key = "note",
           .kind = Kind::text,
           .meaning = "for the reader",
           .absent = "none",
           .member = of(&Confirmation::note)},
      });
  return table;
}

const Table& waiver_table() {
  static const Table table = table_of<Waiver>(
      "something short that is signed off as it is", "a waiver",
      {
          {.key = "what",
           .kind = Kind::text,
           .meaning =
               "what is short: a key of the results, the `id` of a row, or the name of an `either`",
           .needed = true,
           .member = of(&Waiver::what)},
          {.key = "reason",
           .kind = Kind::text,
           .meaning = "why it may stay so",
           .needed = true,
           .member = of(&Waiver::reason)},
          {.key = "by",
           .kind = Kind::text,
           .meaning = "who signs",
           .needed = true,
           .member = of(&Waiver::by)},
          {.key = "on",
           .kind = Kind::date,
           .meaning = "the day it was signed",
           .needed = true,
           .member = of(&Waiver::on)},
          {.key = "of",
           .kind = Kind::text,
           .meaning = "the name of the brief file that asks it",
           .absent = "the site's own file or its species'",
           .member = of(&Waiver::of)},
      });
  return table;
}

}  // namespace hummock::grammar
