// A saved job, read without writing.
#pragma once

#include "halfsplit/base/file_error.hpp"
#include "halfsplit/job/log.hpp"

#include "cli/commands.hpp"

#include <ostream>
#include <string>

namespace halfsplit::cli {

// Tells of a torn tail. Throws FileError, also where there is no record, and job::DamagedLog.
inline job::Contents read_job(Context& context, const std::string& path) {
    job::Contents contents = job::read_log(context.files.read(path, job::largest_log), path);
    if (contents.torn) {
        context.err << path << ": the last " << contents.torn->bytes
                    << " bytes are a record cut short and never acknowledged; they are left out here\n";
    }
    if (contents.records.empty())
        throw FileError(FileError::Kind::Failed,
                        path + " holds no record: give the file of a job that was begun with hunt or note");
    return contents;
}

}  // namespace halfsplit::cli
