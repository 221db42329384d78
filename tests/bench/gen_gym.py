#!/usr/bin/env python3
"""Write a gym file for the logs of gen_log.py: chains, bands, an anchor, and every lifter's bar heights, all invented.

  gen_gym.py ATHLETES > gym.ini
"""
import sys
import gen_log

print("""[gym]
unit = kg
bar = 20 kg

[chain "plain"]
default = yes
mass = 7.0 kg
length = 1.40 m
leader = 0.40 m, 0.4 kg

[setup "pegs"]
height = 0.05 m
spread = 0.10 m
""")
for width in (11, 17, 24, 31, 38, 47, 58, 77):
    print(f"""[band "b{width}"]
flat = 0.70 m
pair = yes
measured = 2023-12-01""")
    for length, share in ((0.80, 0.22), (0.95, 0.42), (1.15, 0.61), (1.40, 0.81), (1.65, 1.01), (2.40, 1.60)):
        print(f"tension = {length:.2f} m : {width * share * 0.8:.1f} kg")
    print()
for name, _ in gen_log.LIFTS[:gen_log.MAIN]:
    print(f'[lift "{name.lower()}"]\nsetup = pegs\n')
for i in range(int(sys.argv[1])):
    print(f'[lifter "{gen_log.name(i)}"]')
    for k, (name, _) in enumerate(gen_log.LIFTS[:gen_log.MAIN]):
        bottom = 0.30 + 0.05 * (k % 12)
        print(f"heights = {name.lower()} {bottom:.2f} m {bottom + 0.45 + 0.01 * (i % 9):.2f} m")
    print()
