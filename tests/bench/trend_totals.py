# python3 trend_totals.py OUT.csv     totals of tautline's trend, from the rows of all lifts together, as totals.py words them
import csv, sys
sets = reps = 0
volume = 0.0
with open(sys.argv[1], newline="", encoding="utf-8") as f:
    for row in csv.DictReader(f):
        if row["lift"] == "*":
            sets += int(row["sets"])
            reps += int(row["lifts"])
            volume += float(row["volume_straight_kg"] or 0)
print(f"sets={sets} reps={reps} volume={volume:.2f}")
