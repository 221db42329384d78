# What the second night costs, when nothing has changed.

# Two thousand sets of thirty lifters: the second night is under 5 % of the first (processor time; the issue's own figure).
rm -rf "$work/team-30" && sh "$TOP/samples/team.sh" --lifters 30 --weeks 30 "$work/team-30"
seconds() { # COMMAND...: of user and system, its children's too
    { TIMEFORMAT='%U %S'; bash -c 'TIMEFORMAT="%U %S"; time "$@" >/dev/null 2>&1' time-it "$@"; } 2>&1 | awk 'NF == 2 { print $1 + $2 }'
}
if command -v bash >/dev/null; then
    first=$(seconds "$TAUTLINE" team --gym "$work/team-30/gym.ini" --into "$work/out-30" --today 2026-08-03)
    second=$(seconds "$TAUTLINE" team --gym "$work/team-30/gym.ini" --into "$work/out-30" --today 2026-08-03)
    awk -v first="$first" -v second="$second" 'BEGIN { exit !(second < 0.05 * first) }'
    check "the second night ($second s) costs under 5 % of the first ($first s)" $?
else
    skip "no bash to time with"
fi
