# Whether what a command printed is what a page shows: awk -v expected=FILE -f shown.awk GOT. A line `…` of the page stands for any number
# of lines; blanks at a line's end do not count.
BEGIN { while ((getline line < expected) > 0) want[++n] = line }
{ got[++m] = $0 }
END {
    at = 1; open = 0; i = 1
    while (i <= n) {
        if (want[i] == "\342\200\246") { open = 1; i++; continue }
        len = 0
        while (i + len <= n && want[i + len] != "\342\200\246") len++
        found = 0
        if (open && i + len > n && m - len + 1 > at) at = m - len + 1 # the last lines shown are the last there are
        for (start = at; start + len - 1 <= m && !found; start++) {
            same = 1
            for (k = 0; k < len && same; k++) { a = want[i + k]; b = got[start + k]; sub(/ +$/, "", a); sub(/ +$/, "", b); same = a == b }
            if (same) { found = start; break }
            if (!open) break
        }
        if (!found) { print "expected, and not found: " want[i]; print "got there:               " got[at]; exit 1 }
        at = found + len; i += len; open = 0
    }
    if (!open && at <= m) { print "not expected: " got[at]; exit 1 }
    exit 0
}
