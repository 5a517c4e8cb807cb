// The harness a job was opened on, read from the job itself, with what was found to differ.
#include "halfsplit/advice/retrospect.hpp"
#include "halfsplit/base/text.hpp"
#include "halfsplit/harness/difference.hpp"
#include "halfsplit/job/state.hpp"

#include <fmt/format.h>

namespace halfsplit::advice {

namespace {

InputError unopened(const std::vector<job::Record>& records) {
    return InputError(Finding{.id = "job-unopened",
                              .message = records.empty()
                                             ? "the job is empty"
                                             : "the job does not begin with the record that opens it",
                              .expected = "a first record that holds the harness the job was opened on",
                              .next_step = "give the file of a job that was begun with hunt or note"});
}

InputError unknown_network(const job::Opened& opened, const harness::Harness& harness) {
    std::vector<std::string> ids;
    for (const harness::Network& network : harness.networks) ids.push_back(network.id);
    Finding finding;
    finding.id = "job-network-unknown";
    finding.message = fmt::format("the job is about the network \"{}\", which its harness does not have",
                                  printable(opened.network));
    finding.expected = "one of " + join(ids, ", ");
    finding.nearest = nearest_name(opened.network, ids);
    finding.next_step = "the record was not written by this program: ask where the file comes from";
    return InputError(std::move(finding));
}

}  // namespace

Subject subject_of(const std::vector<job::Record>& records) {
    const auto* opened = records.empty() ? nullptr : std::get_if<job::Opened>(&records.front().event.body);
    if (opened == nullptr) throw unopened(records);
    harness::ReadResult read = harness::read_with_differences(
        opened->harness_text, opened->harness_file,
        harness::that_hold(opened->harness_text, job::replay(records).differences));
    if (!read.harness) throw InputError(read.findings);
    const harness::Index network = find_network(*read.harness, opened->network);
    if (network == harness::none) throw unknown_network(*opened, *read.harness);
    return {std::move(*read.harness), network};
}

Review retrospect(const std::vector<job::Record>& records) {
    const Subject subject = subject_of(records);
    return retrospect(records, subject.harness, subject.network);
}

}  // namespace halfsplit::advice
