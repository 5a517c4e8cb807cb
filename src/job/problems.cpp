// What in a job's records cannot be followed, told in words.
#include "halfsplit/base/digest.hpp"
#include "halfsplit/job/state.hpp"

#include <fmt/format.h>

#include "resolve.hpp"

#include <map>

namespace halfsplit::job {

namespace {

class Examiner {
  public:
    explicit Examiner(const std::vector<Record>& records) : records_(records) {}

    std::vector<std::string> run() {
        if (records_.empty()) return {"The job is empty: its first record should open it on a harness."};
        if (!std::holds_alternative<Opened>(records_.front().event.body))
            say("The first record does not open the job on a harness, so nothing tells what the names in it "
                "mean.");
        for (position_ = 0; position_ < records_.size(); ++position_) {
            std::visit([this](const auto& body) { examine(body); }, records_[position_].event.body);
        }
        return std::move(problems_);
    }

  private:
    void say(std::string problem) { problems_.push_back(std::move(problem)); }
    Sequence number() const { return records_[position_].sequence; }

    template <typename Other>
    void examine(const Other&) {}

    void examine(const Opened& opened) {
        if (position_ > 0) {
            say(fmt::format("Record {} opens the job a second time; the first opening counts.", number()));
        } else if (sha256(opened.harness_text) != opened.harness_sha256) {
            say("The harness text in record 1 is not the one its fingerprint was taken of.");
        }
    }

    void examine(const Undo& undo) {
        if (!target_of(records_, position_)) {
            say(fmt::format("Record {} would undo record {}, {}; it has no effect.", number(), undo.target,
                            why_not(undo.target)));
            return;
        }
        const auto earlier = undone_by_.find(undo.target);
        if (earlier != undone_by_.end() && undone_by_.count(earlier->second) == 0)
            say(fmt::format("Record {} undoes record {}, which record {} had undone already.", number(),
                            undo.target, earlier->second));
        undone_by_[undo.target] = number();
    }

    void examine(const Amend& amend) {
        if (target_of(records_, position_)) return;
        if (!amend.event || !may_be_amended(*amend.event)) {
            say(fmt::format(
                "Record {} would put in the place of record {} what cannot stand there; it has no effect.",
                number(), amend.target));
            return;
        }
        say(fmt::format("Record {} would amend record {}, {}; it has no effect.", number(), amend.target,
                        why_not(amend.target)));
    }

    std::string why_not(Sequence target) const {
        const auto position = position_of(records_, target);
        if (!position) return "which does not exist";
        if (*position >= position_) return "which is not an earlier one";
        return fmt::format("which stays as it is (kind \"{}\")", kind(records_[*position].event));
    }

    const std::vector<Record>& records_;
    std::size_t position_ = 0;
    std::map<Sequence, Sequence> undone_by_;
    std::vector<std::string> problems_;
};

}  // namespace

std::vector<std::string> problems(const std::vector<Record>& records) {
    return Examiner(records).run();
}

}  // namespace halfsplit::job
