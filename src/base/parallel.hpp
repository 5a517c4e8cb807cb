// The same work on many things, by several threads. What comes of it is the same with any number of them.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace halfsplit {

// Calls work(0) to work(count - 1), each once, in no order, by at most `threads` threads (0: as many as the
// machine runs at once). The first exception is thrown again when all threads have ended.
template <typename Work>
void for_each_index(std::size_t count, std::size_t threads, Work work) {
    if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
    threads = std::min(threads, count);
    if (threads <= 1) {
        for (std::size_t index = 0; index < count; ++index) work(index);
        return;
    }
    std::atomic<std::size_t> next{0};
    std::exception_ptr failure;
    std::mutex guard;
    const auto labour = [&] {
        try {
            for (std::size_t index = next++; index < count; index = next++) work(index);
        } catch (...) {
            next = count;
            const std::lock_guard lock(guard);
            if (!failure) failure = std::current_exception();
        }
    };
    std::vector<std::thread> others;
    for (std::size_t thread = 1; thread < threads; ++thread) others.emplace_back(labour);
    labour();
    for (std::thread& thread : others) thread.join();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace halfsplit
