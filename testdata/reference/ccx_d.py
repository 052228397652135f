#!/usr/bin/python3
"""Writes ccx_d.csv: a half set of a ruff hung at one point, by CalculiX (Debian's calculix-ccx).

    mkdir work && cd work && python3 ../ccx_d.py >ccx_d.csv      a quarter of an hour, needs nothing but ccx

Units mm, mN, kg, s; bending rigidity mN*mm = uN*m, areal mass kg/mm2.

The sheet is L mm along u (crest to trough) and W mm along v (inner to outer edge). It was formed,
without weight, between mirror planes y = 0 (crest) and y = D (trough) with its inner edge on the
plane x = 0: a prism over half a period of the free elastica, whose tangent turns by theta(u).
Starch of q times the cloth's rigidity B froze that curvature k0. Cloth and starch together,
B k^2/2 + q B (k - k0)^2/2, are but for a constant one sheet of rigidity (1 + q) B that is free of
stress at the curvature s k0, s = q/(1 + q): the prism whose tangent turns by s theta(u). That prism
is the mesh. It is bent to the formed shape, released and loaded:

  1  every node is carried to the formed shape
  2  the mid-surface nodes at element corners alone are held there
  3  let go but for the mirrors, the stitch and the inner edge in the plane x = 0, without weight
  4  upright gravity comes on: only the stitch is held (the crest's inner corner, a hinge), and the
     trough's inner corner in the plane x = 0; springs that only push stand for the band (wall below)
  5  that corner is let go too
  6  gravity is turned to +x (front) or -x (back) by 60 degrees, in steps of 10
"""
import math, os, re, subprocess, sys

G = 9806.65
L, W, D = 60.0, 75.0, 12.0
B = 15.3
# Shear is half of STRETCH: isotropic, no Poisson effect. Stiff, for at a single stitch the membrane
# gives way the more the finer the mesh.
STRETCH = {0: 23000.0, 5: 92000.0, 30: 92000.0}
MASS = {0: 1e-7, 5: 3e-7, 30: 1e-6}  # heavier with starch, so that each sags by most of a millimetre or more
MESHES = {'c': (16, 14), 'm': (24, 20), 'f': (36, 30)}
GRADE = 1.0  # of the v grid towards the inner edge
FAR = 1000.0  # length of the springs that push, mm
# The band yields, here as in what is held against this: within SKIN mm a node of 2.5 mm of the inner
# edge is pushed back by k s^2/(2 SKIN) mN where it has passed x = 0 by s mm, k = wall(q), beyond 2 SKIN along
# the tangent: it is the contact of package window at 24 x 12 cells. The last node (trough) is pushed by as much as one that has two neighbours.
SKIN = 0.1


def wall(starch):
    frozen, weight = starch * B, MASS[starch] * 9806.65 * L * W
    first = W * math.expm1(1.5 / 12) / math.expm1(1.5)
    return 4 * (4 * (2 * B + 5 * weight) + frozen) * (first / 2) / (W / 12)


def elliptic(m):
    """K(m), E(m) by the arithmetic-geometric mean."""
    a, b, s, p = 1.0, math.sqrt(1 - m), m / 2, 0.5
    for _ in range(9):
        a, b, c = (a + b) / 2, math.sqrt(a * b), (a - b) / 2
        p *= 2
        s += p * c * c
    k = math.pi / (2 * a)
    return k, k * (1 - s)


