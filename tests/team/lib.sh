# What the tests of the nightly job share. Sourced by tests/team.sh.

passed=0 failed=0 skipped=0

check() { # TEXT STATUS
    if [ "$2" = 0 ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "FAIL: $1"
        [ ! -s "$work/out" ] || sed 's/^/  out: /' "$work/out" | tail -n 8
        [ ! -s "$work/err" ] || sed 's/^/  err: /' "$work/err" | tail -n 8
    fi
}

skip() { # TEXT
    skipped=$((skipped + 1))
    echo "skipped: $1"
}

is() { # TEXT WANTED GOT
    [ "$2" = "$3" ]
    check "$1 (wanted $2, got $3)" $?
}

# One night; its status in $status. Pictures are not drawn unless a test says so.
night() { # GYM DIR OPTION...
    night_gym=$1 night_dir=$2
    shift 2
    "$TAUTLINE" team --gym "$night_gym" --into "$night_dir" --today 2026-06-03 --render none "$@" >"$work/out" 2>"$work/err"
    status=$?
}

# A small team in folder $1: six lifters, eight weeks.
team() { # FOLDER [OPTION...]
    team_folder=$1
    shift
    rm -rf "$team_folder"
    sh "$TOP/samples/team.sh" --lifters 6 --weeks 8 "$@" "$team_folder" || exit 99
}

dump() { # DIR: the store but for the nights
    sqlite3 "$1/team.sqlite" .dump | grep -v '^INSERT INTO nights'
}

same() { # TEXT DIR DIR: the same files and the same store
    { diff -r -x night.json -x 'team.sqlite*' -x '.*.lock' -x .lock "$2" "$3" && dump "$2" >"$work/dump-1" && dump "$3" >"$work/dump-2" &&
        [ -s "$work/dump-1" ] && diff "$work/dump-1" "$work/dump-2"; } >"$work/out" 2>&1
    check "$1" $?
}

state_of() { # LIFTER: as the last night's standard error says
    sed -n 's/^tautline: lifter="'"$1"'" state=\([a-z]*\) .*/\1/p' "$work/err"
}

# A program in place of gnuplot: its lines are read from standard input; the script is its last argument. It ends with a picture.
gnuplot_stub() {
    rm -rf "$work/stub" && mkdir -p "$work/stub"
    { echo '#!/bin/sh' && cat && echo 'for each; do case $each in *.gp) echo "<svg></svg>" >"${each%.gp}.svg" ;; esac; done'; } >"$work/stub/gnuplot"
    chmod +x "$work/stub/gnuplot"
}

drawn_night() { # GYM DIR OPTION...: with the stub
    night_gym=$1 night_dir=$2
    shift 2
    PATH="$work/stub:$PATH" "$TAUTLINE" team --gym "$night_gym" --into "$night_dir" --today 2026-06-03 "$@" >"$work/out" 2>"$work/err"
    status=$?
}
