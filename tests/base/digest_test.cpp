#include "halfsplit/base/digest.hpp"

#include "support/catch.hpp"

using namespace halfsplit;

// Source: NIST, Secure Hash Standard examples with intermediate values (SHA-256: one block, two blocks) and
// the value of the empty message; from memory. The million letters: FIPS 180-2 (2002), appendix B.3; from
// memory.
TEST_CASE("the fingerprint is SHA-256 as its standard shows it") {
    CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(sha256(std::string(1'000'000, 'a')) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("a zero byte is part of the text") {
    CHECK(sha256(std::string_view("a\0b", 3)) != sha256("a"));
}
