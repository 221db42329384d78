# A change in the gym file makes anew what rests on it and nothing else; what is skipped is what a fresh run would write.

team "$work/team" --weeks 4
gym="$work/team/gym.ini"
cp "$gym" "$work/gym.ini"
night "$gym" "$work/kept"

# changed LIFTERS TEXT SED: so many lifters are done anew, and all is as if made from nothing
changed() {
    sed "$3" "$work/gym.ini" >"$gym"
    cmp -s "$gym" "$work/gym.ini" && { check "$2: the gym file changed" 1 && return; }
    night "$gym" "$work/kept"
    is "$2: lifters done anew" "$1" "$(grep -c 'state=done' "$work/err")"
    rm -rf "$work/fresh"
    night "$gym" "$work/fresh"
    diff -r -x night.json -x 'team.sqlite*' -x .lock -x index.html -x team.csv "$work/kept" "$work/fresh" >"$work/out"
    check "$2: as made from nothing" $?
    cp "$work/gym.ini" "$gym"
    night "$gym" "$work/kept"
}
changed 3 "a chain's mass" 's/^mass = 7.0 kg/mass = 7.4 kg/'
changed 6 "a band that all use" 's/: 14.6 kg/: 15.2 kg/'
changed 6 "the set-up that all use" 's/^height = 0.05 m/height = 0.10 m/'
changed 6 "a lift's set-up" '/^\[lift "squat"\]/,/^$/s/^setup = pegs//'
changed 1 "a lifter's max" '/"Dobrin Obrin"/,/^$/s/^max = squat .*/max = squat 99 kg 2026-01-02/'
changed 1 "a lifter's heights" '/"Febrin Obrin"/,/^$/s/^heights = squat .*/heights = squat 0.70 m 1.30 m/'
changed 6 "the plates" 's/^plates = .*/plates = 25 20 10 5 2.5/'
changed 0 "a comment and a blank" 's/^bar = 20 kg/bar  =  20 kg    ; weighed/'
changed 6 "a limit" 's/^\[setup "pegs"\]/[limits]\nvolume-jump = 1.1\n\n&/'
changed 6 "a new label, which may be a word of the logs" 's/^\[setup "pegs"\]/[band "b99"]\nflat = 0.70 m\ntension = 1.2 m : 9 kg\n\n&/'

# Names that would be one folder are two.
printf '[lifter "A/B"]\nlog = a.csv\n[lifter "A.B"]\nlog = b.csv\n[lifter "../x"]\nlog = c.csv\n' >"$work/names.ini"
for each in a b c; do
    printf 'date,lift,weight,reps\n2026-01-05,squat,100,5\n' >"$work/$each.csv"
done
night "$work/names.ini" "$work/names"
is "folders of awkward names" "A-B A-B-db13fb67 x" "$(ls "$work/names/lifters" | tr '\n' ' ' | sed 's/ $//')"
is "awkward names: a set each, of which there is nothing to say" 0 "$status"