class Prism:
    """The cross-section whose tangent angle is s times that of the elastica of chord D."""

    def __init__(self, s, n=14400):
        lo, hi = 1e-9, 0.95
        for _ in range(200):
            m = (lo + hi) / 2
            k, e = elliptic(m)
            lo, hi = (m, hi) if 2 * e / k - 1 > D / L else (lo, m)
        lam, w, h = 2 * k / L, math.sqrt(m), L / n
        # theta'' = -lam^2 sin(theta) about the level crest: theta(0) = 0, theta' = -2 w lam
        t, q = 0.0, -2 * w * lam
        self.h, self.t, self.y, self.z = h, [0.0], [0.0], [0.0]
        f = lambda t, q: (q, -lam * lam * math.sin(t))
        for _ in range(n):
            a = f(t, q)
            b = f(t + h / 2 * a[0], q + h / 2 * a[1])
            c = f(t + h / 2 * b[0], q + h / 2 * b[1])
            d = f(t + h * c[0], q + h * c[1])
            mid = t + h / 2 * (a[0] + b[0]) / 2
            t0, t = t, t + h / 6 * (a[0] + 2 * b[0] + 2 * c[0] + d[0])
            q += h / 6 * (a[1] + 2 * b[1] + 2 * c[1] + d[1])
            simpson = lambda g: h / 6 * (g(s * t0) + 4 * g(s * mid) + g(s * t))
            self.t.append(t * s)
            self.y.append(self.y[-1] + simpson(math.cos))
            self.z.append(self.z[-1] + simpson(math.sin))

    def at(self, u, w):
        """y and z of the point u along the sheet, w above it; u falls on the running sum's grid."""
        i = round(u / self.h)
        t = self.t[i]
        return self.y[i] - w * math.sin(t), self.z[i] + w * math.cos(t)


def wrap(l):
    return '\n'.join(', '.join(map(str, l[a:a + 12])) for a in range(0, len(l), 12))


