#include "halfsplit/harness/difference.hpp"

#include "halfsplit/base/json_text.hpp"
#include "halfsplit/base/text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

namespace halfsplit::harness {

namespace {

using nlohmann::json;

constexpr std::array<const char*, 7> part_lists{"modules",      "connectors", "splices", "terminators",
                                                "bridge_plugs", "runs",       "options"};

std::string_view word_of(Fitted fitted) {
    return fitted == Fitted::Yes ? "yes" : fitted == Fitted::No ? "no" : "unknown";
}

// Edits the document of a harness that was found sound before.
class Editor {
  public:
    explicit Editor(json& document) : document_(document) {}

    void apply(const Difference& difference) {
        switch (difference.kind) {
            case Difference::Kind::Fitted:
                named(difference.id, part_lists)["fitted"] = word_of(difference.fitted);
                return;
            case Difference::Kind::Connector:
                return put_connector(difference);
            case Difference::Kind::Place:
                return move(difference);
            case Difference::Kind::Minutes: {
                json& cover = named(difference.id, std::array{"covers"});
                cover["off_minutes"] = difference.off_minutes;
                cover["on_minutes"] = difference.on_minutes;
            }
        }
    }

  private:
    template <typename Lists>
    json& named(const std::string& id, const Lists& lists) {
        std::vector<std::string> known;
        for (const char* list : lists) {
            if (!document_.contains(list)) continue;
            for (json& entry : document_[list]) {
                if (entry["id"] == id) return entry;
                known.push_back(entry["id"]);
            }
        }
        Finding finding;
        finding.id = "difference-unknown";
        finding.message = "nothing here is named \"" + id + "\"";
        finding.expected = "a name of this harness";
        finding.nearest = nearest_name(id, known);
        finding.next_step = "write the name as it stands in the harness file";
        throw InputError(finding);
    }

    static json access_of_difference(const Difference& difference, json access) {
        if (difference.place.empty()) return access;
        access["place"] = difference.place;
        access["covers"] = difference.covers;
        return access;
    }

    void move(const Difference& difference) {
        json& part = named(difference.id, part_lists);
        part["access"] = access_of_difference(difference, part.value("access", json::object()));
    }

    // W3 from A to B with X9 in it: W3 from A to X9.a, and a run of its own from X9.b to B.
    void put_connector(const Difference& difference) {
        json& run = named(difference.run, std::array{"runs"});
        json rest = run;
        const std::string base = difference.run + "-" + difference.id;
        rest["id"] = base.size() <= 40 ? base : difference.id + "-rest";
        const double length = run["length_m"];
        const double first = difference.after_m.value_or(length / 2);
        run["length_m"] = first;
        rest["length_m"] = std::max(0.0, length - first);
        const std::array<const char*, 2> lines{"h", "l"};
        for (std::size_t line = 0; line < lines.size(); ++line) {
            if (!run.contains(lines[line])) continue;
            const std::string& cavity = difference.cavity[line];
            run[lines[line]]["to"] = difference.id + ".a:" + cavity;
            rest[lines[line]]["from"] = difference.id + ".b:" + cavity;
        }
        document_["connectors"].push_back({{"id", difference.id},
                                           {"name", "found on the vehicle"},
                                           {"access", access_of_difference(difference, run["access"])}});
        document_["runs"].push_back(std::move(rest));
    }

    json& document_;
};

}  // namespace

ReadResult read_with_differences(std::string_view text, const std::string& file_name,
                                 const std::vector<Difference>& differences) {
    if (differences.empty()) return read_harness(text, file_name);
    try {
        json document = parse_json(text, file_name);
        Editor editor(document);
        for (const Difference& difference : differences) editor.apply(difference);
        const std::string edited = document.dump(1);
        return read_document(document, JsonOrigins(edited, file_name + " as it turned out"));
    } catch (const InputError& error) {
        return {std::nullopt, error.findings()};
    }
}

std::vector<Difference> that_hold(std::string_view text, const std::vector<Difference>& differences) {
    std::vector<Difference> holding;
    for (const Difference& difference : differences) {
        holding.push_back(difference);
        if (!read_with_differences(text, "", holding).harness) holding.pop_back();
    }
    return holding;
}

}  // namespace halfsplit::harness
