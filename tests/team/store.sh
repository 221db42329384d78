# The store: damaged, by a newer program, queried by others.

team "$work/team"
gym="$work/team/gym.ini"
night "$gym" "$work/good"
cp -R "$work/good" "$work/second" && night "$gym" "$work/second"

for how in header middle empty-of-sense; do
    rm -rf "$work/damaged" && cp -R "$work/good" "$work/damaged"
    case $how in
    header) printf 'not a database at all' | dd of="$work/damaged/team.sqlite" conv=notrunc 2>/dev/null ;;
    middle) head -c 60000 /dev/zero | tr '\0' 'x' | dd of="$work/damaged/team.sqlite" bs=4096 seek=3 conv=notrunc 2>/dev/null ;;
    *) echo 'lost' >"$work/damaged/team.sqlite" ;;
    esac
    night "$gym" "$work/damaged"
    grep -q 'is damaged.*kept as .*team.sqlite.damaged-1' "$work/err"
    check "a store damaged ($how): it is said" $?
    [ -s "$work/damaged/team.sqlite.damaged-1" ]
    check "a store damaged ($how): it is set aside" $?
    is "a store damaged ($how): no lifter is worked on for that" 6 "$(grep -c 'state=unchanged' "$work/err")"
    grep -q 'is kept as' "$work/damaged/index.html" && sed '/is kept as/s|<p class="message">[^<]*</p>||' "$work/damaged/index.html" >"$work/page" &&
        tr -d '\n' <"$work/page" >"$work/damaged/index.html" && tr -d '\n' <"$work/second/index.html" >"$work/page" && cp "$work/page" "$work/second/index.html"
    check "a store damaged ($how): the page says so" $?
    same "a store damaged ($how): it is made anew, and what is new is still known" "$work/second" "$work/damaged"
done
rm "$work/damaged/team.sqlite"
printf '2026-03-02,squat,30 kg,8,2,,\n2026-03-02,squat,60 kg + band b99,3,5,,\n' >>"$work/team/logs/00001.csv"
night "$gym" "$work/damaged" --new-findings
[ "$(grep -c '^Babrin Obrin, ' "$work/out")" -gt 0 ] && ! grep -q '^Gubrin Obrin, ' "$work/out"
check "a store taken away: only what is new is new" $?
sed '/2026-03-02/d' "$work/team/logs/00001.csv" >"$work/as-it-was" && cp "$work/as-it-was" "$work/team/logs/00001.csv"

cp -R "$work/good" "$work/newer"
sqlite3 "$work/newer/team.sqlite" 'PRAGMA user_version = 99' >/dev/null
cksum <"$work/newer/team.sqlite" >"$work/sum-1"
night "$gym" "$work/newer"
is "a store of a newer program: status" 3 "$status"
grep -q 'newer version' "$work/err"
check "a store of a newer program: it is said" $?
is "a store of a newer program: left alone" 99 "$(sqlite3 "$work/newer/team.sqlite" 'PRAGMA user_version')"

cp -R "$work/good" "$work/again"
night "$gym" "$work/again"
dump "$work/good" >"$work/dump-1" && dump "$work/again" >"$work/dump-2" && diff "$work/dump-1" "$work/dump-2" >"$work/out"
check "a second night changes nothing in the store" $?
is "no key leads nowhere" "" "$(sqlite3 "$work/good/team.sqlite" 'PRAGMA foreign_key_check')"
is "numbers are numbers" "real" "$(sqlite3 "$work/good/team.sqlite" 'SELECT DISTINCT typeof(straight_kg) FROM sets')"

# The manual's queries, each as it stands there.
awk '/^\.Ss Queries/ { on = 1 } /^\.Sh BEYOND/ { on = 0 } on' "$TOP/man/tautline-team.5" |
    awk -v into="$work/query" '/^\.Ed/ { block = "" } block != "" { print > block } /^\.Bd/ { block = into "-" ++n ".sql" }'
is "queries in the manual" 5 "$(ls "$work"/query-*.sql | wc -l | tr -d ' ')"
# Dobrin stopped early, so that somebody is missing; Febrin's newest wave is lighter.
awk -F, 'NR == 1 || $1 < "2026-01-20"' "$work/team/logs/00002.csv" >"$work/shorter" && cp "$work/shorter" "$work/team/logs/00002.csv"
for week in 03-02 03-09; do
    printf '2026-%s,squat,40 kg + 3 chains/side,8,2,,\n' $week >>"$work/team/logs/00001.csv"
done
night "$gym" "$work/again"
for query in "$work"/query-*.sql; do
    sqlite3 -readonly "$work/again/team.sqlite" <"$query" >"$work/out" 2>"$work/err" && [ -s "$work/out" ] && [ ! -s "$work/err" ]
    status=$? # a command in the words of the check would take its place
    check "$(sed 1q "$query"): it works and finds something" $status
done

# What others put into the store runs for nobody, and another program's file is left alone.
cp -R "$work/good" "$work/hostile"
sqlite3 "$work/hostile/team.sqlite" 'CREATE TRIGGER busy AFTER INSERT ON nights BEGIN
  INSERT INTO nights(started, today, version) WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i, i, max(i) FROM n; END'
timeout 60 "$TAUTLINE" team --gym "$gym" --into "$work/hostile" --today 2026-06-03 --render none >"$work/out" 2>"$work/err"
[ $? -lt 4 ]
check "a trigger in the store: the night ends" $?
grep -q 'its schema is not the one' "$work/err" && [ -s "$work/hostile/team.sqlite.damaged-1" ]
check "a trigger in the store: the file is set aside" $?
is "a trigger in the store: the new one has none" "" "$(sqlite3 "$work/hostile/team.sqlite" "SELECT name FROM sqlite_schema WHERE type = 'trigger'")"
rm -rf "$work/hostile" && cp -R "$work/good" "$work/hostile" && rm "$work/hostile/team.sqlite"
sqlite3 "$work/hostile/team.sqlite" 'CREATE TABLE theirs(a)'
night "$gym" "$work/hostile"
is "another program's database: status" 3 "$status"
is "another program's database: it is left alone" theirs "$(sqlite3 "$work/hostile/team.sqlite" .tables)"
