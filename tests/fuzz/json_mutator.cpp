#include "fuzz/json_mutator.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstring>
#include <random>
#include <string>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace halfsplit::fuzz {

namespace {

using Json = nlohmann::ordered_json;

class Mutation {
  public:
    Mutation(Json& document, unsigned seed) : random_(seed) { collect(document); }

    void apply() {
        Json& chosen = *pick(all_);
        switch (below(6)) {
            case 0:
                remove_from(chosen);
                break;
            case 1:
                double_in(chosen);
                break;
            case 2:
                chosen = Json(*pick(all_));
                break;
            case 3:
                exchange_within(chosen);
                break;
            case 4:
                change_text(chosen);
                break;
            default:
                chosen = odd_value();
                break;
        }
    }

  private:
    std::size_t below(std::size_t end) {
        return std::uniform_int_distribution<std::size_t>(0, end - 1)(random_);
    }

    template <class T>
    const T& pick(const std::vector<T>& from) {
        return from[below(from.size())];
    }

    void collect(Json& value) {
        all_.push_back(&value);
        if (value.is_structured()) {
            for (Json& entry : value) collect(entry);
        }
    }

    Json::iterator entry_of(Json& value) {
        return std::next(value.begin(), static_cast<std::ptrdiff_t>(below(value.size())));
    }

    void remove_from(Json& value) {
        if (value.is_structured() && !value.empty())
            value.erase(entry_of(value));
        else
            value = odd_value();
    }

    void double_in(Json& value) {
        if (value.is_array() && !value.empty())
            value.push_back(Json(*entry_of(value)));
        else if (value.is_number())
            value = value.get<double>() * (below(2) == 0 ? 2 : 0.5);
        else
            value = odd_value();
    }

    void exchange_within(Json& value) {
        if (value.is_structured() && value.size() > 1)
            std::swap(*entry_of(value), *entry_of(value));
        else
            value = Json(*strings());  // a swap with a value around it would bite its own tail
    }

    // A text of another place, or one of its own changed a little: names are what most mistakes are about.
    void change_text(Json& value) {
        if (!value.is_string()) return exchange_within(value);
        std::string text = value.get<std::string>();
        if (text.empty() || below(2) == 0) {
            value = Json(*strings());
        } else {
            text[below(text.size())] = static_cast<char>(' ' + below(95));
            value = text;
        }
    }

    Json* strings() {
        std::vector<Json*> found;
        for (Json* value : all_) {
            if (value->is_string()) found.push_back(value);
        }
        return found.empty() ? all_.front() : pick(found);
    }

    Json odd_value() {
        static const std::vector<Json> odd{
            0,   1,    -1,      2.5,   1e-300, 1e308,         4294967296,    64, 65, 0.001, 1000, true, "",
            "x", "OL", nullptr, false, -0.0,   Json::array(), Json::object()};
        return pick(odd);
    }

    std::mt19937 random_;
    std::vector<Json*> all_;
};

std::size_t put_back(const std::string& text, std::uint8_t* data, std::size_t most) {
    if (text.size() > most) return 0;
    std::memcpy(data, text.data(), text.size());
    return text.size();
}

}  // namespace

std::size_t mutate_json(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed) {
    if (seed % 4 != 0) {
        Json document = Json::parse(data, data + size, nullptr, false);
        if (!document.is_discarded()) {
            Mutation(document, seed).apply();
            const std::size_t written =
                put_back(document.dump(1, ' ', false, Json::error_handler_t::replace), data, most);
            if (written > 0) return written;
        }
    }
    return LLVMFuzzerMutate(data, size, most);
}

}  // namespace halfsplit::fuzz
