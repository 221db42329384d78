#!/usr/bin/env python3
"""Are a trend's rows those of weekly.py, whose names of lifts are as written?  trend_rows.py REFERENCE TREND

By lifter and week the same lifts, whatever they are called: sets, repetitions and volume of each. The heaviest weight may be lower, or missing: sets
that tautline doubts (a slip, a load that cannot be) count in volume and not as heaviest."""
import csv, sys
from collections import defaultdict


def rows(path, lifter, reps, volume, most):
    found = defaultdict(list)
    with open(path, encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["lift"] != "*" and row["sets"] != "0":
                key = row[lifter], row["week"], int(row["sets"]), int(row[reps]), round(float(row[volume]), 2)
                found[key].append(round(float(row[most] or 0), 2))
    return {key: sorted(heaviest) for key, heaviest in found.items()}


reference = rows(sys.argv[1], "athlete", "reps", "volume", "max_weight")
trend = rows(sys.argv[2], "lifter", "lifts", "volume_straight_kg", "peak_straight_kg")
same_rows = {key: len(heaviest) for key, heaviest in reference.items()} == {key: len(heaviest) for key, heaviest in trend.items()}
pairs = [pair for key in reference for pair in zip(trend.get(key, []), reference[key])]
lower, higher = sum(own < other for own, other in pairs), sum(own > other for own, other in pairs)
print(f"{sum(map(len, trend.values()))} rows with sets, {'all' if same_rows else 'not all'} those of the reference; heaviest weight lower in {lower}, higher in {higher}")
sys.exit(not same_rows or higher > 0)
