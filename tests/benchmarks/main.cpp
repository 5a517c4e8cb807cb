// The runner with benchmarking switched on; version 2's ready-made one has it off.
#define CATCH_CONFIG_MAIN
#include "support/catch.hpp"
