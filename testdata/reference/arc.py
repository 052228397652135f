#!/usr/bin/python3
"""Writes arc.csv: a strip formed to an arc, starched, clamped level at one end and let go under its weight.

    python3 arc.py >arc.csv

Length l along s, tangent angle t(s) from the level, rigidity B, q B of it frozen at the curvature 1/R.
B t'^2/2 + q B (t' - 1/R)^2/2 is but for a constant (1 + q) B (t' - k)^2/2 with k = q/((1 + q) R), so at
rest (1 + q) B t'' = w (l - s) cos t, t(0) = 0, t'(l) = k. Integrated from the tip by Runge and Kutta's
fourth-order rule, the angle at the tip found by the secant rule, the weight coming on in 200 steps.
"""
import math

B, W, L, R = 15.3, 100e-6 * 9.80665, 60.0, 40.0


def strip(b, k, w, tip, n):
    """Angle at the clamp, and x and z of the tip, for the angle at the tip."""
    h, t, q, x, z = L / n, tip, -k, 0.0, 0.0
    f = lambda s, t: w / b * s * math.cos(t)
    for i in range(n):
        s = i * h
        k1, l1 = q, f(s, t)
        k2, l2 = q + h / 2 * l1, f(s + h / 2, t + h / 2 * k1)
        k3, l3 = q + h / 2 * l2, f(s + h / 2, t + h / 2 * k2)
        k4, l4 = q + h * l3, f(s + h, t + h * k3)
        mid = t + h / 2 * (k1 + k2) / 2
        t1 = t + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        x += h / 6 * (math.cos(t) + 4 * math.cos(mid) + math.cos(t1))
        z += h / 6 * (math.sin(t) + 4 * math.sin(mid) + math.sin(t1))
        t, q = t1, q + h / 6 * (l1 + 2 * l2 + 2 * l3 + l4)
    return t, x, z


def rest(q, n):
    b, k = B * (1 + q), q / (1 + q) / R
    tip = k * L
    for step in range(1, 201):
        w = W * step / 200
        a, fa = tip, strip(b, k, w, tip, n)[0]
        c = tip - 1e-3
        for _ in range(60):
            fc = strip(b, k, w, c, n)[0]
            if fc == fa or abs(c - a) < 1e-14:
                break
            a, fa, c = c, fc, c - fc * (c - a) / (fc - fa)
        tip = c
    return tip, strip(b, k, W, tip, n)


print(__doc__.split('\n')[0].replace('Writes', '#') + ' By arc.py.')
print('# l = %g mm, R = %g mm (ends up), B = %g uN*m, 100 g/m2, g = 9806.65 mm/s2; q = rigidity of what starch froze, over B.' % (L, R, B))
print('# formed tip: x = %.9f, z = %.9f mm; drop = formed z - z. d = largest difference of x, z between 1000 and 2000 steps, mm.' % (R * math.sin(L / R), R * (1 - math.cos(L / R))))
print('q,tip_angle_deg,x,z,drop,d')
for q in (0, 5, 30):
    _, (_, x0, z0) = rest(q, 1000)
    tip, (at, x, z) = rest(q, 2000)
    assert abs(at) < 1e-10
    print('%g,%.9f,%.9f,%.9f,%.9f,%.1e' % (q, math.degrees(tip), x, z, R * (1 - math.cos(L / R)) - z, max(abs(x - x0), abs(z - z0))))
