#include "ui/widgets/FractionText.h"

#include <QCache>
#include <QFontMetricsF>
#include <QHashFunctions>
#include <QPainter>

#include <algorithm>
#include <memory>

#include "core/papers/FractionText.h"
#include "ui/widgets/Words.h"

namespace stavewright::ui {

namespace {

/// A piece of a text: plain words, or one fraction.
struct TextRun {
    QString text; ///< plain text; empty for a fraction
    QString numerator;
    QString denominator;
    [[nodiscard]] bool isFraction() const { return !denominator.isEmpty(); }
};

/// One rule for the window and the papers says what a fraction is.
std::vector<TextRun> textRuns(const QString& text) {
    std::vector<TextRun> runs;
    for (const papers::TextRun& run : papers::runsOf(text.toStdString())) {
        runs.push_back({words(run.text), words(run.numerator), words(run.denominator)});
    }
    return runs;
}

// On a screen the figures need more pixels than a share of the type size that suits paper, so the
// bar leans: numerator and denominator then stand side by side and may be larger.
constexpr double smallShare = 0.66; // size of the figures of a fraction against the whole number

QFont smallFont(const QFont& font) {
    QFont small = font;
    if (font.pixelSize() > 0) {
        small.setPixelSize(std::max(6, static_cast<int>(font.pixelSize() * smallShare + 0.5)));
    } else {
        small.setPointSizeF(std::max(5.0, font.pointSizeF() * smallShare));
    }
    if (font.weight() < QFont::Medium) {
        small.setWeight(QFont::Medium); // keeps the strokes as dark as the whole number's
    }
    return small;
}

struct Metrics {
    QFontMetricsF plain;
    QFontMetricsF small;
    explicit Metrics(const QFont& font)
        : plain(font)
        , small(smallFont(font)) {}
    [[nodiscard]] double gap() const { return plain.capHeight() * 0.10; }
    [[nodiscard]] double barWidth() const { return plain.capHeight() * 0.42; }
    [[nodiscard]] double widthOf(const TextRun& run) const {
        if (!run.isFraction()) {
            return plain.horizontalAdvance(run.text);
        }
        return gap() + small.horizontalAdvance(run.numerator) + barWidth() +
               small.horizontalAdvance(run.denominator) + gap();
    }
};

double widthOf(const std::vector<TextRun>& runs, const Metrics& metrics) {
    double width = 0;
    for (const TextRun& run : runs) {
        width += metrics.widthOf(run);
    }
    return width;
}

void drawRuns(QPainter& painter, QPointF baseline, const std::vector<TextRun>& runs,
              const Metrics& metrics) {
    const QFont font = painter.font();
    for (const TextRun& run : runs) {
        if (!run.isFraction()) {
            painter.drawText(baseline, run.text);
            baseline.rx() += metrics.widthOf(run);
            continue;
        }
        const double cap = metrics.plain.capHeight();
        const double smallCap = metrics.small.capHeight();
        double x = baseline.x() + metrics.gap();
        painter.setFont(smallFont(font));
        painter.drawText(QPointF(x, baseline.y() - cap + smallCap), run.numerator);
        x += metrics.small.horizontalAdvance(run.numerator);
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(painter.pen().color(), std::max(0.8, cap * 0.085)));
        painter.drawLine(QPointF(x, baseline.y() + cap * 0.04),
                         QPointF(x + metrics.barWidth(), baseline.y() - cap * 1.04));
        painter.restore();
        x += metrics.barWidth();
        painter.drawText(QPointF(x, baseline.y()), run.denominator);
        painter.setFont(font);
        baseline.rx() += metrics.widthOf(run);
    }
}

/// A word with its fraction: what must stay on one line ("27 1/2").
using Word = std::vector<TextRun>;

std::vector<Word> wordsOf(const QString& line) {
    std::vector<Word> words;
    bool open = false; // the next run continues the last word
    for (const TextRun& run : textRuns(line)) {
        if (run.isFraction()) {
            if (words.empty() || !open) {
                words.emplace_back();
            }
            words.back().push_back(run);
            open = true;
            continue;
        }
        const QStringList pieces = run.text.split(' ');
        for (qsizetype i = 0; i < pieces.size(); ++i) {
            if (i > 0) {
                open = false;
            }
            if (pieces[i].isEmpty()) {
                continue;
            }
            if (!open) {
                words.emplace_back();
            }
            words.back().push_back({pieces[i], {}, {}});
            open = true;
        }
    }
    return words;
}

struct MeasuredWord {
    Word word;
    double wide = 0;
};

/// What of a text is the same wherever it is broken.
struct MeasuredText {
    double wide = 0; ///< on one line
    double space = 0;
    double lineHeight = 0;
    double lineSpacing = 0; ///< of the lines below the first
    std::vector<std::vector<MeasuredWord>> paragraphs;
};

struct TextInFont {
    QString text;
    QFont font;
    friend bool operator==(const TextInFont& a, const TextInFont& b) {
        return a.text == b.text && a.font == b.font;
    }
    friend size_t qHash(const TextInFont& key, size_t seed) {
        return qHashMulti(seed, key.text, key.font);
    }
};

constexpr int textsKept = 4000;

/// Layouts and views ask for the same texts over and over; shaping them is what takes long.
const MeasuredText& measured(const QString& text, const QFont& font) {
    thread_local QCache<TextInFont, MeasuredText> known(textsKept);
    const TextInFont key{text, font};
    if (const MeasuredText* found = known.object(key)) {
        return *found;
    }
    const Metrics metrics(font);
    auto fresh = std::make_unique<MeasuredText>();
    fresh->space = metrics.plain.horizontalAdvance(' ');
    const std::vector<TextRun> runs = textRuns(text);
    const bool hasFractions =
        std::any_of(runs.begin(), runs.end(), [](const TextRun& run) { return run.isFraction(); });
    fresh->wide = widthOf(runs, metrics);
    // Leaning bars reach over the capitals: lines need a little more air between them.
    fresh->lineHeight = metrics.plain.lineSpacing();
    fresh->lineSpacing = fresh->lineHeight + (hasFractions ? 2 : 0);
    for (const QString& paragraph : text.split('\n')) {
        std::vector<MeasuredWord>& line = fresh->paragraphs.emplace_back();
        for (Word& word : wordsOf(paragraph)) {
            const double wide = widthOf(word, metrics);
            line.push_back({std::move(word), wide});
        }
    }
    const MeasuredText& kept = *fresh;
    known.insert(key, fresh.release()); // the cache owns it
    return kept;
}

/// Lays the text out and hands each word to `place(words, x, line)`; returns the number of lines.
template <class Place>
int layOut(const MeasuredText& text, double width, Place place) {
    int line = 0;
    for (const std::vector<MeasuredWord>& paragraph : text.paragraphs) {
        double x = 0;
        for (const MeasuredWord& each : paragraph) {
            if (x > 0 && x + each.wide > width) {
                x = 0;
                ++line;
            }
            place(each.word, x, line);
            x += each.wide + text.space;
        }
        ++line;
    }
    return line;
}

double heightOf(const MeasuredText& text, int lines) {
    return text.lineHeight + (lines - 1) * text.lineSpacing;
}

} // namespace

