// The headers of Windows, in the order that they need: the first has the words of all others.
#pragma once

#include <windows.h>
// Not sorted with the first.
#include <bcrypt.h>
#include <sddl.h>
#include <shellapi.h>
