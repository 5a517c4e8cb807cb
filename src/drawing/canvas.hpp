// SVG as it is written: shapes first, texts on top, each text in a box of its own.
#pragma once

#include "halfsplit/drawing/drawing.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::drawing {

// "&", "<" and quotes as XML has them, control characters as "?".
std::string escaped(std::string_view text);

// Advance of a character as a share of the size, generous for common sans-serif faces. Texts are set to
// exactly what is reckoned by it, so that their boxes hold whatever the font.
inline constexpr double character_advance = 0.58;

struct TextStyle {
    double size = 10;
    bool bold = false;
    std::string_view colour = "#111111";
};

class Canvas {
  public:
    enum class Cuts { Plain, Numbered };
    explicit Canvas(Cuts cuts = Cuts::Plain) : cuts_(cuts) {}

    // `style`: further attributes, such as fill="#fff".
    void rectangle(double x, double y, double width, double height, std::string_view style);
    void line(double x1, double y1, double x2, double y2, std::string_view style);
    void circle(double x, double y, double radius, std::string_view style);
    void path(std::string_view data, std::string_view style);
    void open_group(std::string_view title);  // `title` as it is read out; escaped here
    void close_group();
    // Text from `x` on in a box of `width`, cut short where it does not fit. A canvas that numbers what is
    // cut then says "[2]" behind it, and has the whole of it, or `whole` where that is given, in
    // names_in_full().
    void text(double x, double y, double width, std::string_view words, const TextStyle& style = {},
              std::string_view whole = {});

    const std::string& shapes() const { return shapes_; }
    const std::string& texts() const { return texts_; }
    const std::vector<LabelBox>& labels() const { return labels_; }
    const std::vector<std::string>& names_in_full() const { return names_in_full_; }  // [1] first

  private:
    std::string shortened(const std::string& words, std::size_t characters, std::string_view whole);

    Cuts cuts_;
    std::vector<std::string> names_in_full_;
    std::string shapes_, texts_;
    std::vector<LabelBox> labels_;
};

// Colours of the picture; text_colours() pairs them.
inline constexpr std::string_view ink = "#111111", paper = "#ffffff", band = "#e8edf3",
                                  cover_band = "#d5dde8", suspect_ink = "#7a2e00", good_ink = "#0b4f36",
                                  found_ink = "#5b0f6e", tip_ink = "#12407a";

}  // namespace halfsplit::drawing
