// What each part at which followed wires end is in a harness file: a splice, a module, a connector.
#pragma once

#include "draft/follow.hpp"
#include "draft/names.hpp"

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace halfsplit::draft {

enum class Shape : std::uint8_t {
    Splice,     // wires joined for good
    Modules,    // one for each contact (of a pair: two contacts) of the line
    Connector,  // a half, or both
};

// Wires in one cavity: as a terminal takes one wire, they are drawn as a splice with a run of no length to
// it.
struct Joint {
    std::size_t part = 0;
    std::size_t line = 0;
    std::string cavity;  // of the source
    std::string id;
};

struct ShapedPart {
    std::size_t part = 0;  // of the loom; of the two halves of a connector, the first that was met
    Shape shape = Shape::Connector;
    std::array<std::vector<std::string>, 2> contacts{};  // by line: cavities of the source, in order of wires
    bool loop = false;             // the first two contacts are in and out of the first module
    std::vector<std::string> ids;  // of the modules, otherwise one
    std::string rest;  // modules of a pair: half a connector for contacts of one line that have no
                       // other to go with; empty where there are none

    // How many contacts of each line modules have.
    std::size_t module_contacts() const { return ids.size() + (loop ? 1 : 0); }
    // The module that has the contact with this number.
    const std::string& module(std::size_t contact) const {
        return ids[loop && contact > 0 ? contact - 1 : contact];
    }
};

class Shapes {
  public:
    Shapes(const Loom& loom, const Followed& followed, NameMaker& names);

    const std::vector<ShapedPart>& parts() const { return parts_; }
    const std::vector<Joint>& joints() const { return joints_; }
    // The terminal at which a wire of the line ends.
    std::string terminal(std::size_t line, const LoomEnd& end) const;
    // The part's own terminal, where wires are joined before it.
    std::string own_terminal(std::size_t line, const LoomEnd& end) const;
    // By part of the loom.
    const ShapedPart& of(std::size_t part) const { return parts_[index_.at(part)]; }

  private:
    void gather();
    Shape shape_of(const ShapedPart& part) const;
    void name(ShapedPart& part);
    void join_wires();

    const Loom& loom_;
    const Followed& followed_;
    NameMaker& names_;
    std::vector<ShapedPart> parts_;
    std::map<std::size_t, std::size_t> index_;  // by part of the loom
    std::vector<Joint> joints_;
    std::map<std::tuple<std::size_t, std::string, std::size_t>, std::size_t> joint_at_;  // part, cavity, line
    std::map<std::tuple<std::size_t, std::string, std::size_t>, std::size_t> wires_at_;  // how many
};

}  // namespace halfsplit::draft
