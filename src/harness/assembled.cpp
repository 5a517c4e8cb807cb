#include "harness/assembled.hpp"

#include "base/collector.hpp"
#include "base/file_failure.hpp"
#include "base/paths.hpp"
#include "base/schema_findings.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

namespace halfsplit::harness {

using nlohmann::json;

namespace {

constexpr std::size_t deepest_include = 16;
constexpr const char* places_list = "/places";
constexpr const char* covers_list = "/covers";
constexpr const char* pairs_list = "/travel/pairs";
constexpr const char* default_minutes_value = "/travel/default_minutes";

const json& member_of(const json& document, const char* name) {
    static const json nothing;
    const auto found = document.is_object() ? document.find(name) : document.end();
    return document.is_object() && found != document.end() ? *found : nothing;
}

bool is_list_of_texts(const json& value) {
    return value.is_array() &&
           std::all_of(value.begin(), value.end(), [](const json& one) { return one.is_string(); });
}

// What two entries have to share for the one to take the other's place: the id, or the two places.
json key_of(const json& entry) {
    const json& between = member_of(entry, "between");
    if (!is_list_of_texts(between) || between.size() != 2) return member_of(entry, "id");
    return json::array({std::min(between[0], between[1]), std::max(between[0], between[1])});
}

bool lies_in(const std::string& path, const std::string& folder) {
    const auto relative = path_of_text(path).lexically_relative(path_of_text(folder));
    return !relative.empty() && *relative.begin() != "..";
}

Finding about_include(const char* id, std::string message, std::string expected, std::string next) {
    Finding finding;
    finding.id = id;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    finding.next_step = std::move(next);
    return finding;
}

}  // namespace

Assembled::Assembled(std::string_view text, const std::string& file_name, Files* files,
                     const IncludeRules& rules)
    : files_(files), rules_(rules) {
    sources_.push_back(std::make_unique<Source>(text, file_name));
    document_ = parse_json(sources_.front()->text, file_name);
    const json& wanted = member_of(document_, "include");
    if (!is_list_of_texts(wanted)) return;  // none, or the schema's business
    if (files_ != nullptr && files_->exists(file_name)) open_.push_back(files_->resolved(file_name));
    put(stock_of(document_, 0));
}

Assembled::Stock Assembled::stock_of(const json& document, std::size_t source) {
    Stock stock;
    include(document, source, stock);
    const auto take = [&](const char* pointer, const json& list, std::vector<Entry>& into) {
        if (!list.is_array()) return;
        std::vector<json> own;
        for (const json& entry : list) own.push_back(key_of(entry));
        into.erase(std::remove_if(into.begin(), into.end(),
                                  [&](const Entry& entry) {
                                      return std::find(own.begin(), own.end(), key_of(entry.value)) !=
                                             own.end();
                                  }),
                   into.end());
        for (std::size_t i = 0; i < list.size(); ++i)
            into.push_back({list[i], {source, pointer + ('/' + std::to_string(i))}});
    };
    const json& travel = member_of(document, "travel");
    take(places_list, member_of(document, "places"), stock.places);
    take(covers_list, member_of(document, "covers"), stock.covers);
    take(pairs_list, member_of(travel, "pairs"), stock.pairs);
    const json& minutes = member_of(travel, "default_minutes");
    if (!minutes.is_null()) stock.default_minutes = {{minutes, {source, default_minutes_value}}};
    return stock;
}

void Assembled::include(const json& document, std::size_t source, Stock& stock) {
    const json& wanted = member_of(document, "include");
    if (!is_list_of_texts(wanted)) return;
    for (std::size_t i = 0; i < wanted.size(); ++i)
        include_one(wanted[i].get<std::string>(), {source, "/include/" + std::to_string(i)}, stock);
}

void Assembled::include_one(const std::string& wanted, const Home& home, Stock& stock) {
    const std::string path = path_within(wanted, home);
    const std::string resolved = files_->exists(path) ? files_->resolved(path) : path;
    if (std::find(open_.begin(), open_.end(), resolved) != open_.end()) {
        refuse(home, about_include("include-loop",
                                   "\"" + wanted + "\" includes this file, directly or through others",
                                   "a file that does not come back here", "delete one of the includes"));
    }
    if (open_.size() > deepest_include) {
        refuse(home,
               about_include("include-loop",
                             "more than " + std::to_string(deepest_include) + " libraries inside one another",
                             "fewer", "include what is shared once, at the top"));
    }
    if (known_.contains(resolved)) return;
    const json library = read_library(path, home);
    const std::size_t source = sources_.size() - 1;
    known_.emplace(resolved, source);
    open_.push_back(resolved);
    Stock own = stock_of(library, source);
    open_.pop_back();
    const auto move_all = [](std::vector<Entry>& from, std::vector<Entry>& to) {
        std::move(from.begin(), from.end(), std::back_inserter(to));
    };
    move_all(own.places, stock.places);
    move_all(own.covers, stock.covers);
    move_all(own.pairs, stock.pairs);
    if (stock.default_minutes.empty()) stock.default_minutes = std::move(own.default_minutes);
    json told{{"file", wanted}};
    for (const char* name : {"title", "source"}) {
        if (library.contains(name)) told[name] = library[name];
    }
    json& all = document_["libraries"];
    if (all.is_null() || all.is_array()) all.push_back(std::move(told));
}

json Assembled::read_library(const std::string& path, const Home& home) {
    try {
        sources_.push_back(std::make_unique<Source>(files_->read(path, largest_file), path));
    } catch (const FileError& error) {
        Finding finding = about_failure(error, *files_, path, "library", largest_file);
        finding.message = path + ": " + finding.message;
        refuse(home, std::move(finding));
    }
    const Source& source = *sources_.back();
    json library = parse_json(source.text, path);
    if (member_of(library, "format") == "halfsplit-harness") {
        refuse(home, about_include("not-a-library", path + " is a harness file of its own",
                                   "a file with the format \"halfsplit-library\"",
                                   "put what both share into a library, and include that in both"));
    }
    Collector findings;
    check_schema(library, "library", "docs/reference/harness-format.md", findings);
    if (findings.errors()) throw InputError(findings.placed(source.origins));
    return library;
}

// Relative to the file that includes; within the folder of the file that was named.
std::string Assembled::path_within(const std::string& wanted, const Home& home) const {
    if (files_ == nullptr) {
        refuse(home, about_include("include-outside", "this text stands alone and can include nothing",
                                   "places and covers of its own", "name the file itself"));
    }
    const std::filesystem::path given = path_of_text(wanted);
    const std::string from = sources_[home.source]->origins.file_name();
    std::string path = text_of_path((path_of_text(folder_of(from)) / given).lexically_normal());
    if (rules_.outside) return path;
    const std::string root = folder_of(file_name());
    const bool inside = !is_rooted(wanted) &&
                        lies_in(path, text_of_path(path_of_text(root).lexically_normal())) &&
                        (!files_->exists(path) || lies_in(files_->resolved(path), files_->resolved(root)));
    if (inside) return path;
    refuse(home, about_include("include-outside", "\"" + wanted + "\" leads out of the folder " + root,
                               "a file in that folder or below it",
                               "move the library there, or say --include-outside"));
}

void Assembled::refuse(const Home& home, Finding finding) const {
    const Source& source = *sources_[home.source];
    finding.location = source.origins.locate({{home.pointer, false}}).front();
    std::vector<Finding> findings{std::move(finding)};
    source.origins.quote(findings);
    throw InputError(findings);
}

void Assembled::put(Stock stock) {
    document_.erase("include");
    put_list(places_list, document_["places"], std::move(stock.places));
    put_list(covers_list, document_["covers"], std::move(stock.covers));
    if (!document_.contains("travel")) document_["travel"] = json::object();
    json& travel = document_["travel"];
    if (!travel.is_object()) return;  // the schema's business
    put_list(pairs_list, travel["pairs"], std::move(stock.pairs));
    if (stock.default_minutes.empty()) return;
    travel["default_minutes"] = stock.default_minutes.front().value;
    homes_[default_minutes_value] = {stock.default_minutes.front().home};
}

void Assembled::put_list(const char* pointer, json& list, std::vector<Entry> entries) {
    if (!list.is_array() && !list.is_null()) return;  // the schema's business
    list = json::array();
    for (Entry& entry : entries) {
        list.push_back(std::move(entry.value));
        homes_[pointer].push_back(std::move(entry.home));
    }
}

Assembled::Home Assembled::home_of(const std::string& pointer) const {
    for (const auto& [list, homes] : homes_) {
        if (pointer == list && list == default_minutes_value) return homes.front();
        if (pointer.rfind(list + '/', 0) != 0) continue;
        const std::size_t end = std::min(pointer.find('/', list.size() + 1), pointer.size());
        const std::size_t index = std::stoul(pointer.substr(list.size() + 1, end - list.size() - 1));
        if (index < homes.size()) return {homes[index].source, homes[index].pointer + pointer.substr(end)};
    }
    return {0, pointer};
}

std::vector<Location> Assembled::locate(const std::vector<Spot>& spots) const {
    std::vector<std::vector<Spot>> by_source(sources_.size());
    std::vector<std::pair<std::size_t, std::size_t>> where;  // source, and which of its spots
    for (const Spot& spot : spots) {
        const Home home = home_of(spot.pointer);
        where.emplace_back(home.source, by_source[home.source].size());
        by_source[home.source].push_back({home.pointer, spot.name});
    }
    std::vector<std::vector<Location>> found;
    for (std::size_t i = 0; i < sources_.size(); ++i) {
        found.push_back(by_source[i].empty() ? std::vector<Location>{}
                                             : sources_[i]->origins.locate(by_source[i]));
    }
    std::vector<Location> result;
    for (const auto& [source, index] : where) result.push_back(found[source][index]);
    return result;
}

void Assembled::quote(std::vector<Finding>& findings) const {
    for (const auto& source : sources_) {
        const auto own = [&](const Finding& finding) {
            return finding.location.file == source->origins.file_name();
        };
        std::vector<Finding> of_source;
        std::copy_if(findings.begin(), findings.end(), std::back_inserter(of_source), own);
        source->origins.quote(of_source);
        auto quoted = of_source.begin();
        for (Finding& finding : findings) {
            if (own(finding)) finding = *quoted++;
        }
    }
}

}  // namespace halfsplit::harness
