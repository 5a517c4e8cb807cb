// What a meter would read, as text and as data. Pure.
#pragma once

#include "halfsplit/advice/expectation.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>

namespace halfsplit::report {

// Lines of at most `columns` (at least 30), each with its line end. `basis` says what the chances rest on:
// "before anything was read", "after the readings of monday.job".
std::string expectation_text(const advice::Expectation& expectation, const std::string& basis,
                             std::size_t columns);
std::string fault_expectation_text(const advice::FaultExpectation& expectation, const std::string& fault,
                                   std::size_t columns);
// `fault` empty: a sound bus. A figure that a meter tells from that of a sound bus has a star.
std::string point_table_text(const advice::PointTable& table, const std::string& fault, std::size_t columns);

// Schema docs/schema/expect.schema.json. OL is the text "OL", a line that floats "floating"; a point that is
// not on the vehicle is null. Rounded to a tenth of a milliohm or millivolt.
nlohmann::json expectation_json(const advice::Expectation& expectation, const std::string& basis);
nlohmann::json fault_expectation_json(const advice::FaultExpectation& expectation, const std::string& fault);
nlohmann::json point_table_json(const advice::PointTable& table, const std::string& fault);

}  // namespace halfsplit::report
