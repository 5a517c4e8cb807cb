#include "cli/fleet/gather.hpp"

#include "base/file_failure.hpp"
#include "base/glob.hpp"
#include "base/paths.hpp"

#include <algorithm>
#include <sstream>
#include <string_view>
#include <unordered_set>
#include <utility>

namespace halfsplit::cli {

namespace {

constexpr std::uint64_t largest_list = 64ULL << 20U;

std::string below(const std::string& folder, const std::string& name) {
    if (folder.empty() || folder == ".") return name;
    return folder.back() == '/' ? folder + name : folder + '/' + name;
}

// "./a/b//" as "a/b".
std::string tidy(const std::string& given) {
    std::string path = with_slashes(given);
    while (path.rfind("./", 0) == 0 && path.size() > 2) path.erase(0, 2);
    while (path.size() > 1 && path.back() == '/') path.pop_back();
    return path;
}

bool ends_in(const std::string& end, const std::string& name) {
    return name.size() > end.size() && name.compare(name.size() - end.size(), end.size(), end) == 0;
}

class Gatherer {
  public:
    Gatherer(Files& files, const Sought& sought) : files_(files), sought_(sought) {}

    void add(const std::string& argument) {
        const std::string path = argument == "-" ? argument : tidy(argument);
        if (path != "-" && is_pattern(path) && !there(path)) {
            add_pattern(path);
        } else {
            add_path(path);
        }
    }

    void add_list(const std::string& list) {
        std::istringstream lines(list == "-" ? files_.read_input(largest_list)
                                             : files_.read(list, largest_list));
        for (std::string line; std::getline(lines, line);) {
            if (!line.empty() && line.back() == '\r') line.pop_back();
            if (!line.empty()) add_path(line == "-" ? line : tidy(line));
        }
    }

    Gathered take() { return std::move(gathered_); }

  private:
    bool there(const std::string& path) { return files_.exists(path) || files_.is_folder(path); }

    void add_path(const std::string& path) {
        if (path != "-" && files_.is_folder(path)) {
            add_folder(path);
        } else {
            add_file(path, no_folder);
        }
    }

    void add_file(const std::string& path, std::size_t folder) {
        if (known_.insert(path).second) gathered_.inputs.push_back({path, folder, std::nullopt});
    }

    void add_trouble(const std::string& path, std::size_t folder, Finding finding) {
        gathered_.inputs.push_back({path, folder, std::move(finding)});
    }

    // What is in a folder; trouble where it cannot be listed.
    std::vector<FolderEntry> entries_of(const std::string& folder, std::size_t which) {
        try {
            return files_.list(folder);
        } catch (const FileError& error) {
            add_trouble(folder, which,
                        about_file("folder-unreadable", folder, error.what(),
                                   "ask who owns it for the right to list it, or leave it out"));
            return {};
        }
    }

    void add_folder(const std::string& top) {
        const std::size_t which = gathered_.folders.size();
        const std::size_t before = gathered_.inputs.size();
        const std::size_t known = known_.size();
        gathered_.folders.push_back(top);
        std::vector<std::string> found;
        std::vector<std::string> open{top};
        while (!open.empty()) {
            const std::string folder = std::move(open.back());
            open.pop_back();
            for (const FolderEntry& entry : entries_of(folder, which)) {
                if (entry.name.front() == '.') continue;
                const std::string path = below(folder, entry.name);
                if (entry.kind == FolderEntry::Kind::Folder) open.push_back(path);
                if (entry.kind == FolderEntry::Kind::File && ends_in(sought_.ending, entry.name))
                    found.push_back(path);
            }
        }
        std::sort(found.begin(), found.end());
        for (const std::string& path : found) add_file(path, which);
        const bool nothing_new = known_.size() == known && !found.empty();
        if (gathered_.inputs.size() == before && !nothing_new)
            add_trouble(top, which, nothing_there(top, sought_));
    }

    // Goes down one name of the pattern at a time.
    void add_pattern(const std::string& pattern) {
        std::vector<std::string> reached{pattern.front() == '/' ? "/" : ""};
        std::istringstream names(pattern);
        for (std::string name; std::getline(names, name, '/');) {
            if (!name.empty()) reached = one_further(reached, name);
        }
        std::sort(reached.begin(), reached.end());
        bool any = false;
        for (const std::string& path : reached) {
            if (!there(path)) continue;
            any = true;
            add_path(path);
        }
        if (any) return;
        add_trouble(pattern, no_folder,
                    about_file("no-match", pattern, "no file is named like this",
                               "check the pattern, or name a folder"));
    }

    std::vector<std::string> one_further(const std::vector<std::string>& reached, const std::string& name) {
        std::vector<std::string> next;
        for (const std::string& base : reached) {
            if (name == "**") {
                add_nested(base, next);
            } else if (!is_pattern(name)) {
                next.push_back(below(base, name));
            } else {
                for (const FolderEntry& entry : entries_at(base)) {
                    if (matches(name, entry.name)) next.push_back(below(base, entry.name));
                }
            }
        }
        return next;
    }

    std::vector<FolderEntry> entries_at(const std::string& base) {
        const std::string folder = base.empty() ? "." : base;
        if (folder != "." && !files_.is_folder(folder)) return {};
        return entries_of(folder, no_folder);
    }

    // The folder and all below it, but for hidden ones.
    void add_nested(const std::string& base, std::vector<std::string>& next) {
        std::vector<std::string> open{base};
        while (!open.empty()) {
            const std::string folder = std::move(open.back());
            open.pop_back();
            next.push_back(folder);
            for (const FolderEntry& entry : entries_at(folder)) {
                const bool inner = entry.kind == FolderEntry::Kind::Folder && entry.name.front() != '.';
                if (inner) open.push_back(below(folder, entry.name));
            }
        }
    }

    Files& files_;
    const Sought& sought_;
    Gathered gathered_;
    std::unordered_set<std::string> known_;
};

}  // namespace

Gathered gather(Files& files, const std::vector<std::string>& paths, const std::vector<std::string>& lists,
                const Sought& sought) {
    Gatherer gatherer(files, sought);
    for (const std::string& path : paths) gatherer.add(path);
    for (const std::string& list : lists) gatherer.add_list(list);
    return gatherer.take();
}

std::string shown_name(const std::string& path) {
    return path == "-" ? "standard input" : path;
}

std::string read_input(Files& files, const std::string& path, std::uint64_t limit) {
    return path == "-" ? files.read_input(limit) : files.read(path, limit);
}

Finding nothing_there(const std::string& folder, const Sought& sought) {
    return about_file(
        "nothing-to-check", folder, "there is no " + sought.what + " in this folder",
        "name the folder that holds them; only files that end in " + sought.ending + " are looked at");
}

}  // namespace halfsplit::cli
