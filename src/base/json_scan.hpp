// A plain walk over the tokens of JSON text, for finding places: nlohmann_json 3.11 keeps no positions of
// values. Meant for text that a parser has accepted; on other text it gives whatever tokens it can and always
// ends.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace halfsplit {

struct JsonToken {
    enum class Kind { BeginObject, EndObject, BeginArray, EndArray, Name, Scalar, End };
    Kind kind = Kind::End;
    std::size_t offset = 0;
    std::string_view text;  // with quotes and escapes, as it stands
};

class JsonScan {
  public:
    explicit JsonScan(std::string_view text);
    JsonToken next();
    std::size_t depth() const { return is_object_.size(); }  // of what is open after the last token

  private:
    JsonToken string_at(std::size_t start);
    JsonToken scalar_at(std::size_t start);

    std::string_view text_;
    std::size_t at_ = 0;
    bool name_next_ = false;
    std::vector<bool> is_object_;
};

// Length of a byte order mark at the start of the text: 3 or 0.
std::size_t byte_order_mark(std::string_view text);

// A string token without quotes and escapes; the token itself where its escapes make no sense.
std::string unquoted(std::string_view token);

}  // namespace halfsplit
