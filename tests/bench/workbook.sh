#!/bin/sh
# A workbook of many rows beside the least that it costs: unzipping and parsing its XML with the same libraries (floor_workbook.c). Run in pairs, floor,
# tautline, floor; the ratio is that of user and system time, the median of all runs; above 3 fails.
#
#   tests/bench/workbook.sh FOLDER [ROWS [RUNS]]
set -eu
: "${TAUTLINE:?the program}"
here=$(cd "$(dirname "$0")" && pwd)
work=$1 rows=${2:-100000} runs=${3:-5}
mkdir -p "$work"
"$TAUTLINE" --version | grep -q libzip || { echo "built without workbooks: left out" && exit 77; }
# shellcheck disable=SC2046 # flags are words
${CC:-cc} -O2 -o "$work/floor_workbook" "$here/floor_workbook.c" $(pkg-config --cflags --libs libzip expat)

python3 - "$work/log.xlsx" "$rows" <<'END'
import datetime, sys, zipfile
path, rows = sys.argv[1], int(sys.argv[2])
lifts = ['squat', 'bench press', 'deadlift', 'overhead press', 'front squat', 'block pull']
words = ['Date', 'Exercise', 'Weight (kg)', 'Reps', 'RPE', 'Notes'] + lifts + ['note %d: felt %s' % (i, ['light', 'heavy', 'fast'][i % 3]) for i in range(2000)]
main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
relations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
def rels(*items):
    return '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">%s</Relationships>' % ''.join(
        '<Relationship Id="%s" Type="%s/%s" Target="%s"/>' % (i, relations, t, p) for i, t, p in items)
with zipfile.ZipFile(path, 'w', zipfile.ZIP_DEFLATED) as out:
    out.writestr('[Content_Types].xml', '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>')
    out.writestr('_rels/.rels', rels(('a', 'officeDocument', 'xl/workbook.xml')))
    out.writestr('xl/workbook.xml', '<workbook %s xmlns:r="%s"><sheets><sheet name="Log" sheetId="1" r:id="a"/></sheets></workbook>' % (main, relations))
    out.writestr('xl/_rels/workbook.xml.rels', rels(('a', 'worksheet', 'worksheets/sheet1.xml'), ('b', 'sharedStrings', 'sharedStrings.xml'), ('c', 'styles', 'styles.xml')))
    out.writestr('xl/styles.xml', '<styleSheet %s><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>' % main)
    out.writestr('xl/sharedStrings.xml', '<sst %s>%s</sst>' % (main, ''.join('<si><t>%s</t></si>' % w for w in words)))
    with out.open('xl/worksheets/sheet1.xml', 'w') as sheet:
        sheet.write(('<worksheet %s><sheetData><row r="1">%s</row>' % (main, ''.join('<c r="%s1" t="s"><v>%d</v></c>' % ('ABCDEF'[i], i) for i in range(6)))).encode())
        state = 1
        for i in range(rows):
            state = (state * 1103515245 + 12345) % 2147483648
            r = i + 2
            sheet.write(('<row r="%d" spans="1:6"><c r="A%d" s="1"><v>%d</v></c><c r="B%d" t="s"><v>%d</v></c><c r="C%d"><v>%s</v></c><c r="D%d"><v>%d</v></c>'
                         '<c r="E%d"><v>%d</v></c><c r="F%d" t="s"><v>%d</v></c></row>' % (r, r, 36526 + i // 20, r, 6 + i // 4 % 6, r, 60 + state // 7 % 80 * 2.5, r,
                                                                                             1 + state // 1000 % 8, r, 6 + state // 9000 % 4, r, 12 + state // 50 % 2000)).encode())
        sheet.write(b'</sheetData></worksheet>')
END

python3 - "$work" "$TAUTLINE" "$runs" <<'END'
import os, resource, statistics, subprocess, sys
work, tautline, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
log = work + '/log.xlsx'
floor = [work + '/floor_workbook', log, 'xl/sharedStrings.xml', 'xl/worksheets/sheet1.xml']
def seconds(command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
worst = 0
for name in ('check', 'trend', 'loads'):
    command = [tautline, name, log] if name == 'check' else [tautline, name, '--jobs', '1', '--format', 'csv', log]
    ratios = []
    for _ in range(runs):
        first = seconds(floor)
        own = seconds(command)
        ratios.append(own / ((first + seconds(floor)) / 2))
    ratio = statistics.median(ratios)
    print('%-6s %.2f times unzipping and parsing alone (%.2f to %.2f)' % (name, ratio, min(ratios), max(ratios)))
    if name == 'check':
        worst = ratio
print('peak %d MB' % (resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024))
sys.exit(worst > 3)
END
