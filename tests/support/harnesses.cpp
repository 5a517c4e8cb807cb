#include "support/harnesses.hpp"

#include "halfsplit/advice/evidence.hpp"
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
    return harness_from_text(read_file(path));
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
