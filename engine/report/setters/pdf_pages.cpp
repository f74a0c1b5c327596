#include "engine/report/setters/pdf_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>

namespace hummock::report {
namespace {

using draw::Canvas;
using draw::Vec2;
using draw::Words;

constexpr Vec2 kPage{210.0, 297.0};  // mm
constexpr double kLeft = 15.0;
constexpr double kWidth = 180.0;
constexpr double kTop = 16.0;
constexpr double kBottom = 282.0;
constexpr double kGap = 3.0;
constexpr draw::Colour kMuted{0.36, 0.38, 0.40, 1.0};
constexpr draw::Colour kRule{0.70, 0.70, 0.68, 1.0};
constexpr draw::Colour kTint{0.955, 0.95, 0.935, 1.0};

const Words kBody{.size = 3.0, .ltr = true};
const Words kSmall{.size = 2.4, .colour = kMuted, .ltr = true};
const Words kCellWords{.size = 2.35};
const Words kHead{.size = 2.35, .colour = kMuted, .bold = true};

using Draw = std::function<void(Canvas&)>;

// Fills sheets from the top; whatever is put is drawn later.
class Sheets {
 public:
  explicit Sheets(const Canvas& measure) : measure_(measure) { turn(); }

  const Canvas& measure() const { return measure_; }
  double y() const { return y_; }
  double room() const { return kBottom - y_; }
  void need(double height) {
    if (room() < height && y_ > kTop) turn();
  }
  void turn() {
    pages_.push_back({});
    y_ = kTop;
  }
  void skip(double height) { y_ += height; }
  void put(Draw draw) { pages_.back().push_back(std::move(draw)); }
  // Words across the given stretch of the sheet, the pen moved below them.
  void words(const std::string& text, const Words& style, double x = kLeft, double width = kWidth) {
    const double height = measure_.paragraph_height(width, text, style);
    need(height);
    put([=, at = Vec2{x, y_}](Canvas& c) { c.paragraph(at, width, text, style); });
    y_ += height;
  }
  std::vector<std::vector<Draw>> take() { return std::move(pages_); }

