#!/bin/sh
# The tarball is the same, byte for byte, out of two clones that share nothing but their commit (folder, umask, time zone, locale, the
# files' own times), and out of the unpacked tarball itself, where there is no git. Nothing of the repository is left out of it.
. "${TOP:?the source folder}/tests/check.sh"
[ -e "$TOP/.git" ] && command -v git >/dev/null || { echo "no git clone here: the tarball is not made twice"; exit 77; }
command -v autoreconf >/dev/null || { echo "no autoconf here: the tarball is not made twice"; exit 77; }
unset SOURCE_DATE_EPOCH MAKEFLAGS MFLAGS MAKELEVEL # neither the caller's date nor its make

tarball() { # SOURCES: makes one in SOURCES/made
    (
        cd "$1" && { [ -x configure ] || autoreconf --install; } && mkdir made && cd made && ../configure --quiet && make -s dist
    ) >"$work/log" 2>&1 && ls "$1"/made/*.tar.gz && return
    tail -5 "$work/log" >&2
    return 1
}

same() { # TEXT ONE OTHER
    if cmp -s "$2" "$3"; then
        pass
    else
        fail "$1"
        tar -tvf "$2" >"$work/one.list" && tar -tvf "$3" >"$work/other.list" && diff "$work/one.list" "$work/other.list" | head -5
    fi
}

listed() { # TARBALL: its files, without their common folder
    tar -tf "$1" | sed -e 's,^[^/]*/,,' -e '/\/$/d' -e '/^$/d' | LC_ALL=C sort
}

mkdir -p "$work/far/away"
(umask 022 && git clone --quiet "$TOP" "$work/near") && (umask 077 && git clone --quiet "$TOP" "$work/far/away/clone") || fail "no clone"
find "$work/far" -path '*/.git' -prune -o -type f -exec touch -d 2001-02-03T04:05:06Z {} +
near=$(umask 022 && TZ=UTC LC_ALL=C tarball "$work/near") || fail "no tarball"
far=$(umask 077 && TZ=Asia/Kathmandu LC_ALL=C.UTF-8 tarball "$work/far/away/clone") || fail "no tarball"
same "two clones make one tarball" "$near" "$far"

mkdir "$work/unpacked" && tar -xf "$near" -C "$work/unpacked"
again=$(umask 027 && TZ=America/Lima tarball "$work/unpacked"/*) || fail "no tarball out of the tarball"
same "the tarball makes itself" "$near" "$again"

# Owner, group, modes, time: nothing tells of who made it.
[ "$(tar -tvf "$near" | awk '{ print $2, $4, $5 }' | sort -u | wc -l)" = 1 ] && tar -tvf "$near" | grep -q ' 0/0 ' && pass || fail "one owner and one time"
[ -z "$(tar -tvf "$near" | awk '$1 !~ /^(-rw-r--r--|-rwxr-xr-x|drwxr-xr-x)$/')" ] && pass || fail "modes are plain"

# The repository's files are all in it, but for what git itself reads.
listed "$near" >"$work/packed"
git -C "$TOP" ls-tree -r --name-only HEAD | grep -v -x -e .gitignore -e .git-blame-ignore-revs | LC_ALL=C sort >"$work/kept"
LC_ALL=C comm -13 "$work/packed" "$work/kept" >"$work/missing"
if [ -s "$work/kept" ] && [ ! -s "$work/missing" ]; then pass; else fail "left out of the tarball:" && cat "$work/missing"; fi
finish
