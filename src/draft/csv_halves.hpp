// What the parts of a wire list are: it names ends and does not say what they are.
#pragma once

#include "halfsplit/draft/loom.hpp"

#include "draft/csv_columns.hpp"

namespace halfsplit::draft {

// Parts get their use by what the options say of ids, and by having no cavities; connectors get their halves.
// Wires whose ends are not clear then become unusable. What was taken for what is told in `loom.assumed`.
void settle_parts(Loom& loom, const ColumnOptions& options);

}  // namespace halfsplit::draft
