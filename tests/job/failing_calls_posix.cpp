// Loaded before the C library (LD_PRELOAD): lets system calls fail that write, sync and cut regular files and
// folders, so that the program itself meets what no test can ask of a disk. HALFSPLIT_FAILING holds
// CALL:NTH:ERROR[:ever], several with commas: the NTH such call, counted from 1, fails with that errno; with
// `ever` all that follow as well. ERROR 0, of a write: it takes half.
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <dlfcn.h>
#include <sys/stat.h>
#include <unistd.h>

namespace {

bool is_on_disk(int file) {
    struct stat status {};
    return fstat(file, &status) == 0 && (S_ISREG(status.st_mode) || S_ISDIR(status.st_mode));
}

struct Verdict {
    bool fails = false;
    int error = 0;
};

// What is said of the call that is the `count`th of its name.
Verdict verdict(const char* call, long count) {
    const char* rule = std::getenv("HALFSPLIT_FAILING");
    const std::size_t length = std::strlen(call);
    for (; rule != nullptr && *rule != '\0'; rule = std::strchr(rule, ',')) {
        if (*rule == ',') ++rule;
        if (std::strncmp(rule, call, length) != 0 || rule[length] != ':') continue;
        char* end = nullptr;
        const long nth = std::strtol(rule + length + 1, &end, 10);
        const int error = static_cast<int>(std::strtol(end + 1, &end, 10));
        const bool ever = std::strncmp(end, ":ever", 5) == 0;
        if (count == nth || (ever && count > nth)) return {true, error};
    }
    return {};
}

template <typename Function>
Function* real(const char* name) {
    return reinterpret_cast<Function*>(dlsym(RTLD_NEXT, name));
}

// -1 where the call is to fail, else what it gives.
template <typename Function, typename... Arguments>
int call_or_fail(const char* name, long& count, int file, Arguments... arguments) {
    if (is_on_disk(file)) {
        const Verdict said = verdict(name, ++count);
        if (said.fails) {
            errno = said.error;
            return -1;
        }
    }
    return real<Function>(name)(file, arguments...);
}

long writes = 0, data_syncs = 0, syncs = 0, cuts = 0;

}  // namespace

extern "C" {

ssize_t write(int file, const void* text, size_t length) {
    const auto write_it = real<ssize_t(int, const void*, size_t)>("write");
    if (is_on_disk(file)) {
        const Verdict said = verdict("write", ++writes);
        if (said.fails && said.error == 0) return write_it(file, text, (length + 1) / 2);
        if (said.fails) {
            errno = said.error;
            return -1;
        }
    }
    return write_it(file, text, length);
}

int fdatasync(int file) {
    return call_or_fail<int(int)>("fdatasync", data_syncs, file);
}

int fsync(int file) {
    return call_or_fail<int(int)>("fsync", syncs, file);
}

int ftruncate(int file, off_t length) noexcept {
    return call_or_fail<int(int, off_t)>("ftruncate", cuts, file, length);
}

}  // extern "C"
