#include "engine/report/document.h"

namespace hummock::report {

const char* sign(Mark mark) {
  switch (mark) {
    case Mark::none:
      return "";
    case Mark::met:
      return "✓";
    case Mark::met_if:
      return "◐";
    case Mark::short_of:
      return "✗";
    case Mark::not_checked:
      return "–";
    case Mark::way_out:
      return "▲";
    case Mark::look:
      return "○";
    case Mark::open:
      return "?";
    case Mark::waived:
      return "◇";
  }
  return "";
}

const char* to_string(Mark mark) {
  switch (mark) {
    case Mark::none:
      return "";
    case Mark::met:
      return "met";
    case Mark::met_if:
      return "met, if";
    case Mark::short_of:
      return "short";
    case Mark::not_checked:
      return "not checked";
    case Mark::way_out:
      return "way out";
    case Mark::look:
      return "look";
    case Mark::open:
      return "open";
    case Mark::waived:
      return "waived";
  }
  return "";
}

std::vector<const Table*> tables_of(const Document& document) {
  std::vector<const Table*> list;
  for (const Chapter& chapter : document.chapters) {
    for (const Block& block : chapter.blocks) {
      const Table* table = std::get_if<Table>(&block);
      if (table != nullptr && !table->file.empty()) list.push_back(table);
    }
  }
  return list;
}

std::vector<const draw::Figure*> figures_of(const Document& document) {
  std::vector<const draw::Figure*> list;
  if (document.front.picture) list.push_back(&*document.front.picture);
  for (const Chapter& chapter : document.chapters) {
    for (const Block& block : chapter.blocks) {
      if (const Picture* p = std::get_if<Picture>(&block)) list.push_back(&p->figure);
      if (const TurnModel* t = std::get_if<TurnModel>(&block)) list.push_back(&t->still);
    }
  }
  return list;
}

}  // namespace hummock::report
