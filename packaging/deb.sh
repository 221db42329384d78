#!/bin/sh
# Debian packages, source and binary, out of a tarball: deb.sh TARBALL FOLDER. FOLDER is made anew. Root is not needed; the packages
# to build with are those of packaging/debian/control. DEB_BUILD_OPTIONS=nocheck leaves the tests out.
set -eu
umask 022
tarball=$1 folder=$2
name=$(basename "$tarball" .tar.gz)
version=${name#tautline-}

rm -rf "$folder"
mkdir -p "$folder"
cp "$tarball" "$folder/tautline_$version.orig.tar.gz"
tar -xf "$tarball" -C "$folder"
cd "$folder/$name"
cp -R packaging/debian debian
# There is one version, that of configure.ac; what changed is in CHANGELOG.md.
SOURCE_DATE_EPOCH=$(sh packaging/source-date.sh)
export SOURCE_DATE_EPOCH
cat >debian/changelog <<END
tautline ($version-1) unstable; urgency=medium

  * What is new in $version is in /usr/share/doc/tautline/changelog.gz.

 -- $(sed -n 's/^Maintainer: //p' debian/control)  $(LC_ALL=C date -u -R -d "@$SOURCE_DATE_EPOCH")
END
dpkg-buildpackage --unsigned-source --unsigned-changes --build=full
