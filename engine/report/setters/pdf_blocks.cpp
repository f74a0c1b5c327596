#include <algorithm>
#include <variant>

#include "engine/report/setters/pdf_sheets.h"

namespace hummock::report {

std::string marked(Mark mark, const std::string& words) {
  return mark == Mark::none ? words : std::string(sign(mark)) + " " + words;
}

void rule(Sheets& sheets, double width) {
  sheets.put([y = sheets.y(), width](Canvas& c) {
    c.line({{kLeft, y}, {kLeft + kWidth, y}}, {kRule, width});
  });
}

namespace {

void set_picture(Sheets& sheets, const draw::Figure& figure) {
  const double caption = sheets.measure().paragraph_height(kWidth, figure.caption, kSmall);
  sheets.need(figure.size.y + caption + 2.0 * kGap);
  const Vec2 at{kLeft + 0.5 * (kWidth - figure.size.x), sheets.y()};
  sheets.put([&figure, at](Canvas& c) { c.inset(at, figure); });
  sheets.skip(figure.size.y + 1.0);
  sheets.words(figure.caption, kSmall);
  sheets.skip(2.0 * kGap);
}

}  // namespace

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

namespace {

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

}  // namespace

void set_bullets(Sheets& sheets, const std::vector<std::string>& lines, const Words& style) {
  for (const std::string& line : lines) {
    sheets.need(sheets.measure().paragraph_height(kWidth - 4.0, line, style));
    sheets.put(
        [at = Vec2{kLeft, sheets.y()}, style](Canvas& c) { c.paragraph(at, 4.0, "·", style); });
    sheets.words(line, style, kLeft + 4.0, kWidth - 4.0);
    sheets.skip(0.6);
  }
}

namespace {

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

struct SheetSetter {
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

}  // namespace

void set_block(Sheets& sheets, const Block& block) {
  std::visit(SheetSetter{sheets}, block);
}

}  // namespace hummock::report
