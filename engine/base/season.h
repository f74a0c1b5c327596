// Days of the year, as the files say them.
#pragma once

namespace hummock {

struct MonthDay {
  int month = 1;
  int day = 1;
  friend bool operator==(const MonthDay&, const MonthDay&) = default;
};
// A bare season, first day to last, may wrap over the new year.
struct Season {
  MonthDay from;
  MonthDay to;
};

}  // namespace hummock
