# Each blank of a gym file that start wrote, filled in as its key wants it.
/^;\[lifter "___"\]/d
/^;unit/s/___/kg/
/^;plates/s/___/25 20 15 10 5 2.5 1.25/
/^;dates/s/___/dmy/
/^;experience/s/___/some/
/^;flat/s/___/0.70/
/^;mass/s/___/6.4/
/^;link/s/___/55/
/^;leader/s/___ m, ___/0.75 m, 0.4/
/^;length/s/___/0.75/
/^;heights/s/___ m ___/0.78 m 1.40/
/^;height /s/___/0.05/
/^;spread/s/___/0.12/
/^;offset/s/___/0/
/^;bar /s/___/20/
/^;bodyweight/s/___/78.5/
/^;max/s/___ kg DATE/130 kg 2026-01-01/
/^;measured/s/DATE/2026-01-03/
s/^;\([[a-z][^_]*\)$/\1/
