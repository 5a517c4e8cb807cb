#include "report/review_pictures.hpp"

namespace halfsplit::report {

Pictures::Pictures(const advice::Review&, const harness::Harness&, harness::Index) {}

std::string Pictures::symbol() const {
    return {};
}

std::string Pictures::after(std::size_t) {
    return {};
}

}  // namespace halfsplit::report