def deck(name, starch, side, nu, nv):
    s, b = starch / (1 + starch), B * (1 + starch)
    h = math.sqrt(12 * b / STRETCH[starch])
    rest, formed = Prism(s), Prism(1.0)
    ids, at = {}, []
    for j in range(2 * nv + 1):
        v = W * math.expm1(GRADE * j / (2 * nv)) / math.expm1(GRADE)
        for i in range(2 * nu + 1):
            for k in range(3):
                if i % 2 + j % 2 + k % 2 <= 1:
                    ids[i, j, k] = len(at) + 1
                    at.append((L * i / (2 * nu), v, h * (k - 1) / 2))
    o = open(name + '.inp', 'w')
    w = o.write
    w('*NODE,NSET=NALL\n')
    for n, (u, v, t) in enumerate(at, 1):
        y, z = rest.at(u, t)
        w('%d,%.12g,%.12g,%.12g\n' % (n, v, y, z))
    w('*ELEMENT,TYPE=C3D20R,ELSET=EALL\n')
    n = 0
    for q in range(nv):
        for p in range(nu):
            i, j, n = 2 * p, 2 * q, n + 1
            # x is along v, y along u: v, u and up are right-handed
            g = lambda di, dj, k: ids[i + di, j + dj, k]
            e = [g(0, 0, 0), g(0, 2, 0), g(2, 2, 0), g(2, 0, 0), g(0, 0, 2), g(0, 2, 2), g(2, 2, 2), g(2, 0, 2),
                 g(0, 1, 0), g(1, 2, 0), g(2, 1, 0), g(1, 0, 0), g(0, 1, 2), g(1, 2, 2), g(2, 1, 2), g(1, 0, 2),
                 g(0, 0, 1), g(0, 2, 1), g(2, 2, 1), g(2, 0, 1)]
            w('%d,' % n + ','.join(map(str, e[:15])) + ',\n' + ','.join(map(str, e[15:])) + '\n')
    inner = [ids[i, 0, 1] for i in range(0, 2 * nu + 1, 2)]
    stitch, push = inner[0], inner[1:]
    # the wall: a long spring from each node to one far behind the plane, which goes along to the
    # formed shape and then stays
    w('*NODE,NSET=BEHIND\n')
    for q, p in enumerate(push, 1):
        w('%d,%.12g,%.12g,%.12g\n' % (len(at) + q, -FAR, *rest.at(at[p - 1][0], 0)))
    w('*ELEMENT,TYPE=SPRINGA,ELSET=PUSH\n' + ''.join('%d,%d,%d\n' % (n + q, len(at) + q, p) for q, p in enumerate(push[:-1], 1)))
    w('*ELEMENT,TYPE=SPRINGA,ELSET=LAST\n%d,%d,%d\n' % (n + len(push), len(at) + len(push), push[-1]))
    for q, share in ('PUSH', L / nu), ('LAST', L / nu / 2 + 1.25):
        w('*SPRING,ELSET=%s,NONLINEAR\n' % q)
        for s2 in (10, 4) + tuple(x / 20 for x in range(40, 0, -1)):
            w('%.8f,%.8f\n' % (-wall(starch) * share / 2.5 * SKIN * (s2 * s2 / 2 if s2 < 2 else 2 * s2 - 2), -s2 * SKIN))
        w('0.,0.\n1e-5,100.\n')
    mid = [ids[i, j, 1] for j in range(0, 2 * nv + 1, 2) for i in range(0, 2 * nu + 1, 2)]
    crest = [n for (i, j, k), n in ids.items() if i == 0]
    trough = [n for (i, j, k), n in ids.items() if i == 2 * nu]
    for q, l in (('CREST', crest), ('TROUGH', trough), ('INNER', push), ('STITCH', [stitch])):
        w('*NSET,NSET=%s\n%s\n' % (q, wrap(l)))
    outer = {'crest': ids[0, 2 * nv, 1], 'trough': ids[2 * nu, 2 * nv, 1], 'inner': push[-1], 'stitch': stitch}
    w('*NSET,NSET=OUT\n%s\n' % wrap(sorted(outer.values())))
    w('*MATERIAL,NAME=M\n*ELASTIC\n%.12g,0.\n*DENSITY\n%.12g\n*SOLID SECTION,ELSET=EALL,MATERIAL=M\n' % (STRETCH[starch] / h, MASS[starch] / h))

    def move(n):
        u, v, t = at[n - 1]
        (y0, z0), (y1, z1) = rest.at(u, t), formed.at(u, t)
        return y1 - y0, z1 - z0

    behind = 'BEHIND,1,1,0.\n' + ''.join('%d,2,2,%.12g\n%d,3,3,%.12g\n' % (len(at) + q, move(p)[0], len(at) + q, move(p)[1]) for q, p in enumerate(push, 1))
    mirrors = behind + 'CREST,2,2,0.\nTROUGH,2,2,%.12g\n' % (D - rest.y[-1])
    point = 'STITCH,1,1,0.\nSTITCH,3,3,0.\n'
    out = '*NODE PRINT,NSET=OUT,FREQUENCY=100000\nU\n*NODE PRINT,NSET=STITCH,FREQUENCY=100000\nRF\n'
    ctl = '*CONTROLS,PARAMETERS=TIME INCREMENTATION\n8,12,9,30,10,4,,8,,\n0.25,0.5,0.75,0.85,,,1.5,\n*CONTROLS,PARAMETERS=FIELD\n1e-4,1e-3,,,,,,1e-8\n'

    def step(first, bc, loads=()):
        w('*STEP,NLGEOM,INC=2000\n*STATIC\n%g,1.,1e-7,%g\n' % (first, first) + ctl + '*BOUNDARY,OP=NEW\n' + bc)
        if loads:
            w('*DLOAD,OP=NEW\n' + ''.join('EALL,GRAV,%.10g,%g,0.,%g\n' % l for l in loads))
        w(out + '*END STEP\n')

    # x is left to the sheet: without a free unknown the solver stops
    carried = ''.join('%d,2,2,%.12g\n%d,3,3,%.12g\n' % (n, move(n)[0], n, move(n)[1]) for n in range(1, len(at) + 1))
    step(1.0, behind + 'INNER,1,1,0.\nSTITCH,1,1,0.\n' + carried)
    ends = set(crest) | set(trough)
    corners = ''.join('%d,3,3,%.12g\n' % (n, move(n)[1]) for n in mid)
    corners += 'INNER,1,1,0.\nSTITCH,1,1,0.\n'
    corners += ''.join('%d,2,2,%.12g\n' % (n, move(n)[0]) for n in mid if n not in ends)
    step(1.0, mirrors + corners)
    step(1.0, mirrors + point + 'INNER,1,1,0.\n')
    step(0.25, mirrors + point + '%d,1,1,0.\n' % push[-1], [(G, 0, -1)])
    step(1.0, mirrors + point, [(G, 0, -1)])
    for deg in range(10, 61, 10) if side else ():
        a = math.radians(deg)
        step(0.5, mirrors + point, [(G * math.cos(a), 0, -1), (G * math.sin(a), side, 0)])
    o.close()
    return outer


