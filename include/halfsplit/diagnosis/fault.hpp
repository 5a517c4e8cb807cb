// What can be wrong: one fault of one part, and its name on the command line (PART:MODE).
#pragma once

#include "halfsplit/electrics/assembly.hpp"
#include "halfsplit/harness/harness.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::diagnosis {

enum class Mode : std::uint8_t {
    Open,         // one line or both
    BadJoint,     // added ohms in one line
    ShortLines,   // H to L
    ShortGround,  // one line
    ShortSupply,  // one line
    TerminatorMissing,
    ExtraTerminator,
    Apart,    // connector or plug not mated: everything through it open
    Receded,  // one pin not making contact
    BridgeAbsent,
    PassThroughOpen,  // inside a loop module; one line or both
};

enum class Lines : std::uint8_t { High, Low, Both };

struct Fault {
    harness::Index part = harness::none;
    Mode mode = Mode::Open;
    Lines lines = Lines::Both;
    harness::Index terminal = harness::none;  // which contact or crimp, where the part has several of a line
    harness::Index run = harness::none;       // crimp: which leg of a splice
    double ohm = 0;                           // bad joint: added; short: of the short
    bool operator==(const Fault&) const = default;
};

// None or a few, held in place, since a belief weighs tens of thousands of them: at most two of its own, more
// in a rehearsal.
class Faults {
  public:
    static constexpr std::size_t most = 4;

    Faults() = default;
    // Throw std::length_error beyond the most.
    Faults(std::initializer_list<Fault> faults);
    Faults(const std::vector<Fault>& faults);
    void push_back(const Fault& fault);

    std::size_t size() const { return size_; }
    bool empty() const { return size_ == 0; }
    const Fault* begin() const { return faults_.data(); }
    const Fault* end() const { return faults_.data() + size_; }
    Fault* begin() { return faults_.data(); }
    Fault* end() { return faults_.data() + size_; }
    const Fault& front() const { return faults_[0]; }
    Fault& front() { return faults_[0]; }
    const Fault& operator[](std::size_t i) const { return faults_[i]; }
    bool operator==(const Faults&) const = default;

  private:
    std::array<Fault, most> faults_{};  // beyond the size as it was made
    std::size_t size_ = 0;
};

// Ohms that a bad joint adds where only one figure is wanted.
inline constexpr double usual_joint_ohm = 60;
// Ohms of a short where only one figure is wanted: bare metal on metal.
inline constexpr double usual_short_ohm = 0.3;

// Every single fault of a network that can be on this vehicle, in order of part. Joints and shorts come once
// for each figure of ohms on a coarse grid; each figure stands for all those nearest to it.
std::vector<Fault> all_faults(const harness::Harness& harness, const electrics::Assembly& assembly);

// Terminators of 100 to 130 ohm where 120 are nominal (ISO 11898-2): even over that range, 30 / sqrt(12) /
// 120, as a standard deviation of the logarithm.
inline constexpr double terminator_spread = 0.072;

// How far the ohms of a fault may be from its figure on that grid: one standard deviation of their natural
// logarithm, even over the logarithm. 0 for faults without ohms.
double ohm_spread(Mode mode);

// What the fault does to the circuit of an assembly. Empty where the part is not in it (unplugged, say).
std::vector<electrics::Change> changes(const Fault& fault, const electrics::Assembly& assembly);

// "X3:receded-h@4" and the like: PART:MODE[-LINE][@CAVITY]. Ohms are not part of a name.
std::string name(const harness::Harness& harness, const Fault& fault);
// "pin receded, line H, cavity 4 of connector X3 (dash to tail)".
std::string in_words(const harness::Harness& harness, const Fault& fault);
// The modes as they stand in a name: "open", "joint", "short", ...
std::vector<std::string> mode_words();

}  // namespace halfsplit::diagnosis
