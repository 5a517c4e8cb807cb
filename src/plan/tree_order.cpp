#include "plan/tree_order.hpp"

namespace halfsplit::plan {

namespace {

// Jobs that are done in one go, headed by the one that may have to wait.
struct Chain {
    double weight = 0, minutes = 0;
    std::size_t after = Job::no_job;
    std::vector<std::size_t> jobs;
    enum class State { Waiting, Joined, Placed } state = State::Waiting;
};

bool worth_more(const Chain& a, const Chain& b) {
    return a.weight * b.minutes > b.weight * a.minutes;
}

std::size_t best_waiting(const std::vector<Chain>& chains) {
    std::size_t best = Job::no_job;
    for (std::size_t c = 0; c < chains.size(); ++c)
        if (chains[c].state == Chain::State::Waiting &&
            (best == Job::no_job || worth_more(chains[c], chains[best])))
            best = c;
    return best;
}

}  // namespace

// Of all chains the one with the most weight per minute comes straight after what it waits for, or next of
// all when that is done; joining the two leaves the same problem with one chain less.
JobOrder best_tree_order(const std::vector<Job>& jobs) {
    std::vector<Chain> chains(jobs.size());
    std::vector<std::size_t> chain_of(jobs.size());
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        chains[j] = {jobs[j].weight, jobs[j].minutes, jobs[j].after, {j}, Chain::State::Waiting};
        chain_of[j] = j;
    }
    JobOrder order;
    for (std::size_t left = jobs.size(); left > 0; --left) {
        Chain& chain = chains[best_waiting(chains)];
        const std::size_t head = chain.after == Job::no_job ? Job::no_job : chain_of[chain.after];
        if (head == Job::no_job || chains[head].state == Chain::State::Placed) {
            chain.state = Chain::State::Placed;
            order.jobs.insert(order.jobs.end(), chain.jobs.begin(), chain.jobs.end());
            continue;
        }
        chain.state = Chain::State::Joined;
        for (const std::size_t j : chain.jobs) chain_of[j] = head;
        chains[head].weight += chain.weight;
        chains[head].minutes += chain.minutes;
        chains[head].jobs.insert(chains[head].jobs.end(), chain.jobs.begin(), chain.jobs.end());
    }
    double now = 0;
    for (const std::size_t j : order.jobs) order.sum += jobs[j].weight * (now += jobs[j].minutes);
    return order;
}

}  // namespace halfsplit::plan