def solved(name):
    """Runs ccx, unless it has, and gives for every step its displacements and forces by node."""
    if not os.path.exists(name + '.dat'):
        env = dict(os.environ, OMP_NUM_THREADS='1')
        with open(name + '.log', 'w') as log:
            subprocess.run(['ccx', name], stdout=log, stderr=subprocess.STDOUT, env=env)
    steps, kind = {}, ''
    for line in open(name + '.dat'):
        m = re.match(r'\s*(\S+).* for set (\S+) and time\s+(\S+)', line)
        q = line.split()
        if m:
            kind, t = m[1], float(m[3])
        elif q:
            steps.setdefault(t, {})[kind, int(q[0])] = [float(x) for x in q[1:4]]
    return [steps[t] for t in sorted(steps)]


HEAD = """# ccx_d.csv made by ccx_d.py (CalculiX 2.20, *STATIC NLGEOM, one layer of C3D20R bricks; no Poisson effect; SPOOLES, one thread), which says what is solved.
# Half set hung at one point: L = 60 mm, W = 75 mm, half pitch 12 mm on a straight band, B = 15.3 uN*m, g = 9806.65 mm/s2; q = rigidity of what starch froze, over B.
# K: stretch stiffness of cloth and starch together, N/m; shear K/2. wall: k of the band's springs, mN/mm (wall() in the script).
# crest, trough: by how much the outer edge's z has sunk from the formed shape, mm. trough_x: move of the inner edge's trough, out from the band, mm. stitch_x, _z: force that holds the stitch, mN.
# d: difference of crest and trough from the finest mesh of the same case, mm. Tolerances of ccx: residual 1e-4, correction 1e-3.
# At the single stitch the membrane gives way by some F/(pi K) ln(W/cell), so that upright crest and trough still grow by 0.5 to 0.9 % from 24x20 to 36x30. What is held against this takes 24x20, whose cells at the stitch are about as large as its own.
q,gravity,mesh,mass_gm2,K,wall,crest,trough,trough_x,stitch_x,stitch_z,d_crest,d_trough"""

if __name__ == '__main__':
    print(HEAD)
    for starch in (0, 5, 30):
        for side, word, meshes in ((0, 'up', 'cmf'), (1, 'front', 'cm'), (-1, 'back', 'cm')):
            rows = []
            for mesh in meshes:
                nu, nv = MESHES[mesh]
                name = 'd_%g_%s_%s' % (starch, word, mesh)
                at = deck(name, starch, side, nu, nv)
                steps = solved(name)
                if len(steps) != (11 if side else 5):
                    print(name, 'did not come to rest', file=sys.stderr)
                    continue
                moved = lambda n, c: steps[-1]['displacements', n][c] - steps[2]['displacements', n][c]
                force = steps[-1]['forces', at['stitch']]
                rows.append(['%dx%d' % (nu, nv), -moved(at['crest'], 2), -moved(at['trough'], 2), moved(at['inner'], 0), force[0], force[2]])
            for r in rows:
                d = ['%.5f' % abs(r[k] - rows[-1][k]) for k in (1, 2)] if r is not rows[-1] else ['', '']
                print(','.join(['%g' % starch, word, r[0], '%g' % (MASS[starch] * 1e9), '%g' % STRETCH[starch], '%.2f' % wall(starch)]
                               + ['%.5f' % x for x in r[1:4]] + ['%.3f' % x for x in r[4:]] + d), flush=True)
