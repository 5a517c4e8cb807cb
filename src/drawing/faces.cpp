// Faces of connectors as one looks at them, with the cavities of the bus and of the probe.
#include "halfsplit/base/text.hpp"

#include <fmt/format.h>

#include "drawing/bus_scene.hpp"

#include <algorithm>

namespace halfsplit::drawing {

namespace {

using harness::Harness;
using harness::Index;
using harness::none;
using harness::Part;

constexpr double least_pitch = 20, face_top = 34, gap = 24, face_margin = 12, cavity_size = 8;

double width_of_text(const std::string& text) {
    return character_advance * cavity_size * static_cast<double>(display_width(text));
}

// From cavity to cavity; more where they have long names, which stand beside the circle's edge then.
double pitch_of(const harness::Face& face) {
    double widest = 0;
    for (const std::string& cavity : face.cavities) widest = std::max(widest, width_of_text(cavity) + 7);
    return std::max(least_pitch, widest);
}

class FaceScene {
  public:
    FaceScene(const Harness& harness, Index network, const Marks& marks, Canvas& canvas)
        : harness_(harness), network_(network), marks_(marks), canvas_(canvas) {}

    // Half b is looked at from the other side: left and right change places.
    void draw(Index part, double x, double y, double width) {
        const Part& own = harness_.parts[part];
        const char half = half_of(own);
        canvas_.text(x, y + 12, width, fmt::format("{}{}", own.id, half == 0 ? "" : fmt::format(".{}", half)),
                     {.size = 11, .bold = true});
        canvas_.text(x, y + 26, width, half == 'b' ? "half b, from its mating side" : "from the mating side",
                     {.size = 9});
        const double pitch = pitch_of(own.face);
        for (std::size_t i = 0; i < own.face.cavities.size(); ++i) {
            const std::size_t row = i / own.face.columns;
            const std::size_t seen = i % own.face.columns;
            const std::size_t column = half == 'b' ? own.face.columns - 1 - seen : seen;
            draw_cavity(part, half, own.face.cavities[i], x + pitch * (static_cast<double>(column) + 0.5),
                        y + face_top + least_pitch * (static_cast<double>(row) + 0.5));
        }
    }

  private:
    char half_of(const Part& own) const {
        if (own.kind != harness::PartKind::Connector) return 0;
        for (const std::string& tip : {marks_.probe, marks_.clip})
            if (part_of(tip) == own.id && tip.size() > own.id.size() + 1 && tip[own.id.size()] == '.')
                return tip[own.id.size() + 1];
        return 'a';
    }

    // A tip names one terminal, or a point of two.
    bool holds(const std::string& tip, Index terminal) const {
        if (harness::find_terminal(harness_, tip) == terminal) return true;
        const Index point = harness::find_point(harness_, tip);
        if (point == none) return false;
        const std::vector<Index> both = harness::terminals_of(harness_.points[point]);
        return std::find(both.begin(), both.end(), terminal) != both.end();
    }

    void draw_cavity(Index part, char half, const std::string& cavity, double x, double y) {
        if (cavity.empty()) return;
        const std::string name =
            harness_.parts[part].id + (half == 0 ? "" : fmt::format(".{}", half)) + ":" + cavity;
        const Index own = harness::find_terminal(harness_, name);
        const bool ours = own != none && harness_.terminals[own].network == network_;
        const double reach = std::max(7.4, width_of_text(cavity) / 2 + 1);
        if (own != none && (holds(marks_.probe, own) || holds(marks_.clip, own)))
            canvas_.rectangle(
                x - reach - 2, y - 9.4, 2 * reach + 4, 18.8,
                fmt::format("rx=\"9.4\" fill=\"none\" stroke=\"{}\" stroke-width=\"2.4\"", tip_ink));
        canvas_.rectangle(x - reach, y - 7.4, 2 * reach, 14.8,
                          fmt::format("rx=\"7.4\" fill=\"{}\" stroke=\"{}\"", ours ? ink : paper, ink));
        canvas_.text(x - width_of_text(cavity) / 2, y + 2.8, width_of_text(cavity) + 0.1, cavity,
                     {.size = cavity_size, .bold = ours, .colour = ours ? paper : ink});
    }

    const Harness& harness_;
    Index network_;
    const Marks& marks_;
    Canvas& canvas_;
};

bool carries(const Harness& harness, Index part, Index network) {
    return std::any_of(harness.terminals.begin(), harness.terminals.end(), [&](const harness::Terminal& own) {
        return own.part == part && own.network == network;
    });
}

}  // namespace

double draw_faces(const Harness& harness, Index network, const Marks& marks, double top, double width,
                  Canvas& canvas) {
    std::vector<Index> shown;
    for (Index part = 0; part < harness.parts.size(); ++part)
        if (harness.parts[part].face.columns > 0 && carries(harness, part, network)) shown.push_back(part);
    const auto touched = [&](Index part) {
        const std::string& id = harness.parts[part].id;
        return part_of(marks.probe) == id || part_of(marks.clip) == id;
    };
    std::stable_partition(shown.begin(), shown.end(), touched);
    FaceScene scene(harness, network, marks, canvas);
    double x = face_margin, y = top, tallest = 0;
    for (const Index part : shown) {
        const harness::Face& face = harness.parts[part].face;
        const double wide = std::max(150.0, pitch_of(face) * static_cast<double>(face.columns));
        if (x > face_margin && x + wide > width) {
            x = face_margin;
            y += tallest + gap;
            tallest = 0;
        }
        scene.draw(part, x, y, wide);
        tallest = std::max(tallest, face_top + least_pitch * static_cast<double>(face.rows));
        x += wide + gap;
    }
    return shown.empty() ? 0 : y + tallest + gap - top;
}

}  // namespace halfsplit::drawing
