// The operating system made unkind for the length of a scope: no rights of the superuser, or no room in
// files.
#pragma once

#include <csignal>
#include <sys/resource.h>
#include <unistd.h>

namespace halfsplit::test {

// Permissions mean nothing to the superuser, so a test of them steps down to a user who owns nothing.
class OrdinaryUser {
  public:
    OrdinaryUser() : was_(::geteuid()) {
        if (was_ == 0) ok_ = ::seteuid(nobody) == 0;
    }
    ~OrdinaryUser() {
        if (was_ == 0) ok_ = ::seteuid(was_) == 0;
    }
    OrdinaryUser(const OrdinaryUser&) = delete;
    OrdinaryUser& operator=(const OrdinaryUser&) = delete;
    bool ok() const { return ok_; }

  private:
    static constexpr uid_t nobody = 65534;
    uid_t was_;
    bool ok_ = true;
};

// No file may grow beyond `bytes`: a write takes what fits and the next one fails, as on a full disk.
class FullDisk {
  public:
    explicit FullDisk(rlim_t bytes) : old_action_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &old_limit_);
        const rlimit limit{bytes, old_limit_.rlim_max};
        ok_ = ::setrlimit(RLIMIT_FSIZE, &limit) == 0;
    }
    ~FullDisk() {
        ok_ = ::setrlimit(RLIMIT_FSIZE, &old_limit_) == 0;
        (void)std::signal(SIGXFSZ, old_action_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    bool ok() const { return ok_; }

  private:
    void (*old_action_)(int);
    rlimit old_limit_{};
    bool ok_ = false;
};

}  // namespace halfsplit::test
