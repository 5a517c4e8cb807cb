// Distances along a run: published examples, and the uncertainty against a simulation of many measurements.
#include "halfsplit/electrics/distance.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <random>
#include <vector>

using namespace halfsplit::electrics;

namespace {

Uncertain exact(double value) {
    return {value, 0};
}

// Mean and standard deviation of a formula whose inputs scatter by their deviations. Seeded.
template <typename Formula>
Uncertain simulated(const std::vector<Uncertain>& inputs, Formula formula) {
    constexpr int draws = 200'000;
    std::mt19937_64 random(20261125);
    double sum = 0, squares = 0;
    for (int i = 0; i < draws; ++i) {
        std::vector<double> drawn;
        drawn.reserve(inputs.size());
        for (const Uncertain& input : inputs)
            drawn.push_back(std::normal_distribution<double>(input.value, input.deviation)(random));
        const double value = formula(drawn);
        sum += value;
        squares += value * value;
    }
    const double mean = sum / draws;
    return {mean, std::sqrt(squares / draws - mean * mean)};
}

// First order leaves out what is quadratic: a few thousandths with inputs of a few per cent.
void check_alike(const Uncertain& propagated, const Uncertain& drawn) {
    CHECK(propagated.value == Approx(drawn.value).epsilon(0.003));
    CHECK(propagated.deviation == Approx(drawn.deviation).epsilon(0.02));
}

}  // namespace

// Telephone outside-plant test set manual, p. 64, open by ratio: 240 and 110 on 290 ft.
TEST_CASE("an open by ratio of capacitance lies 91.14 ft from the end that read less") {
    CHECK(distance_by_capacitance(exact(290), exact(110), exact(240)).value == Approx(91.14).margin(0.005));
    CHECK(distance_by_capacitance(exact(290), exact(240), exact(110)).value == Approx(198.86).margin(0.005));
}

// Exam solution of a power company (MGVCL, 30 July 2021): 600 m, ratio 3 : 1, 300 m.
TEST_CASE("a Murray loop of 600 m at 3 to 1 finds the fault at 300 m") {
    CHECK(distance_by_murray(exact(600), exact(3), exact(1)).value == Approx(300));
}

// Hawkins Electrical Guide, vol. 3 (1914), fig. 597: slide at 332 of 1000, loop 54.07 ohm, 16.46 ohm a mile.
TEST_CASE("a Murray loop by ohms finds the fault at 1.09 mile") {
    const Uncertain ohm = ohms_by_murray(exact(54.07), exact(1000 - 332), exact(332));
    CHECK(ohm.value == Approx(17.951).margin(0.0005));
    CHECK(length_of(ohm, exact(16.46)).value == Approx(1.09).margin(0.005));
}

// Textbook problem (statement published, answer computed and nulled in a circuit simulator): P 15, Q 40, 10
// ohm to the fault, 20 ohm around the loop, 0.5 ohm a kilometre.
TEST_CASE("a Varley loop finds the fault at 5.4545 km") {
    const Uncertain ohm = ohms_by_varley(exact(15), exact(40), exact(10), exact(20));
    CHECK(ohm.value == Approx(2.7273).margin(0.00005));
    CHECK(length_of(ohm, exact(0.5)).value == Approx(5.4545).margin(0.00005));
}

// Computed, and run in ngspice 39.3: five segments of 0.05 ohm a line, 0.1 ohm from H to L at the third node.
TEST_CASE("the ohms of a short cancel when it is read from both ends") {
    CHECK(distance_by_ohms(exact(5), exact(0.3), exact(0.4), exact(0.05), 2).value == Approx(2));
    CHECK(distance_by_ohms(exact(5), exact(100.3), exact(100.4), exact(0.05), 2).value == Approx(2));
    CHECK(distance_by_ohms(exact(5), exact(0.2), exact(0.25), exact(0.05), 1).value == Approx(2));
}

