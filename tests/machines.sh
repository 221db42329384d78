#!/bin/sh
# make check-machines MACHINES="sid i386 arm64 s390x": the sources on other systems and processors, built with warnings as errors, then the unit tests and the
# golden cases. sid and i386 run in a system of their own, as root, with all tests; arm64 and s390x are built by a cross compiler and run by qemu-user.
# Each system is made by mmdebstrap, once, in machines/ of the build folder. What a machine lacks is left out, which is said.
. "${TOP:?the source folder}/tests/check.sh"
top=$(cd "$TOP" && pwd)
mkdir -p machines && cd machines || exit 99
folder=$(pwd)
skipped=0
libraries=$(sed -n '/^PACKAGES=/,/"$/p' "$top/bootstrap" | tr -d '"' | sed 's/^PACKAGES=//' | tr ' ' '\n' | grep -e '-dev$')
# libxlsxwriter of newer systems asks pkg-config for minizip, which its own package does not bring along.
tools="libminizip-dev gcc make autoconf automake pkg-config gnuplot-nox fonts-dejavu-core mandoc sqlite3 git python3 procps file jq check"

left_out() { # MACHINE WHY
    echo "left out: $1: $2"
    skipped=$((skipped + 1))
}

# A clock that is ahead of the archive's must not stop a night.
system() { # NAME SUITE ARCHITECTURE VARIANT PACKAGE...
    name=$1 suite=$2 architecture=$3 variant=$4
    shift 4
    [ ! -e "$folder/$name.whole" ] || return 0
    rm -rf "${folder:?}/$name"
    mmdebstrap --quiet --aptopt='Acquire::Check-Valid-Until "false"' --variant="$variant" --architectures="$architecture" \
        --include="$(echo "$@" | tr ' ' ',')" "$suite" "$folder/$name" >"$folder/$name.log" 2>&1 && : >"$folder/$name.whole"
}

sources() { # FOLDER: as the tarball has them
    rm -rf "$1" && mkdir -p "$1" && make -s -C .. distdir distdir="$folder/distdir" >/dev/null && cp -a "$folder/distdir/." "$1" && rm -rf "$folder/distdir"
}

in_a_system_of_its_own() { # NAME SUITE ARCHITECTURE
    [ "$(id -u)" = 0 ] || { left_out "$1" "not root"; return; }
    command -v mmdebstrap >/dev/null || { left_out "$1" "mmdebstrap is not here"; return; }
    # shellcheck disable=SC2086 # words
    system "$1" "$2" "$3" apt $libraries $tools || { left_out "$1" "no system could be made: $(tail -1 "$folder/$1.log")"; return; }
    sources "$folder/$1/tautline"
    # proc and devices are the machine's own, seen by that system alone: they vanish with the last program in it.
    unshare --mount sh -c 'mount --bind /proc "$1/proc" && mount --bind /dev "$1/dev" &&
        exec chroot "$1" sh -c "cd /tautline && mkdir b && cd b && ../configure --quiet --disable-lto --enable-werror && make -s all && make -s -k check"' \
        sh "$folder/$1" >"$folder/$1.log" 2>&1
    if [ $? = 0 ]; then pass; else fail "$1, in $folder/$1.log" && grep -E '^(FAIL|ERROR)|error:' "$folder/$1.log" | head -20; fi
    grep '^# ' "$folder/$1.log" | tr '\n' ' '
    echo "$1"
}

# Links that begin at the root are those of the machine itself, unless they are made to begin where they are.
relative_links() { # FOLDER
    find "$1" -type l -lname '/*' | while read -r link; do
        ln -sfnr "$1$(readlink "$link")" "$link"
    done
}

crossed() { # ARCHITECTURE TRIPLET QEMU
    root=$folder/$1 qemu=qemu-$3-static
    for each in mmdebstrap "$2-gcc" "$qemu"; do
        command -v "$each" >/dev/null || { left_out "$1" "$each is not here"; return; }
    done
    # shellcheck disable=SC2086 # words
    if [ ! -e "$folder/$1.whole" ]; then
        system "$1" "$(. /etc/os-release && echo "${VERSION_CODENAME:-stable}")" "$1" extract $libraries check ||
            { left_out "$1" "no system could be made: $(tail -1 "$folder/$1.log")"; return; }
        relative_links "$root"
    fi
    sources "$folder/$1-source"
    mkdir "$folder/$1-source/b" && cd "$folder/$1-source/b" || exit 99
    if PKG_CONFIG_LIBDIR=$root/usr/lib/$2/pkgconfig:$root/usr/share/pkgconfig PKG_CONFIG_SYSROOT_DIR=$root ../configure --quiet --host="$2" \
        --disable-lto --enable-werror CC="$2-gcc --sysroot=$root" CPPFLAGS="-isystem $root/usr/include/$2" \
        LDFLAGS="-L$root/usr/lib/$2 -L$root/lib/$2 -Wl,-rpath-link,$root/usr/lib/$2:$root/lib/$2" >"$folder/$1.log" 2>&1 &&
        make -s all >>"$folder/$1.log" 2>&1 && make -s check TESTS= >>"$folder/$1.log" 2>&1; then
        pass
    else
        fail "$1 is not built, in $folder/$1.log" && grep -E 'error' "$folder/$1.log" | head
        cd "$folder" && return
    fi
    printf '#!/bin/sh\nexec %s -L "%s" "%s/tautline" "$@"\n' "$qemu" "$root" "$(pwd)" >run-tautline && chmod +x run-tautline
    export TOP="$folder/$1-source" CK_FORK=no
    units=0
    for program in tests/*/test_* tests/fuzz/replay_*; do
        [ -x "$program" ] && [ -f "$program" ] || continue
        case $program in *.o | *.c) continue ;; esac
        units=$((units + 1))
        TAUTLINE=$(pwd)/run-tautline GOLDEN=$TOP/tests/golden "$qemu" -L "$root" "$program" >"$work/out" 2>&1 && pass || { fail "$1: $program" && tail -5 "$work/out"; }
    done
    echo "$1: $units programs of tests"
    TAUTLINE=$(pwd)/run-tautline GOLDEN=$TOP/tests/golden GNUPLOT=none MANDOC=none sh "$TOP/tests/golden.sh" >"$folder/$1-golden.log" 2>&1 && pass ||
        { fail "$1: golden cases, in $folder/$1-golden.log" && tail -20 "$folder/$1-golden.log"; }
    echo "$1: golden cases: $(tail -1 "$folder/$1-golden.log")"
    cd "$folder" && TOP=$top
}

for machine in ${MACHINES:-sid i386 arm64 s390x}; do
    case $machine in
    sid) in_a_system_of_its_own sid sid "$(dpkg --print-architecture)" ;;
    i386) in_a_system_of_its_own i386 "$(. /etc/os-release && echo "${VERSION_CODENAME:-stable}")" i386 ;;
    arm64) crossed arm64 aarch64-linux-gnu aarch64 ;;
    s390x) crossed s390x s390x-linux-gnu s390x ;;
    *) fail "no machine of that name: $machine" ;;
    esac
done
[ "$passed" -gt 0 ] || [ "$failed" -gt 0 ] || exit 77
finish
