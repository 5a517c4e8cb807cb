#include "support/harnesses.hpp"

#include "halfsplit/advice/evidence.hpp"
#include "halfsplit/base/files.hpp"
#include "halfsplit/harness/read.hpp"

#include "support/files_of_tests.hpp"

#include <stdexcept>

namespace halfsplit::test {

harness::Harness harness_from_text(const std::string& text) {
    auto read = harness::read_harness(text, "test.json");
    if (!read.harness) throw InputError(read.findings);
    return std::move(*read.harness);
}

harness::Harness harness_from(const std::string& path) {
    auto read = harness::read_harness_file(system_files(), path_of(path));
    if (!read.harness) throw InputError(read.findings);
    return std::move(*read.harness);
}

std::string socket_away_json() {
    std::string text = read_file("tests/data/small_chain.json");
    const auto replace = [&text](const std::string& old, const std::string& by) {
        const auto at = text.find(old);
        if (at == std::string::npos) throw std::runtime_error("the small chain has no " + old);
        text.replace(at, old.size(), by);
    };
    replace(R"("title": "Small chain")", R"("title": "Socket away")");
    replace(R"({ "id": "driver",)", R"({ "id": "cab", "name": "cab" }, { "id": "driver",)");
    replace(R"("access": { "place": "driver", "probe_minutes": 0.5 })",
            R"("access": { "place": "cab", "probe_minutes": 0.5 })");
    replace(R"("id": "S1", "network": "main", "access": { "place": "driver", "covers": ["kick"] })",
            R"("id": "S1", "network": "main", "access": { "place": "driver" })");
    return text;
}

diagnosis::Contact contact(const harness::Harness& harness, const std::string& name) {
    const auto found = advice::contact_named(harness, name);
    if (!found) throw std::runtime_error("no terminal " + name);
    return *found;
}

diagnosis::Tips tips(const harness::Harness& harness, const std::string& red, const std::string& black) {
    return {contact(harness, red), contact(harness, black)};
}

diagnosis::Fault fault_named(const harness::Harness& harness, const std::string& name, double ohm) {
    diagnosis::Predictor predictor(harness, 0);
    for (std::size_t variant = 0; variant < predictor.variants().size(); ++variant) {
        for (const auto& fault : diagnosis::all_faults(harness, predictor.circuit(variant).assembly)) {
            if (diagnosis::name(harness, fault) == name && (ohm == 0 || fault.ohm == ohm)) return fault;
        }
    }
    throw std::runtime_error("no fault " + name);
}

}  // namespace halfsplit::test
