// A document as one self-contained page: opens from disk, asks nothing of any network.
//
// A content security policy in the page forbids every request, and every script but the page's own
// by its hash: a name with a script in it is shown, and could not run even if it were not escaped.
#pragma once

#include <optional>
#include <string>

#include "engine/report/document.h"
#include "engine/report/figures/turn_model.h"
#include "engine/report/setters/drawings.h"

namespace hummock::report {

// `drawings` has the document's figures; `turn` is what the turning model needs; without it the
// still picture stands alone.
std::string html_page(const Document& document, const Drawings& drawings,
                      const std::optional<TurnData>& turn);

// Text for an HTML document or a quoted attribute. Control characters, which HTML forbids, become
// U+FFFD, and so do bytes that are no UTF-8.
std::string escaped(const std::string& text);

}  // namespace hummock::report
