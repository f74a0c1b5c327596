#include "engine/report/setters/pdf_pages.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/report/setters/pdf_sheets.h"

namespace hummock::report {
namespace {

void set_verdict(Sheets& sheets, const Front& front) {
  const std::string text = marked(front.mark, front.verdict);
  const Words style{.size = 4.0, .bold = true, .ltr = true};
  const double h = sheets.measure().paragraph_height(kWidth - 10.0, text, style) + 5.0;
  sheets.put([y = sheets.y(), h, text, style](Canvas& c) {
    c.fill({{kLeft, y}, {kLeft + kWidth, y}, {kLeft + kWidth, y + h}, {kLeft, y + h}}, kTint);
    c.line({{kLeft, y}, {kLeft, y + h}}, {draw::kInk, 1.0});
    c.paragraph({kLeft + 5.0, y + 2.5}, kWidth - 10.0, text, style);
  });
  sheets.skip(h + 1.5);
  std::string tally;
  for (const auto& [mark, n] : front.tally) {
    tally += (tally.empty() ? "" : "    ") + marked(mark, fmt::format("{} {}", n, to_string(mark)));
  }
  if (!tally.empty()) sheets.words(tally, kBody);
  sheets.skip(2.0);
}

double cautions_height(const Canvas& m, const Front& front) {
  double h = 18.0;
  for (const auto* list : {&front.cautions, &front.limits}) {
    for (const std::string& line : *list) h += m.paragraph_height(kWidth - 4.0, line, kSmall) + 0.6;
  }
  return h;
}

void set_cautions(Sheets& sheets, const Front& front) {
  rule(sheets, 0.4);
  sheets.skip(2.0);
  sheets.words("Cautions", {.size = 3.1, .bold = true});
  sheets.skip(0.8);
  set_bullets(sheets, front.cautions, kSmall);
  if (front.limits.empty()) return;
  sheets.skip(1.0);
  sheets.words("Limits of the models", {.size = 2.8, .bold = true});
  sheets.skip(0.8);
  set_bullets(sheets, front.limits, kSmall);
}

// As many findings as leave room for the cautions, which belong on page one.
void set_front_cards(Sheets& sheets, const Front& front, double keep) {
  std::size_t set = 0;
  for (const Card& card : front.cards) {
    if (sheets.room() < keep + card_height(sheets.measure(), card) + 4.0) break;
    set_card(sheets, card);
    ++set;
  }
  if (set < front.cards.size() || !front.more.empty()) {
    sheets.words("More under “All findings”.", kSmall);
  }
}

void set_front(Sheets& sheets, const Front& front) {
  sheets.words(front.kind, {.size = 3.0, .colour = kMuted});
  sheets.skip(0.5);
  sheets.words(front.title, {.size = 7.0, .bold = true});
  sheets.skip(2.0);
  std::string line;
  for (const auto& [term, what] : front.facts) {
    line += (line.empty() ? "" : "   ·   ") + term + ": " + draw::isolated(what);
  }
  sheets.words(line, {.size = 2.8, .ltr = true});
  sheets.skip(3.0);
  set_verdict(sheets, front);
  const double keep = cautions_height(sheets.measure(), front);
  if (front.picture && sheets.room() > keep + front.picture->size.y + 20.0) {
    const Vec2 at{kLeft, sheets.y()};
    sheets.put([&front, at](Canvas& c) { c.inset(at, *front.picture); });
    sheets.skip(front.picture->size.y + 1.0);
    sheets.words(front.picture->caption, kSmall);
    sheets.skip(2.0);
  }
  set_front_cards(sheets, front, keep);
  sheets.skip(std::max(0.0, sheets.room() - keep));
  set_cautions(sheets, front);
}

void set_chapter(Sheets& sheets, const Chapter& chapter) {
  if (sheets.room() < 90.0) sheets.turn();
  if (sheets.y() > kTop) sheets.skip(2.0 * kGap);
  rule(sheets, 0.5);
  sheets.skip(2.0);
  sheets.words(chapter.title, {.size = 5.2, .bold = true});
  if (!chapter.question.empty()) sheets.words(chapter.question, {.size = 3.2, .colour = kMuted});
  sheets.skip(kGap);
  for (const Block& block : chapter.blocks) set_block(sheets, block);
}

}  // namespace

std::vector<draw::Figure> pdf_pages(const Document& document) {
  std::vector<std::vector<Draw>> sheets;
  draw::on_scratch([&](Canvas& scratch) {
    Sheets filling(scratch);
    set_front(filling, document.front);
    filling.turn();
    for (const Chapter& chapter : document.chapters) set_chapter(filling, chapter);
    sheets = filling.take();
  });
  std::vector<draw::Figure> pages;
  for (std::size_t k = 0; k < sheets.size(); ++k) {
    draw::Figure page;
    page.name = fmt::format("page-{}", k + 1);
    page.size = kPage;
    const std::string number = fmt::format("{} / {}", k + 1, sheets.size());
    page.draw = [draws = std::move(sheets[k]), number, foot = document.foot](Canvas& c) {
      for (const Draw& d : draws) d(c);
      c.line({{kLeft, 286.0}, {kLeft + kWidth, 286.0}}, {kRule, 0.12});
      c.words({kLeft, 290.0}, foot, {.size = 2.2, .colour = kMuted, .ltr = true});
      c.words({kLeft + kWidth, 290.0}, number,
              {.size = 2.2, .colour = kMuted, .anchor = draw::Anchor::end});
    };
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace hummock::report