double fractionTextWidth(const QString& text, const QFont& font) {
    return measured(text, font).wide;
}

void drawFractionText(QPainter& painter, const QRectF& rect, Qt::Alignment alignment,
                      const QString& text) {
    const Metrics metrics(painter.font());
    QString shown = text;
    std::vector<TextRun> runs = textRuns(shown);
    double width = widthOf(runs, metrics);
    while (width > rect.width() + 0.5 && shown.size() > 1) {
        shown.chop(shown.endsWith(QChar(0x2026)) ? 2 : 1);
        shown = shown.trimmed() + QChar(0x2026);
        runs = textRuns(shown);
        width = widthOf(runs, metrics);
    }
    double x = rect.left();
    if (alignment & Qt::AlignRight) {
        x = rect.right() - width;
    } else if (alignment & Qt::AlignHCenter) {
        x = rect.center().x() - width / 2;
    }
    double y = rect.top() + metrics.plain.ascent();
    if (alignment & Qt::AlignVCenter) {
        y = rect.center().y() + metrics.plain.capHeight() / 2;
    } else if (alignment & Qt::AlignBottom) {
        y = rect.bottom() - metrics.plain.descent();
    }
    drawRuns(painter, {x, y}, runs, metrics);
}

double drawWrappedFractionText(QPainter& painter, const QRectF& rect, const QString& text) {
    const Metrics metrics(painter.font());
    const MeasuredText& known = measured(text, painter.font());
    const double height = known.lineSpacing;
    const int lines = layOut(known, rect.width(), [&](const Word& word, double x, int line) {
        drawRuns(painter, {rect.left() + x, rect.top() + line * height + metrics.plain.ascent()},
                 word, metrics);
    });
    return heightOf(known, lines);
}

double wrappedFractionTextHeight(const QString& text, const QFont& font, double width) {
    const MeasuredText& known = measured(text, font);
    return heightOf(known, layOut(known, width, [](const Word&, double, int) {}));
}

} // namespace stavewright::ui
