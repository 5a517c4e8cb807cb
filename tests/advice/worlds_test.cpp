// What has to hold in any world of harness, fault and technician. HALFSPLIT_WORLDS sets how many are tried;
// rehearsal_test.cpp plays whole hunts in such worlds.
#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/digest.hpp"
#include "halfsplit/diagnosis/belief.hpp"
#include "halfsplit/job/event.hpp"
#include "halfsplit/job/state.hpp"

#include "support/catch.hpp"
#include "support/files_of_tests.hpp"
#include "support/harnesses.hpp"
#include "support/how_many.hpp"
#include "support/random_harness.hpp"

#include <cmath>
#include <cstring>
#include <fstream>
#include <sstream>

using namespace halfsplit;
using namespace halfsplit::test;

namespace {

std::uint64_t worlds() {
    return how_many("HALFSPLIT_WORLDS", 20);
}

void append(std::vector<job::Record>& records, job::Body body) {
    const job::Sequence sequence = records.size() + 1;
    records.push_back({sequence, static_cast<UnixSeconds>(60 * sequence), {std::move(body), {}}});
}

// One harness, one fault in it, and a technician who writes down what the meter shows.
class World {
  public:
    explicit World(std::uint64_t seed)
        : dice_(seed),
          harness_(harness_from_text(random_harness_json(seed, {.most_points = 14}))),
          predictor_(harness_, 0) {
        const auto faults = diagnosis::all_faults(harness_, predictor_.circuit(0).assembly);
        truth_ = faults[dice_.below(faults.size())];
        append(records_, job::Intake{.complaint = "dead"});
        append(records_, job::SafeState{true, true, true, 10});
        for (int i = 0; i < 8; ++i) append(records_, reading());
    }

    const harness::Harness& harness() const { return harness_; }
    const diagnosis::Fault& truth() const { return truth_; }
    Random& dice() { return dice_; }
    const std::vector<job::Record>& records() const { return records_; }

    // At some point and the clip, what an honest meter shows of the fault.
    job::Reading reading() {
        const auto& clip = harness_.points[harness_.networks[0].clip].terminal;
        for (;;) {
            const auto& point = harness_.points[dice_.below(harness_.points.size())];
            const std::size_t line = dice_.below(2);
            if (point.terminal[line] == harness::none || point.terminal[line] == clip[line]) continue;
            const diagnosis::Tips tips{diagnosis::at(point.terminal[line]), diagnosis::at(clip[line])};
            const double ohm = predictor_.ohms({.faults = {truth_}}, {}, {tips}).front();
            if (std::isnan(ohm)) continue;
            return {terminal_name(harness_, point.terminal[line]),
                    terminal_name(harness_, clip[line]),
                    job::Quantity::Ohm,
                    job::Outcome::Value,
                    diagnosis::as_shown(ohm),
                    false};
        }
    }

    diagnosis::Evidence evidence(const std::vector<job::Record>& records) const {
        return advice::evidence(harness_, 0, job::replay(records));
    }
    // By a predictor of its own, which remembers nothing.
    diagnosis::Belief belief(const diagnosis::Evidence& evidence) const {
        diagnosis::Predictor fresh(harness_, 0);
        return infer(fresh, evidence);
    }

  private:
    Random dice_;
    harness::Harness harness_;
    diagnosis::Predictor predictor_;
    diagnosis::Fault truth_;
    std::vector<job::Record> records_;
};

}  // namespace

TEST_CASE("in any world, what was taken back was never said") {
    for (std::uint64_t seed = 1; seed <= worlds(); ++seed) {
        World world(seed);
        INFO("seed " << seed);
        const std::vector<job::Record> without = world.records();
        std::vector<job::Record> with = without;
        // Another figure than the meter shows, so that it would tell.
        job::Reading wrong = world.reading();
        wrong.value = std::isfinite(wrong.value) && wrong.value > 20 ? 0.3 : 240;
        append(with, wrong);
        const auto misled = world.belief(world.evidence(with));
        append(with, job::Undo{static_cast<job::Sequence>(without.size() + 1)});
        const auto never_said = world.belief(world.evidence(without));
        REQUIRE(world.evidence(with) == world.evidence(without));
        REQUIRE(world.belief(world.evidence(with)).probability == never_said.probability);
        REQUIRE(misled.probability != never_said.probability);
    }
}

TEST_CASE("in any world, the order of readings in one situation does not matter") {
    for (std::uint64_t seed = 1; seed <= worlds(); ++seed) {
        World world(seed);
        diagnosis::Evidence evidence = world.evidence(world.records());
        const auto before = by_part(world.belief(evidence), world.harness());
        for (std::size_t i = evidence.measured.size(); i > 1; --i)
            std::swap(evidence.measured[i - 1], evidence.measured[world.dice().below(i)]);
        const auto after = by_part(world.belief(evidence), world.harness());
        INFO("seed " << seed);
        for (std::size_t part = 0; part < before.size(); ++part)
            REQUIRE(std::abs(before[part] - after[part]) < 1e-9);
    }
}

TEST_CASE("in any world, truthful readings leave the truth in play") {
    for (std::uint64_t seed = 1; seed <= worlds(); ++seed) {
        World world(seed);
        const auto belief = world.belief(world.evidence(world.records()));
        INFO("seed " << seed << ", " << name(world.harness(), world.truth()));
        REQUIRE(by_part(belief, world.harness())[world.truth().part] > 1e-4);
    }
}

// A job that is replayed elsewhere gives the belief that was logged: the file was written by one compiler's
// build and is read by each other's. With HALFSPLIT_APPROVE=1 in the environment it is written anew.
// Not on Windows, whose own exp and log differ in the last bit.
TEST_CASE("in any world, the belief is the same to the last bit whoever compiled it", "[posix]") {
    constexpr std::uint64_t worlds_on_file = 20;
    const std::string path = "tests/data/beliefs.txt";
    std::ostringstream text;
    for (std::uint64_t seed = 1; seed <= worlds_on_file; ++seed) {
        World world(seed);
        const auto belief = world.belief(world.evidence(world.records()));
        std::string bits(belief.probability.size() * sizeof(double), '\0');
        std::memcpy(bits.data(), belief.probability.data(), bits.size());
        text << "world " << seed << ": " << belief.probability.size() << " explanations, " << sha256(bits)
             << '\n';
    }
    if (std::getenv("HALFSPLIT_APPROVE") != nullptr) std::ofstream(path_of(path)) << text.str();
    REQUIRE(read_file(path) == text.str());
}
