#!/bin/sh
# Every command line shown in README.md and in the manual is run, and what it prints is compared with what is shown: `$ COMMAND`, then the
# expected lines. A line `…` in README.md or `...` in a page stands for any number of lines. Standard error is left out: it is in the golden files.
#
# README.md shows commands in indented blocks, a page of the manual in `.Bd -literal` blocks. A command that ends in `|` or `\` goes on in the
# next line. `$ cat FILE` of a file that is not there makes it: what is shown is what the commands below it read. Each document has a folder
# of its own with the samples in it.
set -u
: "${TAUTLINE:?the program to test}" "${TOP:?the source folder}"
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
export LC_ALL=C.UTF-8 TZ=UTC NO_COLOR=1 HOME="$work"
mkdir "$work/bin" && ln -s "$TAUTLINE" "$work/bin/tautline" && PATH="$work/bin:$PATH" && export PATH
passed=0 failed=0

# One file a command: how many lines the command has in line 1, then these, then the expected output.
split_blocks() { # INTO: literal lines on standard input, other lines marked by a leading TAB
    awk -v into="$1" '
        function close_block() { if (file) { close(file); file = "" } blank = 0; more = 0 }
        /^\t/ { close_block(); next }
        /^\$ / || more {
            if (!more) { close_block(); file = sprintf("%s-%03d", into, ++count); command = substr($0, 3); lines = 1 }
            else { command = command "\n" $0; lines++ }
            more = /[|\\]$/
            if (!more) print lines "\n" command > file
            next
        }
        /^$/ && file { blank++; next } # within a block only if more of it follows
        file { for (; blank > 0; blank--) print "" > file; print > file }'
}

of_readme() {
    awk '/^    / { print substr($0, 5); next } /^$/ { print; next } { print "\t" }' "$1"
}

of_page() { # mdoc source to what its literal blocks show
    awk '/^\.Bd -literal/ { on = 1; next } /^\.Ed/ { on = 0; print "\t"; next } on { print }' "$1" |
        sed -e 's/\\(dq/"/g' -e "s/\\\\(aq/'/g" -e 's/\\(ga/`/g' -e 's/\\(+-/±/g' -e 's/\\(mu/×/g' -e 's/\\-/-/g' -e 's/^\\&\.\.\.$/…/' \
            -e 's/\\&//g' -e 's/\\e/\\/g'
}

run_block() { # DOCUMENT FOLDER BLOCK
    lines=$(sed -n 1p "$3")
    sed -n "2,$((lines + 1))p" "$3" >"$work/command"
    sed -e "1,$((lines + 1))d" -e 's/─/-/g' "$3" >"$work/expected"
    made=$(sed -n 's/^cat \([A-Za-z0-9._-]*\)$/\1/p' "$work/command")
    [ -z "$made" ] || [ -e "$2/$made" ] || cp "$work/expected" "$2/$made"
    (cd "$2" && sh "$work/command") >"$work/got" 2>/dev/null
    sed 's/─/-/g' "$work/got" >"$work/plain" # printers' fonts lack the dashes that rule tables
    if awk -v expected="$work/expected" -f "$TOP/tests/shown.awk" "$work/plain"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAIL: $1: $(cat "$work/command")"
    fi
}

for document in "$TOP/README.md" "$TOP"/man/*.[1-9]; do
    [ "$document" != "$TOP/man/tautline-recipes.7" ] || continue # recipes.sh: tools that may be missing
    name=$(basename "$document") folder="$work/in-$(basename "$document")"
    mkdir "$folder" && cp -R "$TOP/samples" "$folder/samples" && chmod -R u+w "$folder"
    case $name in
        *.md) of_readme "$document" ;;
        *) of_page "$document" ;;
    esac | split_blocks "$work/$name"
    for block in "$work/$name"-[0-9]*; do
        [ ! -f "$block" ] || run_block "$name" "$folder" "$block"
    done
    case $name in
        README.md | *.1) [ -f "$work/$name-001" ] || { failed=$((failed + 1)); echo "FAIL: $name shows no command"; } ;;
    esac
done
echo "$passed passed, $failed failed"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
