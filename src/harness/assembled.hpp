// A harness file put together with the libraries of places and covers that it includes, as one document; and
// where in which of the files each value of it stands.
#pragma once

#include "halfsplit/base/files.hpp"
#include "halfsplit/base/origins.hpp"
#include "halfsplit/harness/read.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit::harness {

class Assembled : public Origins {
  public:
    // `files`: null where the text stands alone and may include nothing. Throws InputError for what is no
    // JSON, and for an include that cannot be read, is no library, leads outside, or includes itself. Linear
    // in the files.
    Assembled(std::string_view text, const std::string& file_name, Files* files, const IncludeRules& rules);

    // Without "include"; what was included stands in front of the file's own.
    const nlohmann::json& document() const { return document_; }
    bool includes_any() const { return sources_.size() > 1; }

    const std::string& file_name() const override { return sources_.front()->origins.file_name(); }
    std::vector<Location> locate(const std::vector<Spot>& spots) const override;
    void quote(std::vector<Finding>& findings) const override;

  private:
    struct Source {
        Source(std::string_view from, const std::string& name) : text(from), origins(text, name) {}
        std::string text;
        JsonOrigins origins;
    };
    // Where a value of the document comes from.
    struct Home {
        std::size_t source = 0;
        std::string pointer;
    };
    struct Entry {
        nlohmann::json value;
        Home home;
    };
    // What libraries and files are made of, in the order in which they are read.
    struct Stock {
        std::vector<Entry> places, covers, pairs;
        std::vector<Entry> default_minutes;  // one or none
    };

    Stock stock_of(const nlohmann::json& document, std::size_t source);
    void include(const nlohmann::json& document, std::size_t source, Stock& stock);
    void include_one(const std::string& wanted, const Home& home, Stock& stock);
    nlohmann::json read_library(const std::string& path, const Home& home);
    std::string path_within(const std::string& wanted, const Home& home) const;
    [[noreturn]] void refuse(const Home& home, Finding finding) const;
    void put(Stock stock);
    void put_list(const char* pointer, nlohmann::json& list, std::vector<Entry> entries);
    Home home_of(const std::string& pointer) const;

    Files* files_;
    IncludeRules rules_;
    std::vector<std::unique_ptr<Source>> sources_;
    std::vector<std::string> open_;             // files that are being read, by their resolved path
    std::map<std::string, std::size_t> known_;  // files that were read
    nlohmann::json document_;
    std::map<std::string, std::vector<Home>> homes_;  // by pointer of a list
};

}  // namespace halfsplit::harness
