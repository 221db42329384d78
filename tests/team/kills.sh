# The whole run is killed fifty times at random points; the run after that leaves what an undisturbed one leaves.
#
# Points are spread over the time of an undisturbed run, by a generator with a fixed seed. A run that was faster than its killer, or
# had finished its night and was only killed while it said so, is no test: its folder is made anew, so that the fiftieth kill is the
# fiftieth.

team "$work/team" --lifters 4
gym="$work/team/gym.ini"
started=$(date +%s%N)
night "$gym" "$work/undisturbed" --jobs 2
took=$(($(date +%s%N) - started))
nights_finished() { # DIR: in a copy, so that the next run finds what the killed one left
    rm -rf "$work/look" && mkdir "$work/look"
    cp "$1"/team.sqlite* "$work/look" 2>/dev/null
    sqlite3 "$work/look/team.sqlite" 'SELECT count(*) FROM nights WHERE finished IS NOT NULL' 2>/dev/null || echo 0
}
seed=20260603 kills=0 tries=0 torn=0
while [ $kills -lt 50 ] && [ $tries -lt 200 ]; do
    tries=$((tries + 1))
    seed=$((seed * 16807 % 2147483647))
    "$TAUTLINE" team --gym "$gym" --into "$work/killed" --today 2026-06-03 --render none --jobs 2 --wait >"$work/out" 2>"$work/err" &
    victim=$!
    sleep "$(awk -v seed="$seed" -v took="$took" 'BEGIN { printf "%.4f", seed / 2147483647 * took / 1e9 }')"
    kill -9 $victim 2>/dev/null
    wait $victim 2>/dev/null
    if [ $? = 137 ] && [ "$(nights_finished "$work/killed")" = 0 ]; then
        kills=$((kills + 1))
        # what stands in the folders is whole: a table has its header and a whole last line
        for file in "$work"/killed/lifters/*/*.csv "$work"/killed/*.csv; do
            [ ! -s "$file" ] || [ -z "$(tail -c 1 "$file" | tr -d '\n')" ] || torn=$((torn + 1))
        done
    else
        rm -rf "$work/killed"
    fi
    # now and then half of the work stands when the next one is killed
    [ $((kills % 10)) != 9 ] || rm -rf "$work"/killed/lifters/[BD]*
done
is "runs killed" 50 "$kills"
is "files torn" 0 "$torn"
night "$gym" "$work/killed" --wait
same "after fifty kills, a run leaves the files of an undisturbed one" "$work/undisturbed" "$work/killed"
is "and one finished night" 1 "$(sqlite3 "$work/killed/team.sqlite" 'SELECT count(*) FROM nights WHERE finished IS NOT NULL')"
is "no finding counts as old" 1 "$(sqlite3 "$work/killed/team.sqlite" 'SELECT DISTINCT night FROM findings')"
is "SQLite finds the store sound" ok "$(sqlite3 "$work/killed/team.sqlite" 'PRAGMA integrity_check')"
is "and its keys whole" "" "$(sqlite3 "$work/killed/team.sqlite" 'PRAGMA foreign_key_check')"

# Killed when findings.csv was in place but neither the store nor night.json was: no finding has been told yet, so all are new.
cp -R "$work/undisturbed" "$work/untold" && rm "$work/untold"/team.sqlite* "$work/untold/night.json"
night "$gym" "$work/untold"
same "killed before the first store was in place: the findings are new" "$work/undisturbed" "$work/untold"
is "killed before the first store was in place: status" 1 "$status"
