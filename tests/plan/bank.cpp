#include "plan/bank.hpp"

#include <fmt/format.h>

#include "plan/random_problem.hpp"

#include <random>

namespace halfsplit::plan {

namespace {

constexpr std::size_t most_points_any_time = 12;

class Draw {
  public:
    explicit Draw(std::size_t number) : engine_(static_cast<unsigned>(number) + 1) {}
    std::size_t below(std::size_t count) { return engine_() % count; }
    bool one_in(std::size_t count) { return below(count) == 0; }

  private:
    std::mt19937 engine_;
};

// In the middle of a hunt: some covers off, with those over them, and the technician somewhere else.
void put_under_way(Problem& problem, Draw& draw) {
    problem.start.place = draw.below(problem.workshop.places());
    for (std::size_t c = 0; c < problem.workshop.covers(); ++c)
        if (draw.one_in(3)) problem.start.off |= problem.workshop.closure(access::CoverSet{1} << c);
}

// Squared, which every machine does alike.
void skew(Problem& problem) {
    for (Hypothesis& hypothesis : problem.hypotheses) hypothesis.probability *= hypothesis.probability;
}

}  // namespace

Banked banked(std::size_t number) {
    Draw draw(number);
    ChainShape shape;
    shape.points = 4 + draw.below(21);
    shape.places = 1 + draw.below(6);
    shape.covers = draw.below(11);
    shape.two_lines = draw.one_in(2);
    shape.joints = shape.two_lines && draw.one_in(2);
    shape.whole_bus = draw.one_in(3);
    shape.shorts = shape.whole_bus && shape.points <= 5;  // more of them are a group without a proven order
    const bool any_time = !shape.two_lines || shape.points <= most_points_any_time;
    shape.bare = !any_time || !draw.one_in(5);
    const bool skewed = draw.one_in(4), under_way = draw.one_in(4);

    Banked result;
    result.looks = any_time ? Looks::AnyTime : Looks::Last;
    result.problem = random_chain(shape, static_cast<unsigned>(number) + 1);
    if (skewed) skew(result.problem);
    if (under_way) put_under_way(result.problem, draw);
    result.description = fmt::format(
        "{} points {} places {} covers {}{}{}{}{}{}{}{}", shape.points, shape.places, shape.covers,
        shape.two_lines ? "two-lines" : "one-line", shape.joints ? "+joints" : "",
        shape.whole_bus ? "+whole-bus" : "", shape.shorts ? "+shorts" : "", shape.bare ? "" : "+isolating",
        skewed ? "+skewed" : "", under_way ? "+under-way" : "", any_time ? "" : "+looks-last");
    return result;
}

}  // namespace halfsplit::plan
