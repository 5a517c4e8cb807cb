// A folder of its own for a test, removed with everything in it.
#pragma once

#include <filesystem>
#include <random>
#include <string>

namespace halfsplit::test {

class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::random_device random;
        do {
            path_ = std::filesystem::temp_directory_path() / ("halfsplit-test-" + std::to_string(random()));
        } while (!std::filesystem::create_directory(path_));
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }
    // `name` in UTF-8, which the standard library would take for something else on Windows.
    std::string operator/(const std::string& name) const { return path_.generic_string() + '/' + name; }

  private:
    std::filesystem::path path_;
};

}  // namespace halfsplit::test
