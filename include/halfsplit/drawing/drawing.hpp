// The harness of one network as a picture: SVG for paper and pages, text for a terminal. Pure: the same
// harness and marks give the same picture, to the byte.
//
// The bus runs along rows from left to right, in the order of harness/trunk.hpp; what branches off hangs
// below where it leaves; where a ring comes round again that is said. Every state is told by a sign and a
// word, never by colour alone. Names are shown as text, whatever they hold.
#pragma once

#include "halfsplit/harness/harness.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace halfsplit::drawing {

// What a job knows, by part id.
struct Marks {
    std::map<std::string, double> suspects;  // chance, 0 to 1
    std::set<std::string> cleared, unplugged, found;
    std::string clip, probe;  // a terminal ("X3.a:4"), point or part; empty: none
};

// Where a text stands, in the picture's own units from the top left. The text is set to that width whatever
// the font.
struct LabelBox {
    double x = 0, y = 0, width = 0, height = 0;
    std::string text;
};

class Drawing {
  public:
    // Keeps a reference to the harness. `prefix`: of the ids within the SVG, for pages with more than one.
    Drawing(const harness::Harness& harness, harness::Index network, std::string prefix = "bus");
    ~Drawing();
    Drawing(Drawing&&) noexcept;

    // A whole picture, an <svg> element that can stand alone or in a page. Linear in the network's parts.
    std::string svg(const Marks& marks) const;
    // The texts of that picture: no two boxes overlap.
    std::vector<LabelBox> labels(const Marks& marks) const;

    // The bare bus in small, once, as <symbol>; and a small picture that uses it and shows the marks alone.
    std::string symbol(const std::string& id) const;
    std::string step(const std::string& symbol_id, const Marks& marks) const;

    // One part a line under the name of its place, in lines of at most `columns` (at least 30).
    std::string text(const Marks& marks, std::size_t columns) const;

  private:
    struct Plan;
    std::unique_ptr<Plan> plan_;
};

// Text and background pairs of the picture, as #rrggbb, for whoever checks their contrast.
std::vector<std::pair<std::string, std::string>> text_colours();

}  // namespace halfsplit::drawing
