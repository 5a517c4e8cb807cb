// The plan of a dependency matrix, as a page, as a card and as data. Pure. Hypotheses go by their number in
// the file, from 0.
#pragma once

#include "halfsplit/matrix/survey.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <string>

namespace halfsplit::report {

// Lines of at most `columns` (at least 30), each with its line end. Long lists are cut, and say so.
std::string matrix_text(const std::string& file, const matrix::Matrix& matrix, const matrix::Survey& survey,
                        std::size_t columns);

// The plan as a tree, test by test; what a hunt comes to with a chance below 1 % is folded.
std::string matrix_card(const matrix::Matrix& matrix, const matrix::Survey& survey, std::size_t columns);

// Schema docs/schema/survey-matrix.schema.json. Minutes are rounded to a billionth.
nlohmann::json matrix_json(const matrix::Matrix& matrix, const matrix::Survey& survey);

}  // namespace halfsplit::report
