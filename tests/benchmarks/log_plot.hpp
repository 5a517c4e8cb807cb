// A plain picture of figures over sizes, both on logarithmic scales, for print without colour.
#pragma once

#include <string>
#include <vector>

namespace halfsplit::test {

enum class Marker { Disc, Circle, Square, OpenSquare, Cross };

struct Series {
    std::string name;
    Marker marker = Marker::Disc;
    bool joined = true;  // by a line; dashed for the open markers
    struct Dot {
        double size = 0, figure = 0;  // both above 0
    };
    std::vector<Dot> dots;  // by rising size
};

struct Panel {
    std::string title;  // with the unit
    std::vector<Series> series;
};

struct Plot {
    std::string title, size_label;
    std::vector<Panel> panels;  // one below the other, over the same sizes
};

// An SVG document. Every size that occurs is labelled; figures at powers of ten. Titles and names are plain
// words, free of markup. Throws std::invalid_argument where there is nothing to show, or a size or figure is
// not above 0.
std::string svg(const Plot& plot);

}  // namespace halfsplit::test
