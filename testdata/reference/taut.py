"""A strip drawn taut in an S round two level sticks: how tall it stands.

Standard Python. The strip is laid as a string is: the lengths of two arcs and of the
straight part between them are added up from points, not from a formula; the axes are
moved apart by bisection until the string is as long as the strip.

    python3 taut.py > taut.csv
"""
from math import cos, hypot, pi, sin


def string(rise, room, r, n=20000):
    """Length of a string over a circle at (0, rise) and under one at (room, 0)."""
    def miss(t):
        ax, ay = r * sin(t), rise + r * cos(t)
        bx, by = room - r * sin(t), -r * cos(t)
        return (bx - ax) * sin(t) + (by - ay) * cos(t)
    lo = hi = 0.0
    while miss(hi) < 0:
        lo, hi = hi, hi + 1e-3
    for _ in range(100):
        m = (lo + hi) / 2
        lo, hi = (m, hi) if miss(m) < 0 else (lo, m)
    ax, ay = r * sin(lo), rise + r * cos(lo)
    bx, by = room - r * sin(lo), -r * cos(lo)
    return 4 * n * r * sin(lo / n / 2) + hypot(bx - ax, by - ay)


def height(length, room, r):
    lo, hi = max(4 * r * r - room * room, 0.0) ** 0.5, length
    for _ in range(100):
        m = (lo + hi) / 2
        lo, hi = (m, hi) if string(m, room, r) < length else (lo, m)
    return lo + 2 * r


if __name__ == "__main__":
    print("# taut.csv: height of a strip of 60 mm drawn taut round two sticks, one in a crest, one in the next trough. By taut.py.")
    print("# half pitch at the outer edge 5*(1 + 75*2*pi/400) mm; the radius includes half of a thickness of 0.25 mm. All in mm.")
    print("stick,height")
    room = 5 * (1 + 75 * 2 * pi / 400)
    for stick in (10, 14, 18):
        print("%d,%.6f" % (stick, height(60, room, (stick + 0.25) / 2)))
