#pragma once
// What must hold of every page, whatever it shows; used with the plain measure here and with the
// bundled font in the PDF test.

#include <string>
#include <vector>

#include "core/papers/FractionText.h"
#include "core/papers/PageModel.h"
#include "core/papers/PaperUnits.h"

namespace stavewright::papers::checks {

/// A measure without a font: nominal widths a little over Inter's, so that what fits here fits
/// there.
class PlainMeasure : public TextMeasure {
  public:
    [[nodiscard]] Length widthOf(const std::string& utf8, double size, Weight) const override {
        return widthOfRuns(runsOf(utf8, size), size,
                           [](const std::string& plain, double plainSize) {
                               double ems = 0;
                               for (const char c : plain) {
                                   ems += emsOf(c);
                               }
                               return points(plainSize * ems);
                           });
    }

  private:
    static double emsOf(char c) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte & 0xC0) == 0x80) {
            return 0; // the rest of a character already counted
        }
        if (c == ' ' || c == '.' || c == ',' || c == ':' || c == 'i' || c == 'l') {
            return 0.3;
        }
        if (c >= 'A' && c <= 'Z') {
            return 0.74;
        }
        return c == 'm' || c == 'w' ? 0.9 : 0.63;
    }
};

inline std::vector<const Text*> textsOf(const Page& page) {
    std::vector<const Text*> texts;
    for (const Mark& mark : page.marks) {
        if (const auto* text = std::get_if<Text>(&mark)) {
            texts.push_back(text);
        }
    }
    return texts;
}

/// One sentence per pair of texts that lie on one another, and per text beyond the page's edge.
inline std::vector<std::string> clashesOf(const Page& page, const TextMeasure& measure) {
    std::vector<std::string> clashes;
    const std::vector<const Text*> texts = textsOf(page);
    std::vector<Rect> boxes;
    for (const Text* text : texts) {
        const Rect box = boxOf(*text, measure);
        boxes.push_back(box);
        if (box.x0 < Length() || box.y0 < Length() || page.width < box.x1 || page.height < box.y1) {
            clashes.push_back(page.title + ": \"" + text->utf8 + "\" runs off the page");
        }
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            if (boxes[i].overlaps(boxes[j])) {
                clashes.push_back(page.title + ": \"" + texts[i]->utf8 + "\" lies on \"" +
                                  texts[j]->utf8 + "\"");
            }
        }
    }
    return clashes;
}

} // namespace stavewright::papers::checks
