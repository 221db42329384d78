# No quiet failure: what must not look like a good night, and what is told once.

team "$work/team"
gym="$work/team/gym.ini"
log="$work/team/logs/00001.csv"
night "$gym" "$work/good"
is "a first night has something new" 1 "$status"
cp "$log" "$work/whole.csv"

# A log that came as 0 bytes, as a header alone, or shortened to a third.
for how in empty header third; do
    rm -rf "$work/cut" && cp -R "$work/good" "$work/cut"
    case $how in
    empty) : >"$log" ;;
    header) sed 1q "$work/whole.csv" >"$log" ;;
    *) head -n $(($(wc -l <"$work/whole.csv") / 3)) "$work/whole.csv" >"$log" ;;
    esac
    night "$gym" "$work/cut" --summary "$work/summary"
    is "a log that came cut short ($how): status" 3 "$status"
    is "a log that came cut short ($how): kept" kept "$(state_of 'Babrin Obrin')"
    diff -r "$work/good/lifters/Babrin-Obrin" "$work/cut/lifters/Babrin-Obrin" >"$work/out"
    check "a log that came cut short ($how): the last good folder stands" $?
    grep -q '^Babrin Obrin,Babrin-Obrin,kept,' "$work/cut/team.csv"
    check "a log that came cut short ($how): team.csv says kept" $?
    grep -q '^Results of an earlier night kept: 1$' "$work/summary" && grep -q '^  Babrin Obrin: its logs ha[dv]' "$work/summary"
    check "a log that came cut short ($how): the summary says so" $?
    first=$(grep -o '<th class="group"[^>]*>[^<]*' "$work/cut/index.html" | sed -n '1s/.*>//p')
    is "a log that came cut short ($how): it stands first on the page" "Failed tonight: 1" "$first"
    night "$gym" "$work/cut"
    is "a log that came cut short ($how): the next night says it again" 3 "$status"
    cp -R "$work/cut" "$work/accepted"
    night "$gym" "$work/accepted" --accept 'babrin obrin'
    is "a log that came cut short ($how): with --accept it is done" "done" "$(state_of 'Babrin Obrin')"
    rm -rf "$work/accepted"
    cp "$work/whole.csv" "$log"
    night "$gym" "$work/cut"
    is "a log that came cut short ($how): whole again, all is well" "0 unchanged" "$status $(state_of 'Babrin Obrin')"
done

# A set less, or one of the newest day gone, is an edit.
sed '$d' "$work/whole.csv" >"$log"
cp -R "$work/good" "$work/edit"
night "$gym" "$work/edit"
is "a line taken out: done" "done" "$(state_of 'Babrin Obrin')"
cp "$work/whole.csv" "$log"

# A job that never ran, or was killed: its folder is that of yesterday's logs.
cp -R "$work/good" "$work/jobs"
echo '2026-03-06,squat,60 kg,3,5,,' >>"$log"
night "$gym" "$work/jobs" --gather
is "no job ran for a log that changed: status of --gather" 3 "$status"
grep -q '^Babrin Obrin,Babrin-Obrin,kept,.*no run made its folder' "$work/jobs/team.csv"
check "no job ran for a log that changed: it is said" $?
is "no job ran for a log that changed: the others are good" 5 "$(grep -c ',good,' "$work/jobs/team.csv")"
night "$gym" "$work/jobs" --lifter 'Babrin Obrin'
is "a job whose lifter is fine: status" 0 "$status"
night "$gym" "$work/jobs" --gather
[ "$status" -lt 2 ]
check "the job ran: --gather is content ($status)" $?
cp "$work/whole.csv" "$log"

# The store cannot be used: news are told all the same.
for how in newer locked; do
    rm -rf "$work/nostore" && cp -R "$work/good" "$work/nostore"
    printf '2026-03-02,squat,30 kg,8,2,,\n2026-03-02,squat,60 kg + band b99,3,5,,\n' >>"$log"
    if [ $how = newer ]; then
        sqlite3 "$work/nostore/team.sqlite" 'PRAGMA user_version = 99' >/dev/null
        night "$gym" "$work/nostore" --new-findings --summary "$work/summary"
    else
        { echo 'BEGIN EXCLUSIVE;' && echo 'UPDATE lifters SET first = first;' && sleep 25; } | sqlite3 "$work/nostore/team.sqlite" &
        sleep 1
        night "$gym" "$work/nostore" --new-findings --summary "$work/summary"
        wait
    fi
    is "a store that is $how: status" 3 "$status"
    [ "$(grep -c '^Babrin Obrin, ' "$work/out")" -gt 0 ] && ! grep -q '^Gubrin Obrin, ' "$work/out"
    check "a store that is $how: what is new is told, and nothing else" $?
    ! grep -q 'No finding is new' "$work/nostore/index.html" && grep -q 'worked out from findings.csv' "$work/summary"
    check "a store that is $how: page and summary say how" $?
    cp "$work/whole.csv" "$log"
