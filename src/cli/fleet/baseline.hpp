// The findings of an earlier check, so that only new ones fail.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/report/check_report.hpp"

#include <string>

namespace halfsplit::cli {

// Marks the findings that the baseline at `path` knows, and counts those it knows in vain. A file that cannot
// be read is never known. Throws InputError where the baseline is none (schema
// docs/schema/baseline.schema.json).
void hold_against_baseline(Files& files, const std::string& path, report::CheckedSet& set);

// Errors and warnings of the set, in order, in one step. Throws FileError.
void write_baseline(Files& files, const std::string& path, const report::CheckedSet& set);

}  // namespace halfsplit::cli
