#!/usr/bin/env bash
# Builds the Debian package and looks at it: what lies where, how it is protected, what lintian says. With "root" as
# argument it is also installed and used in a fresh Debian of its own (as root; some minutes).
set -euo pipefail
cd "$(dirname "$0")/.."
bash tests/packages.sh g++ cmake make libcli11-dev nlohmann-json3-dev libfmt-dev libvalijson-dev libedit-dev \
    libeigen3-dev libmd-dev libpugixml-dev dpkg-dev lintian binutils
folder=.build/package
folder_of_test="$(mktemp -d)"
trap 'rm -rf --one-file-system "$folder_of_test"' EXIT
wrong() { echo "package: $*" >&2; exit 1; }

cmake -S . -B .build/package -DCMAKE_BUILD_TYPE=Release -DCMAKE_INSTALL_PREFIX=/usr -DCMAKE_UNITY_BUILD=ON \
    -DCMAKE_UNITY_BUILD_BATCH_SIZE=45 -DHALFSPLIT_HARDEN=ON -DHALFSPLIT_TESTS=OFF >/dev/null
cmake --build "$folder" -j "$(nproc)"
# The time of the changelog stands for that of every file: packed twice it is the same to the last bit.
SOURCE_DATE_EPOCH="$(dpkg-parsechangelog -l src/packaging/debian/changelog -S Timestamp)"
export SOURCE_DATE_EPOCH
for time in first second; do
    rm -f "$folder"/*.deb
    (cd "$folder" && cpack >/dev/null)
    package="$(ls "$folder"/halfsplit_*.deb)"
    cp "$package" "$folder_of_test/$time"
done
cmp "$folder_of_test/first" "$folder_of_test/second" || wrong "packed twice it differs"
contents="$folder_of_test/contents"
dpkg-deb -x "$package" "$contents"
program="$contents/usr/bin/halfsplit"
echo "$package: $(stat -c %s "$package") bytes"
dpkg-deb -f "$package" Package Version Section Depends

# What lies where.
for file in bin/halfsplit share/man/man1/halfsplit.1.gz share/man/man1/halfsplit-hunt.1.gz \
    share/bash-completion/completions/halfsplit share/zsh/vendor-completions/_halfsplit \
    share/fish/vendor_completions.d/halfsplit.fish share/doc/halfsplit/{README.md,copyright,changelog.gz} \
    share/doc/halfsplit/docs/{README.md,how-to/install.md,schema/next.schema.json} share/halfsplit/{demo/minibus.json,schema/next.schema.json}; do
    [ -e "$contents/usr/$file" ] || wrong "no /usr/$file in it"
done
others="$(dpkg-deb -c "$package" | awk '$2 != "root/root" || ($1 !~ /^-rw-r--r--|^drwxr-xr-x|^l/ && $6 !~ /bin\/halfsplit$|[.]sh$/)')"
[ -z "$others" ] || wrong "owners or permissions: $others"
[ "$(stat -c %a "$program")" = 755 ] || wrong "the program has permissions $(stat -c %a "$program")"
! grep -rlF "$PWD" "$contents" || wrong "names the folder that it was built in"

# How the program is protected, from what the linker wrote into it.
told="$(readelf -hldSW --dyn-syms "$program")"
has() { grep -qE "$1" <<<"$told"; }
has 'Type:.*DYN' || wrong "lies at a fixed address"
has GNU_RELRO || wrong "no relro"
has 'GNU_STACK.* RW ' || wrong "its stack can be run"
has BIND_NOW || wrong "binds late"
has __stack_chk_fail || wrong "no guard on the stack"
has '__[a-z]+_chk(@| |$)' || wrong "not fortified"
has __glibcxx_assert_fail || wrong "no assertions of the standard library"
! has '[.]symtab|[.]debug_info' || wrong "not stripped"
[[ "$("$program" --version)" == *hardened* ]] || wrong "does not say that it is hardened"

lintian --fail-on error --tag-display-limit 0 "$package" || wrong "lintian has errors"
echo "package: contents, protection and lintian: done"
[ "${1:-}" = root ] || exit 0

# A fresh Debian, from where this machine has its own packages.
bash tests/packages.sh debootstrap
root="$folder_of_test/root"
mirror="$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' | head -n 1)"
suite="$(. /etc/os-release && echo "$VERSION_CODENAME")"
debootstrap --variant=minbase "$suite" "$root" "$mirror" >"$folder/debootstrap.log" || wrong "see $folder/debootstrap.log"
cp "$package" "$root/root/"
in_root() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LANG=C.UTF-8 "$@"; }
in_root sh -c 'cd /root && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends ./halfsplit_*.deb' \
    >"$folder/install.log" 2>&1 || wrong "see $folder/install.log"
in_root halfsplit --version
in_root halfsplit check /usr/share/halfsplit/demo/minibus.json
in_root sh -c 'cd /root && halfsplit note /usr/share/halfsplit/demo/minibus.json --job a.job intake complaint=dead'
in_root sh -c 'cd /root && halfsplit review a.job --html a.html && test -s a.html'
in_root sh -c 'dpkg -r halfsplit && ! command -v halfsplit' >/dev/null
[ -z "$(find "$root/usr" -name '*halfsplit*')" ] || wrong "something stays when it is removed"
echo "package: installed, used and removed in a fresh $suite"
