// A table of the report as CSV (RFC 4180): UTF-8, lines ended by CR LF, numbers in full.
#pragma once

#include <string>

#include "engine/report/document.h"

namespace hummock::report {

std::string to_csv(const Table& table);

}  // namespace hummock::report
