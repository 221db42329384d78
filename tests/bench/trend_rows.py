#!/usr/bin/env python3
"""Are a trend's rows those of weekly.py, whose names of lifts are as written?  trend_rows.py REFERENCE TREND

By lifter and week the same lifts, whatever they are called: sets, repetitions, volume and heaviest weight of each."""
import csv, sys
from collections import Counter


def rows(path, lifter, reps, volume, most):
    with open(path, encoding="utf-8", newline="") as file:
        return Counter(
            (row[lifter], row["week"], int(row["sets"]), int(row[reps]), round(float(row[volume]), 2), round(float(row[most]), 2))
            for row in csv.DictReader(file)
            if row["lift"] != "*" and row["sets"] != "0"
        )


reference = rows(sys.argv[1], "athlete", "reps", "volume", "max_weight")
trend = rows(sys.argv[2], "lifter", "lifts", "volume_straight_kg", "peak_straight_kg")
print(f"{sum(trend.values())} rows with sets, {sum((trend - reference).values())} that are not the reference's, of its {sum(reference.values())}")
sys.exit(trend != reference)