TEST_CASE("the uncertainty of each formula is what many measurements scatter by") {
    const Uncertain length{8, 0.4}, near{180e-12, 8e-12}, far{300e-12, 9e-12};
    check_alike(distance_by_capacitance(length, near, far),
                simulated({length, near, far}, [](const auto& x) { return x[0] * x[1] / (x[1] + x[2]); }));
    const Uncertain near_ohm{0.9, 0.02}, far_ohm{1.3, 0.03}, r{0.035, 0.001};
    check_alike(distance_by_ohms(length, near_ohm, far_ohm, r, 2),
                simulated({length, near_ohm, far_ohm, r},
                          [](const auto& x) { return x[0] / 2 + (x[1] - x[2]) / (4 * x[3]); }));
    const Uncertain p{300, 6}, q{100, 2};
    check_alike(distance_by_murray(length, p, q),
                simulated({length, p, q}, [](const auto& x) { return x[2] / (x[1] + x[2]) * 2 * x[0]; }));
    const Uncertain fault{10, 0.1}, loop{20, 0.1};
    check_alike(ohms_by_varley(p, q, fault, loop), simulated({p, q, fault, loop}, [](const auto& x) {
                    return x[0] * (x[3] - x[2]) / (x[0] + x[1]);
                }));
    check_alike(length_of({2.7, 0.1}, {0.5, 0.01}),
                simulated({{2.7, 0.1}, {0.5, 0.01}}, [](const auto& x) { return x[0] / x[1]; }));
}

TEST_CASE("figures that no fault can show are refused in words") {
    const auto why = [](auto&& formula) {
        try {
            (void)formula();
        } catch (const ImpossibleDistance& error) {
            return std::string(error.what());
        }
        return std::string("accepted");
    };
    CHECK(why([] { return distance_by_capacitance(exact(8), exact(-1), exact(2)); }) == "-1 is below zero");
    CHECK(why([] { return distance_by_capacitance(exact(8), exact(0), exact(0)); }) ==
          "the two figures add up to nothing");
    CHECK(why([] { return distance_by_capacitance(exact(0), exact(1), exact(2)); }) == "the length is zero");
    CHECK(why([] { return distance_by_capacitance({8, -1}, exact(1), exact(2)); }) == "8 is below zero");
    CHECK(why([] { return distance_by_capacitance(exact(8), exact(INFINITY), exact(2)); }) ==
          "a figure is over the range or not a number");
    CHECK(why([] { return distance_by_murray(exact(300), exact(NAN), exact(1)); }) ==
          "a figure is over the range or not a number");
    // With the arms mixed up 200 m of 300 m would be 400 m.
    CHECK(why([] { return distance_by_murray(exact(300), exact(1), exact(2)); }) ==
          "the figures put the fault 100 outside a length of 300");
    CHECK(why([] { return distance_by_ohms(exact(5), exact(3), exact(0.4), exact(0.05), 2); }) ==
          "the figures put the fault 10.5 outside a length of 5");
    CHECK(why([] { return distance_by_ohms(exact(5), exact(3), exact(3), exact(0), 2); }) ==
          "the resistance of the wire is zero");
    CHECK(why([] { return ohms_by_varley(exact(15), exact(40), exact(20), exact(10)); }) ==
          "the balance around the loop is below the one to the fault");
    CHECK(why([] { return length_of(exact(1), exact(0)); }) == "the resistance of the wire is zero");
}

TEST_CASE("what lies outside by less than its uncertainty allows is set at the end") {
    const Uncertain near{0.4, 0.05}, far{1.0, 0.05};  // half a metre before the run begins
    const Uncertain found = distance_by_ohms(exact(5), near, far, exact(0.05), 2);
    CHECK(found.value == 0);
    CHECK(found.deviation == Approx(std::hypot(0.05, 0.05) / 0.2));
    CHECK_THROWS_AS(distance_by_ohms(exact(5), {0.4, 0.001}, {1.0, 0.001}, exact(0.05), 2),
                    ImpossibleDistance);
}
