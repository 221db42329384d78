#!/bin/sh
# Counts the single tests in the logs of a build folder: "PASSED FAILED". Unit tests say "Checks: N, Failures: N, Errors: N"; shell tests
# say "N passed, N failed"; a log without either counts as one test by its result.
cd "${1:-.}" || exit 1
for log in $(find tests -name '*.trs'); do
    result=$(sed -n 's/^:global-test-result: //p' "$log")
    awk -v result="$result" '
        /^[0-9]+%: Checks: / { gsub(/[^0-9 ]/, " "); n = split($0, f, " "); seen = 1; bad += f[3] + f[4]; good += f[2] - f[3] - f[4] }
        /^[0-9]+ passed, [0-9]+ failed$/ { seen = 1; good += $1; bad += $3 }
        END {
            if (!seen) { good = result == "PASS"; bad = result == "FAIL" || result == "ERROR" }
            else if ((result == "FAIL" || result == "ERROR") && !bad) bad = 1
            print good, bad
        }' "${log%.trs}.log"
done | awk '{ good += $1; bad += $2 } END { print good + 0, bad + 0 }'
