// The runner, where the test library is only headers. Files are written as they are told, without a second
// sign at each end of line.
#include <fcntl.h>
#include <stdlib.h>

#define CATCH_CONFIG_RUNNER
#include "support/catch.hpp"

int main(int count, char** arguments) {
    _fmode = _O_BINARY;
    return Catch::Session().run(count, arguments);
}
