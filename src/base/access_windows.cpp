#include "base/access_windows.hpp"

#include <vector>

namespace halfsplit {

namespace {

// "S-1-5-21-...": the user that the program runs as; empty where the system does not say.
std::wstring user_id() {
    HANDLE token = nullptr;
    if (OpenProcessToken(GetCurrentProcess(), TOKEN_QUERY, &token) == 0) return {};
    DWORD size = 0;
    GetTokenInformation(token, TokenUser, nullptr, 0, &size);
    std::vector<unsigned char> buffer(size);
    std::wstring result;
    LPWSTR text = nullptr;
    if (GetTokenInformation(token, TokenUser, buffer.data(), size, &size) != 0 &&
        ConvertSidToStringSidW(reinterpret_cast<TOKEN_USER*>(buffer.data())->User.Sid, &text) != 0) {
        result = text;
        LocalFree(text);
    }
    CloseHandle(token);
    return result;
}

bool has_no_access_lists(DWORD error) {
    return error == ERROR_NOT_SUPPORTED || error == ERROR_INVALID_FUNCTION;
}

}  // namespace

OwnerAlone::OwnerAlone() {
    const std::wstring user = user_id();
    if (user.empty()) return;
    // P: nothing is inherited from the folder. FR, FW, SD: read, write, delete; FA: everything. SY, BA: the
    // system and its administrators.
    const std::wstring access = L"D:P(A;;FRFWSD;;;" + user + L")(A;;FA;;;SY)(A;;FA;;;BA)";
    if (ConvertStringSecurityDescriptorToSecurityDescriptorW(access.c_str(), SDDL_REVISION_1, &descriptor_,
                                                             nullptr) == 0)
        descriptor_ = nullptr;
    attributes_ = {sizeof attributes_, descriptor_, FALSE};
}

OwnerAlone::~OwnerAlone() {
    if (descriptor_ != nullptr) LocalFree(descriptor_);
}

bool copy_access(const std::wstring& from, const std::wstring& to) {
    DWORD size = 0;
    GetFileSecurityW(from.c_str(), DACL_SECURITY_INFORMATION, nullptr, 0, &size);
    if (size == 0) return has_no_access_lists(GetLastError());
    std::vector<unsigned char> access(size);
    if (GetFileSecurityW(from.c_str(), DACL_SECURITY_INFORMATION, access.data(), size, &size) == 0)
        return false;
    return SetFileSecurityW(to.c_str(), DACL_SECURITY_INFORMATION, access.data()) != 0 ||
           has_no_access_lists(GetLastError());
}

}  // namespace halfsplit