done
rm -rf "$work/nostore" && cp -R "$work/good" "$work/nostore"
sed -n 2p "$work/good/findings.csv" >>"$work/nostore/findings.csv"
sqlite3 "$work/nostore/team.sqlite" 'PRAGMA user_version = 99' >/dev/null
night "$gym" "$work/nostore"
grep -q "is unknown" "$work/nostore/index.html"
check "no store, and the findings.csv of a killed night: it is said that news cannot be told" $?
rm "$work/nostore/findings.csv"
sqlite3 "$work/nostore/team.sqlite" 'PRAGMA user_version = 99' >/dev/null
night "$gym" "$work/nostore"
grep -q "is unknown" "$work/nostore/index.html" && ! grep -q 'No finding is new' "$work/nostore/index.html"
check "no store and no findings.csv: it is said that news cannot be told" $?

# Damage that a quick look does not see, found while filling.
rm -rf "$work/late" && cp -R "$work/good" "$work/late"
page=$(sqlite3 "$work/late/team.sqlite" "SELECT rootpage FROM sqlite_schema WHERE name = 'sets_by_date'")
sqlite3 "$work/late/team.sqlite" 'PRAGMA journal_mode = DELETE' >/dev/null
touch -r "$work/late/team.sqlite" "$work/stamp"
sqlite3 "$work/late/team.sqlite" '.selftest --init' >/dev/null 2>&1
rm -rf "$work/late/team.sqlite"* && cp "$work/good/team.sqlite" "$work/late"
python3 - "$work/late/team.sqlite" "$page" <<'PY' 2>/dev/null || skip "no python3 to break an index with"
import sys, struct
path, page = sys.argv[1], int(sys.argv[2])
data = bytearray(open(path, 'rb').read())
size = struct.unpack('>H', data[16:18])[0]
at = (page - 1) * size
cells = struct.unpack('>H', data[at + 3:at + 5])[0]
data[at + 3:at + 5] = struct.pack('>H', max(cells // 2, 1))
open(path, 'wb').write(data)
PY
echo '2026-03-06,squat,60 kg,3,5,,' >>"$log"
night "$gym" "$work/late"
is "damage in an index: the store is sound afterwards" ok "$(sqlite3 "$work/late/team.sqlite" 'PRAGMA integrity_check')"
cp "$work/whole.csv" "$log"

# The gym file: a block with an error, those who left, another gym's file.
sed 's/^\[lifter "Dobrin Obrin"\]/[lifter]/' "$gym" >"$work/team/broken.ini"
rm -rf "$work/gym2" && cp -R "$work/good" "$work/gym2"
night "$work/team/broken.ini" "$work/gym2" --summary "$work/summary"
is "an error in the gym file: status" 3 "$status"
grep -q '^Refused in the gym file: ' "$work/summary" && grep -q '^  Dobrin Obrin$' "$work/summary" && grep -q '^No longer in the gym file: 1$' "$work/summary"
check "an error in the gym file: the summary names it and who is missing" $?
grep -q 'broken.ini:' "$work/gym2/index.html" && grep -q 'Dobrin Obrin' "$work/gym2/index.html"
check "an error in the gym file: so does the page" $?
printf '[lifter "Una"]\nlog = logs/00001.csv\n' >"$work/team/other.ini"
rm -rf "$work/gym2" && cp -R "$work/good" "$work/gym2"
night "$work/team/other.ini" "$work/gym2"
is "another gym's file: refused" 3 "$status"
diff -r -x night.json -x .lock "$work/good" "$work/gym2" >"$work/out"
check "another gym's file: nothing is touched" $?
night "$work/team/other.ini" "$work/gym2" --accept all
is "another gym's file: with --accept it is taken" 1 "$(grep -c 'state=done' "$work/err")"

# Two names that come to one folder: when one leaves, the other keeps its own.
printf '[lifter "A/B"]\nlog = a.csv\n[lifter "A.B"]\nlog = b.csv\n[lifter "C"]\nlog = c.csv\n' >"$work/names.ini"
for each in a b c; do
    printf 'date,lift,weight,reps\n2026-01-05,squat,%d,5\n' "$(printf '%d' "'$each")" >"$work/$each.csv"
done
night "$work/names.ini" "$work/names"
second=$(sed -n 's/^A\.B,\([^,]*\),.*/\1/p' "$work/names/team.csv")
sed '/A\/B/,+1d' "$work/names.ini" >"$work/names-2.ini"
night "$work/names-2.ini" "$work/names"
is "one of two who share a name left: the other's folder" "$second" "$(sed -n 's/^A\.B,\([^,]*\),.*/\1/p' "$work/names/team.csv")"
is "one of two who share a name left: nothing is made" 2 "$(grep -c state=unchanged "$work/err")"
awk 'BEGIN { for (i = 0; i < 2000; i++) { name = sprintf("%011d", i); gsub(/0/, "/", name); gsub(/[1-9]/, "&.", name); printf "[lifter \"a%s%s\"]\nlog = a.csv\n", name, i % 7 ? "!" : "?" } }' >"$work/many.ini"
timeout 100 "$TAUTLINE" team --gym "$work/many.ini" --list >"$work/out" 2>"$work/err"
check "thousands of awkward names: they are listed" $?

# What was told once does not raise the status again.
sed '3s/.*/2026-02-30,squat,x,3,5,,/' "$work/whole.csv" >"$log"
rm -rf "$work/told" && cp -R "$work/good" "$work/told"
night "$gym" "$work/told" --summary "$work/summary"
is "a new refused line: status" 1 "$status"
grep -q '^New refused lines: 1 (' "$work/summary"
check "a new refused line: the summary has it" $?
night "$gym" "$work/told" --summary "$work/summary"
is "the same the next night: status" 0 "$status"
! grep -q 'refused' "$work/summary" && grep -q 'nothing new (status 0)' "$work/summary"
check "the same the next night: the summary is quiet" $?
sed '2i # a line before it' "$log" >"$work/moved.csv" 2>/dev/null && sed '2d' "$work/moved.csv" >/dev/null
[ "$(wc -l <"$work/summary")" -le 20 ]
check "a summary has at most 20 lines" $?
rm -rf "$work/first" && night "$gym" "$work/first" --summary -
[ "$(wc -l <"$work/out")" -le 20 ] && grep -q '^Team, 2026-06-03: ' "$work/out"
check "--summary - goes to standard output, in place of the one line" $?
cp "$work/whole.csv" "$log"

# A clock that goes back is told of.
rm -rf "$work/clock" && cp -R "$work/good" "$work/clock"
"$TAUTLINE" team --gym "$gym" --into "$work/clock" --today 2026-05-03 --render none >"$work/out" 2>"$work/err"
is "a clock that went back: status" 3 "$?"
grep -q 'the clock says 2026-05-03' "$work/out" && grep -q 'the clock says 2026-05-03' "$work/clock/index.html"
check "a clock that went back: it is said" $?

# Bytes that change without changing a table: the store has the new digest.
rm -rf "$work/digest" && cp -R "$work/good" "$work/digest"
before=$(sqlite3 "$work/digest/team.sqlite" "SELECT digest FROM files WHERE path LIKE '%00001.csv'")
printf '\n' >>"$log"
night "$gym" "$work/digest"
after=$(sqlite3 "$work/digest/team.sqlite" "SELECT digest FROM files WHERE path LIKE '%00001.csv'")
[ -n "$after" ] && [ "$before" != "$after" ]
check "a log whose tables did not change: its digest is the new one" $?
cp "$work/whole.csv" "$log"

# Pictures: gnuplot that ends well without one.
gnuplot_stub </dev/null
sed '$d' "$work/stub/gnuplot" >"$work/stub/none" && mv "$work/stub/none" "$work/stub/gnuplot" && chmod +x "$work/stub/gnuplot"
drawn_night "$gym" "$work/nopicture" --summary "$work/summary"
is "gnuplot makes no picture: status" 3 "$status"
is "gnuplot makes no picture: all are undrawn" 6 "$(grep -c 'state=undrawn.*made no picture' "$work/err")"
diff "$work/nopicture/lifters/Babrin-Obrin/loads.csv" "$work/good/lifters/Babrin-Obrin/loads.csv" >"$work/out"
check "gnuplot makes no picture: the tables are new" $?
gnuplot_stub </dev/null
drawn_night "$gym" "$work/nopicture"
is "gnuplot makes no picture: the next night tries again" 6 "$(grep -c 'state=done' "$work/err")"

# Killed, as for want of memory.
gnuplot_stub <<'STUB'
kill -9 $$
STUB
drawn_night "$gym" "$work/killed"
is "gnuplot is killed: status" 3 "$status"
is "gnuplot is killed: the reason is given" 6 "$(grep -c 'state=undrawn.*ended by signal 9' "$work/err")"
