#!/bin/sh
# The Debian packages of a folder (make deb): lintian has nothing to say that is not explained, a second build gives the same bytes, and,
# as root on a Debian without tautline, the package is installed, works on the year that comes with it, and is removed without a trace.
. "${TOP:?the source folder}/tests/check.sh"
folder=$(cd "${1:?the folder of the packages}" && pwd)
command -v dpkg-buildpackage >/dev/null && command -v lintian >/dev/null || { echo "no dpkg-dev and lintian here: the packages are not looked at"; exit 77; }
umask 022

one() { # PATTERN: the path of the one file of that kind
    found=$(find "$folder" -maxdepth 1 -name "$1")
    [ -f "$found" ] && echo "$found" || { echo "not one $1 in $folder" >&2; exit 1; }
}
package=$(one 'tautline_*.deb') changes=$(one 'tautline_*.changes') tarball=$(one 'tautline_*.orig.tar.gz')

# --- lintian: nothing is left, and each override says why ---------------------------------------------------------------------

lintian --allow-root --pedantic --display-info "$changes" >"$work/lintian" 2>&1
if [ $? = 0 ] && [ ! -s "$work/lintian" ]; then pass; else fail "lintian" && cat "$work/lintian"; fi
for each in "$TOP"/packaging/debian/tautline.lintian-overrides "$TOP"/packaging/debian/source/lintian-overrides; do
    awk 'NR == 1 && !/^#/ { exit 1 } /^$/ { fresh = 1; next } fresh && !/^#/ { exit 1 } { fresh = 0 }' "$each" && pass ||
        fail "an override without its reason: $each"
done

# --- what is in it ------------------------------------------------------------------------------------------------------------

dpkg-deb --contents "$package" | awk '{ print $6 }' >"$work/contents"
for each in bin/tautline share/man/man1/tautline.1.gz share/tautline/plots/style.gp share/tautline/schemas/loads-lb.schema.json \
    share/bash-completion/completions/tautline share/zsh/vendor-completions/_tautline share/fish/vendor_completions.d/tautline.fish share/doc/tautline/copyright \
    share/doc/tautline/examples/gym.ini share/doc/tautline/examples/logs/maren.txt share/doc/tautline/examples/nightly/tautline-team.service; do
    grep -qxF "./usr/$each" "$work/contents" && pass || fail "the package lacks $each"
done
ls "$TOP"/man | while read -r page; do
    grep -q "/$page.gz\$" "$work/contents" || echo "$page"
done >"$work/pages"
if [ -s "$work/pages" ]; then fail "man pages that the package lacks" && cat "$work/pages"; else pass; fi

# --- once more, elsewhere -----------------------------------------------------------------------------------------------------

mkdir -p "$work/else/where"
cp "$tarball" "$work/else/where/$(basename "$tarball" .orig.tar.gz | tr _ -).tar.gz"
if (cd "$work/else/where" && umask 077 && TZ=Asia/Kathmandu DEB_BUILD_OPTIONS="nocheck parallel=2" sh "$TOP/packaging/deb.sh" *.tar.gz again) >"$work/log" 2>&1; then
    for each in "$folder"/*.deb "$folder"/*.dsc "$folder"/*.debian.tar.xz; do
        cmp -s "$each" "$work/else/where/again/$(basename "$each")" && pass || fail "built again, other bytes: $(basename "$each")"
    done
else
    fail "no second build" && tail -5 "$work/log"
fi

# --- installed, tried, removed ------------------------------------------------------------------------------------------------

if [ "$(id -u)" != 0 ]; then
    echo "not root: the package is not installed"
elif dpkg-query -W tautline >/dev/null 2>&1; then
    echo "tautline is installed here already: the package is not installed"
else
    trap 'dpkg --purge tautline >/dev/null 2>&1; rm -rf "$work"' EXIT
    dpkg --install "$package" >"$work/log" 2>&1 && pass || { fail "dpkg --install" && cat "$work/log"; }
    dpkg --verify tautline >"$work/verify" && [ ! -s "$work/verify" ] && pass || fail "files differ from the package's"
    (cd / && PATH=/usr/sbin:/usr/bin:/sbin:/bin sh "$TOP/packaging/debian/tests/sample") >"$work/log" 2>&1 && pass || { fail "the sample" && cat "$work/log"; }
    dpkg --purge tautline >"$work/log" 2>&1 && pass || { fail "dpkg --purge" && cat "$work/log"; }
    # Folders of others stay; of ours nothing does.
    while read -r path; do
        case $path in */) ;; *) [ ! -e "/${path#./}" ] || echo "$path" ;; esac
    done <"$work/contents" >"$work/left"
    if [ -e /usr/share/doc/tautline ] || [ -e /usr/share/tautline ] || [ -s "$work/left" ]; then fail "left behind" && cat "$work/left"; else pass; fi
fi
finish
