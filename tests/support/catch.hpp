// Catch2 under either of its two layouts (version 2: one header; version 3: many).
#pragma once

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>

#include <string>

using Catch::Approx;

// Its name of old; version 3 has another thing of that name, for ranges, one namespace further in.
namespace Catch {

inline auto Contains(const std::string& text) {
    return Matchers::ContainsSubstring(text);
}

}  // namespace Catch
#else
#include <catch2/catch.hpp>
#endif
