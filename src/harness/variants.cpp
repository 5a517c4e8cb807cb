#include "halfsplit/harness/variants.hpp"

#include "halfsplit/harness/vehicle.hpp"

namespace halfsplit::harness {

namespace {

// Something the file leaves open: an option, or a part that follows none.
struct Unknown {
    Index option = none;
    Index part = none;
};

std::vector<Unknown> unknowns(const Harness& harness) {
    std::vector<Unknown> found;
    for (Index option = 0; option < harness.options.size(); ++option) {
        if (harness.options[option].fitted == Fitted::Unknown) found.push_back({option, none});
    }
    for (Index part = 0; part < harness.parts.size(); ++part) {
        const Part& candidate = harness.parts[part];
        if (candidate.fitted == Fitted::Unknown && candidate.option == none) found.push_back({none, part});
    }
    return found;
}

void settle(Harness& harness, const Unknown& unknown, bool fitted) {
    if (unknown.part != none) {
        harness.parts[unknown.part].fitted = fitted ? Fitted::Yes : Fitted::No;
        return;
    }
    harness.options[unknown.option].fitted = fitted ? Fitted::Yes : Fitted::No;
    for (Part& part : harness.parts) {
        if (part.option == unknown.option)
            part.fitted = fitted != part.without_option ? Fitted::Yes : Fitted::No;
    }
}

std::string describe(const Harness& harness, const Unknown& unknown, bool fitted) {
    const std::string& name =
        unknown.part != none ? harness.parts[unknown.part].name : harness.options[unknown.option].name;
    return (fitted ? "with " : "without ") + name;
}

}  // namespace

std::vector<Variant> variants(const Harness& harness) {
    const std::vector<Unknown> open = unknowns(harness);
    const std::size_t varied = std::min(open.size(), most_unknowns);
    std::vector<Variant> result;
    for (std::size_t combination = 0; combination < (std::size_t{1} << varied); ++combination) {
        Harness settled = harness;
        Variant variant;
        for (std::size_t which = 0; which < open.size(); ++which) {
            const bool fitted = which >= varied || ((combination >> which) & 1U) == 0;
            settle(settled, open[which], fitted);
            if (which >= varied) continue;
            if (!variant.in_words.empty()) variant.in_words += ", ";
            variant.in_words += describe(harness, open[which], fitted);
        }
        for (const Fitted fitted : presence(settled)) variant.present.push_back(fitted != Fitted::No ? 1 : 0);
        result.push_back(std::move(variant));
    }
    return result;
}

}  // namespace halfsplit::harness
