#!/usr/bin/env python3
"""Wall and CPU time of commands as ratios to a floor, run before and after each: a shared machine's speed drifts within a minute.

  ratios.py RUNS FLOOR NAME=COMMAND...        commands for sh; medians are printed, and the largest memory of each command.
  Outputs go to out.tmp in this folder.
"""
import os, statistics, subprocess, sys, time


def run(command):
    with open("out.tmp", "wb") as out:
        start = time.perf_counter()
        child = subprocess.Popen(command, shell=True, stdout=out, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(child.pid, 0)
        wall = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode > 1:  # 1: done, lines were refused
        sys.exit(f"{command}: status {child.returncode}")
    return wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main():
    runs, floor = int(sys.argv[1]), sys.argv[2]
    run(floor)
    print(f"{'':28}{'wall/floor':>11}{'cpu/floor':>11}{'MiB':>8}")
    for named in sys.argv[3:]:
        name, command = named.split("=", 1)
        run(command)
        walls, cpus, peak = [], [], 0
        before = run(floor)
        for _ in range(runs):
            this, after = run(command), run(floor)
            walls.append(2 * this[0] / (before[0] + after[0]))
            cpus.append(2 * this[1] / (before[1] + after[1]))
            peak = max(peak, this[2])
            before = after
        print(f"{name:28}{statistics.median(walls):11.2f}{statistics.median(cpus):11.2f}{peak:8.0f}", flush=True)


main()
