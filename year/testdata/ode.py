#!/usr/bin/python3
"""Three rooms with two fabrics each, solved by a general-purpose solver.

The network, weather and gains are those of TestAgainstAGeneralSolver in package year,
written down once more, independently. Radau (implicit Runge-Kutta, order 5), relative
tolerance 1e-10; each hour is solved by itself, since gains change at the hour.

    /usr/bin/python3 testdata/ode.py > testdata/ode.csv

Needs Debian's python3-scipy.
"""
import math

import numpy as np
import scipy
from scipy.integrate import solve_ivp

ROOMS, DAYS = 3, 6

# Nodes: air, first and second fabric of each room. J/K and W/K.
capacity, to_outdoor, start = [], [], []
pairs = []
for room in range(ROOMS):
    loss = 30 + 5 * room
    air = 3 * room
    capacity += [200e3, 4e6, 3e6]
    to_outdoor += [loss * 0.6, 0, loss * 0.5]
    pairs += [(air, air + 1, 120), (air, air + 2, 40), (air + 1, air + 2, 12 * room)]
pairs += [(0, 3, 20), (3, 6, 35)]
# Every room's air also to their common mean.
OPEN = [25, 30, 40]

outdoor = []
for i in range(DAYS * 24):
    d, hr = i / 24, i % 24
    season = -math.cos(2 * math.pi * (d - 15) / 365)
    outdoor.append(8 + 11 * season + 4 * math.sin(2 * math.pi * (hr - 9) / 24) + 5 * math.sin(2 * math.pi * d / 9.3))

C, H = np.array(capacity), np.array(to_outdoor)
G = np.zeros((3 * ROOMS, 3 * ROOMS))
for a, b, g in pairs:
    G[a, b] += g
    G[b, a] += g
air = np.arange(0, 3 * ROOMS, 3)
opened = np.array(OPEN, float)


def gains(hour, room):
    return (700 if room == 1 and 8 <= hour < 20 else 0)


# At the start the air is at 20 °C and the fabrics have settled with it.
state = np.zeros(3 * ROOMS)
for room in range(ROOMS):
    a = 3 * room
    between = 12 * room
    g1, g2 = 120 + between, 40 + between + H[a + 2]
    q1, q2 = 120 * 20.0, 40 * 20.0 + H[a + 2] * outdoor[0]
    det = g1 * g2 - between**2
    state[a] = 20.0
    state[a + 1] = (q1 * g2 + between * q2) / det
    state[a + 2] = (g1 * q2 + between * q1) / det

print("# %s %s, Radau, rtol 1e-10" % ("scipy", scipy.__version__))
print("# /usr/bin/python3 testdata/ode.py > testdata/ode.csv")
print("hour,room 1 (°C),room 2 (°C),room 3 (°C)")
for i in range(DAYS * 24):
    before, after = outdoor[i - 1], outdoor[i]
    source = np.zeros(3 * ROOMS)
    for room in range(ROOMS):
        source[3 * room] = gains(i % 24, room)

    def slope(t, T):
        out = before + (after - before) * t / 3600
        q = source + H * (out - T) + G @ T - G.sum(axis=1) * T
        mean = (opened * T[air]).sum() / opened.sum()
        q[air] += opened * (mean - T[air])
        return q / C

    state = solve_ivp(slope, (0, 3600), state, method="Radau", rtol=1e-10, atol=1e-10).y[:, -1]
    print("%d,%.6f,%.6f,%.6f" % (i + 1, state[0], state[3], state[6]))
