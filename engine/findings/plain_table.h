// A table as an analysis gives it to the report, which sets it.
#pragma once

#include <string>
#include <vector>

namespace hummock {

struct PlainTable {
  std::string file;  // name of its CSV without ending
  std::string title;
  std::vector<std::string> columns;  // a unit stands in the title: "Away, m"
  std::vector<std::vector<std::string>> rows;
  std::string note;  // model and limits
};
using PlainTables = std::vector<PlainTable>;

}  // namespace hummock