 private:
  const Canvas& measure_;
  std::vector<std::vector<Draw>> pages_;
  double y_ = kTop;
};

std::string marked(Mark mark, const std::string& words) {
  return mark == Mark::none ? words : std::string(sign(mark)) + " " + words;
}

void rule(Sheets& sheets, double width = 0.2) {
  sheets.put([y = sheets.y(), width](Canvas& c) {
    c.line({{kLeft, y}, {kLeft + kWidth, y}}, {kRule, width});
  });
}

void set_picture(Sheets& sheets, const draw::Figure& figure) {
  const double caption = sheets.measure().paragraph_height(kWidth, figure.caption, kSmall);
  sheets.need(figure.size.y + caption + 2.0 * kGap);
  const Vec2 at{kLeft + 0.5 * (kWidth - figure.size.x), sheets.y()};
  sheets.put([&figure, at](Canvas& c) { c.inset(at, figure); });
  sheets.skip(figure.size.y + 1.0);
  sheets.words(figure.caption, kSmall);
  sheets.skip(2.0 * kGap);
}

double card_height(const Canvas& m, const Card& card) {
  double h = m.paragraph_height(kWidth - 30.0, card.text, kBody);
  if (!card.to_do.empty()) h += m.paragraph_height(kWidth - 30.0, "→ " + card.to_do, kSmall) + 0.4;
  if (!card.place.empty()) h += m.paragraph_height(kWidth - 30.0, card.place, kSmall) + 0.4;
  return h + 2.6;
}

void set_card(Sheets& sheets, const Card& card) {
  sheets.need(card_height(sheets.measure(), card));
  rule(sheets, 0.12);
  sheets.skip(1.1);
  sheets.put([at = Vec2{kLeft, sheets.y()}, text = marked(card.mark, to_string(card.mark))](
                 Canvas& c) { c.paragraph(at, 27.0, text, {.size = 2.8, .bold = true}); });
  const double x = kLeft + 30.0;
  const double width = kWidth - 30.0;
  sheets.words(card.text, kBody, x, width);
  if (!card.to_do.empty()) sheets.words("→ " + card.to_do, kSmall, x, width);
  if (!card.place.empty()) sheets.words(card.place, kSmall, x, width);
  sheets.skip(1.5);
}

struct Columns {
  std::vector<std::size_t> shown;
  std::vector<double> x, width;
};

Columns columns_of(const Table& table) {
  Columns out;
  double sum = 0.0;
  for (const Column& c : table.columns) sum += c.share;
  double x = kLeft;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    if (table.columns[k].share <= 0.0) continue;
    const double width = kWidth * table.columns[k].share / sum;
    out.shown.push_back(k);
    out.x.push_back(x);
    out.width.push_back(width - 2.5);
    x += width;
  }
  return out;
}

Words aligned(Words style, const Column& column) {
  if (column.right) style.anchor = draw::Anchor::end;
  return style;
}

// One row of words under the columns; returns its height.
double row_height(const Canvas& m, const Columns& columns, const std::vector<std::string>& texts,
                  const Words& style) {
  double h = 0.0;
  for (std::size_t k = 0; k < texts.size(); ++k) {
    h = std::max(h, m.paragraph_height(columns.width[k], texts[k], style));
  }
  return h + 1.6;
}

void set_row(Sheets& sheets, const Table& table, const Columns& columns,
             const std::vector<std::string>& texts, const Words& style) {
  const double h = row_height(sheets.measure(), columns, texts, style);
  for (std::size_t k = 0; k < texts.size(); ++k) {
    sheets.put([at = Vec2{columns.x[k], sheets.y() + 0.8}, width = columns.width[k],
                text = texts[k], s = aligned(style, table.columns[columns.shown[k]])](Canvas& c) {
      c.paragraph(at, width, text, s);
    });
  }
  sheets.skip(h);
  rule(sheets, 0.1);
}

void set_head(Sheets& sheets, const Table& table, const Columns& columns, bool again) {
  if (!table.title.empty()) {
    sheets.words(table.title + (again ? " (continued)" : ""), {.size = 3.1, .bold = true});
    sheets.skip(0.8);
  }
  std::vector<std::string> texts;
  for (const std::size_t k : columns.shown) texts.push_back(table.columns[k].title);
  set_row(sheets, table, columns, texts, kHead);
}

std::vector<std::string> texts_of(const std::vector<Cell>& row, const Columns& columns) {
  std::vector<std::string> texts;
  for (const std::size_t k : columns.shown) texts.push_back(marked(row[k].mark, row[k].text));
  return texts;
}

void set_table(Sheets& sheets, const Table& table) {
  const Columns columns = columns_of(table);
  const double first = table.rows.empty()
                           ? 6.0
                           : row_height(sheets.measure(), columns,
                                        texts_of(table.rows.front(), columns), kCellWords);
  sheets.need(14.0 + first);
  set_head(sheets, table, columns, false);
  for (std::size_t r = 0; r < table.rows.size(); r += table.shown_every) {
    const auto texts = texts_of(table.rows[r], columns);
    if (sheets.room() < row_height(sheets.measure(), columns, texts, kCellWords)) {
      sheets.turn();
      set_head(sheets, table, columns, true);
    }
    set_row(sheets, table, columns, texts, kCellWords);
  }
  if (table.rows.empty()) sheets.words("none", kCellWords);
  sheets.skip(1.0);
  if (!table.note.empty()) sheets.words(table.note, kSmall);
  sheets.skip(2.0 * kGap);
}

void set_bullets(Sheets& sheets, const std::vector<std::string>& lines, const Words& style) {
  for (const std::string& line : lines) {
    sheets.need(sheets.measure().paragraph_height(kWidth - 4.0, line, style));
    sheets.put(
        [at = Vec2{kLeft, sheets.y()}, style](Canvas& c) { c.paragraph(at, 4.0, "·", style); });
    sheets.words(line, style, kLeft + 4.0, kWidth - 4.0);
    sheets.skip(0.6);
  }
}

void set_facts(Sheets& sheets, const std::vector<std::pair<std::string, std::string>>& list) {
  for (const auto& [term, what] : list) {
    sheets.need(sheets.measure().paragraph_height(kWidth - 45.0, what, kBody));
    sheets.put([at = Vec2{kLeft, sheets.y()}, text = term](Canvas& c) {
      c.paragraph(at, 43.0, text, {.size = 3.0, .colour = kMuted});
    });
    sheets.words(what, kBody, kLeft + 45.0, kWidth - 45.0);
    sheets.skip(0.5);
  }
}

struct Setter {
  Sheets& sheets;
  void operator()(const Text& t) const {
    Words style = t.tone == Tone::lead    ? Words{.size = 3.4}
                  : t.tone == Tone::small ? kSmall
                                          : kBody;
    style.ltr = !t.users_own;
    sheets.words(t.text, style);
    sheets.skip(kGap);
  }
  void operator()(const Heading& h) const {
    sheets.need(20.0);
    sheets.words(h.text, {.size = 3.4, .bold = true});
    sheets.skip(1.2);
  }
  void operator()(const Bullets& b) const {
    set_bullets(sheets, b.lines, kBody);
    sheets.skip(kGap);
  }
  void operator()(const Facts& f) const {
    set_facts(sheets, f.list);
    sheets.skip(kGap);
  }
  void operator()(const Table& t) const { set_table(sheets, t); }
  void operator()(const Cards& c) const {
    for (const Card& card : c.list) set_card(sheets, card);
    sheets.skip(kGap);
  }
  void operator()(const Picture& p) const { set_picture(sheets, p.figure); }
  void operator()(const TurnModel& t) const { set_picture(sheets, t.still); }
};

// --- page one

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
  for (const Block& block : chapter.blocks) std::visit(Setter{sheets}, block);
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
