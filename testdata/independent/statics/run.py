#!/usr/bin/python3
"""Hangs the loads in loads/, the rigs in rigs.json and the trees of bars in trees.json with general numeric
libraries from outside the project, and writes results.csv. See README.md.

The load is a rigid body with all its freedoms: the place x of its CG and a turn
q (a quaternion), the hook at the origin, z up. Nothing here holds the load still
and moves the hook, as plumbhook does."""
import csv
import hashlib
import json
import os
import re
import sys

import numpy as np
import scipy
from scipy.optimize import least_squares, linprog, minimize

from aside import hang_aside
from numerics import kicked, slope, turned
from trees import Tree

G = 9.80665  # m/s2
NEAR = 0.005  # part of a leg's length by which it may be loose and still come to carry: plumbhook's convention
HERE = os.path.dirname(os.path.abspath(__file__))


class Rig:
    """One load, in units of its weight and of its longest leg."""

    def __init__(self, weight, cg, picks, lengths, stiffness=None):
        self.weight, self.size = weight, max(lengths)
        self.cg = np.array(cg, float)
        self.arms = (np.array(picks, float) - self.cg) / self.size
        self.lengths = np.array(lengths, float) / self.size
        self.k = None if stiffness is None else np.array(stiffness, float) * self.size / weight

    def lines(self, y):
        """From each pick to the hook."""
        return -(y[:3] + turned(y[3:], self.arms))

    def reach(self, y):
        line = self.lines(y)
        return np.sqrt((line * line).sum(axis=1))

    def energy(self, y, k):
        stretch = self.reach(y) - self.lengths
        stretch = np.where(np.real(stretch) > 0, stretch, 0)
        return y[2] + (k * stretch * stretch).sum() / 2

    def start(self):
        """As drawn, as high as every leg allows, and a little kick."""
        plan = np.hypot(self.arms[:, 0], self.arms[:, 1])
        rise = np.sqrt(np.maximum(0, self.lengths ** 2 - plan ** 2)) + self.arms[:, 2]
        return np.array([0, 0, -max(rise.min(), 0.05), 1, 0, 0, 0]) + kicked(self.arms, 7)

    def downhill(self, y, k):
        for _ in range(4):  # again where rounding stopped it
            found = minimize(self.energy, y, args=(k,), jac=lambda y, k: slope(lambda z: self.energy(z, k), y),
                             method='BFGS', options={'gtol': 1e-9, 'maxiter': 3000})
            y = found.x
            y[3:] /= np.linalg.norm(y[3:])
        return y

    def hang_on_springs(self):
        y = self.downhill(self.start(), self.k)
        g = lambda z: np.concatenate([slope(lambda v: self.energy(v, self.k), z), [z[3:] @ z[3:] - 1]])
        y = least_squares(g, y, method='trf', xtol=3e-16, ftol=3e-16, gtol=3e-16, x_scale=1.0).x
        stretch = np.maximum(0, self.reach(y) - self.lengths)
        return y, self.k * stretch

    def hang_on_rods(self):
        """Legs that do not stretch: soft springs at first, then lowest CG with
        no leg longer than it is, then the balance and the lengths to the last digit."""
        y = self.start()
        for k in (30.0, 300.0, 3000.0, 30000.0):
            y = self.downhill(y, np.full(len(self.lengths), k))
        slack = {'type': 'ineq', 'fun': lambda y: self.lengths - self.reach(y), 'jac': lambda y: -slope(self.reach, y)}
        found = minimize(lambda y: y[2], y, jac=lambda y: np.eye(7)[2], constraints=[slack],
                         method='SLSQP', options={'ftol': 1e-15, 'maxiter': 500})
        y = found.x
        y[3:] /= np.linalg.norm(y[3:])
        taut = np.flatnonzero(self.lengths - self.reach(y) < 1e-6)
        t = self.share(y, taut)

        def balance(v):
            z, pull = v[:7], v[7:]
            line = self.lines(z)[taut]
            u = line / np.sqrt((line * line).sum(axis=1))[:, None]
            at = turned(z[3:], self.arms)[taut]
            force = (u * pull[:, None]).sum(axis=0) - np.array([0, 0, 1])
            moment = np.stack([at[:, 1] * u[:, 2] - at[:, 2] * u[:, 1], at[:, 2] * u[:, 0] - at[:, 0] * u[:, 2],
                               at[:, 0] * u[:, 1] - at[:, 1] * u[:, 0]], axis=-1)
            return np.concatenate([force, (moment * pull[:, None]).sum(axis=0),
                                   self.reach(z)[taut] - self.lengths[taut], [z[3:] @ z[3:] - 1]])
        v = least_squares(balance, np.concatenate([y, t[taut]]), jac=lambda v: slope(balance, v),
                          method='trf', xtol=3e-16, ftol=3e-16, gtol=3e-16)
        if np.abs(v.fun).max() > 1e-12 or np.abs(v.x[:7] - y).max() > 1e-3:
            raise SystemExit(f'no balance: {np.abs(v.fun).max()}, {np.abs(v.x[:7] - y).max()}')
        y = v.x[:7]
        taut = np.flatnonzero(self.lengths - self.reach(y) < 1e-9)
        return y, self.share(y, taut)

    def pulls(self, y):
        line = self.lines(y)
        return line / np.linalg.norm(line, axis=1)[:, None]

    def share(self, y, taut):
        """Least work: the least of sum T^2 L/2, T >= 0, that balances the weight:
        a quadratic programme. As least squares: among all balanced T the nearest to 0."""
        u, l = self.pulls(y)[taut], self.lengths[taut]
        root = np.sqrt(l)
        a = (u / root[:, None]).T  # of s = T sqrt(L)
        up = np.array([0, 0, 1.0])
        found = minimize(lambda s: s @ s / 2, np.full(len(taut), 0.3), jac=lambda s: s, bounds=[(0, None)] * len(taut),
                         constraints=[{'type': 'eq', 'fun': lambda s: a[2] @ s - 1, 'jac': lambda s: a[2]},
                                      {'type': 'eq', 'fun': lambda s: a[0] @ s, 'jac': lambda s: a[0]},
                                      {'type': 'eq', 'fun': lambda s: a[1] @ s, 'jac': lambda s: a[1]}]
                         if len(taut) > 2 else
                         [{'type': 'eq', 'fun': lambda s: a[2] @ s - 1, 'jac': lambda s: a[2]}],
                         method='SLSQP', options={'ftol': 1e-16, 'maxiter': 500})
        s = found.x
        # Its active set, put exactly: the least squares of least length.
        on = s > 1e-7
        exact, *_ = np.linalg.lstsq(a[:, on], up, rcond=1e-10)
        t = np.zeros(len(self.lengths))
        t[taut[on]] = exact / root[on]
        return t

    def ranges(self, y):
        """Least and greatest pull of each leg that balances the weight, the others
        as they like: two linear programmes a leg; and the least that the greatest
        of all can be made."""
        near = np.flatnonzero(self.reach(y) >= self.lengths * (1 - NEAR))
        u = self.pulls(y)[near]
        n = len(near)
        exact = {'primal_feasibility_tolerance': 1e-10, 'dual_feasibility_tolerance': 1e-10}

        def programme(c, a_eq, **more):
            found = linprog(c, A_eq=a_eq, b_eq=[0, 0, 1], method='highs', options=exact, **more)
            if found.status != 0:
                raise SystemExit(f'linear programme: {found.message}')
            return found
        least, most = np.zeros(len(self.lengths)), np.zeros(len(self.lengths))
        for i, leg in enumerate(near):
            least[leg] = programme(np.eye(n)[i], u.T).fun
            most[leg] = -programme(-np.eye(n)[i], u.T).fun
        even = programme(np.append(np.zeros(n), 1), np.hstack([u.T, np.zeros((3, 1))]),
                         A_ub=np.hstack([np.eye(n), -np.ones((n, 1))]), b_ub=np.zeros(n)).fun
        return least, most, even

    def hang(self):
        y, t = self.hang_on_rods() if self.k is None else self.hang_on_springs()
        q = y[3:] * [1, -1, -1, -1]
        least, most, even = self.ranges(y)
        return {'hook': self.cg + turned(q, -y[:3]) * self.size, 'up': turned(q, np.array([0, 0, 1.0])),
                'tension': t * self.weight, 'least': least * self.weight, 'most': most * self.weight, 'even': even * self.weight,
                'near': (self.reach(y) >= self.lengths * (1 - NEAR)).astype(float)}


class Aside:
    """A rig with level forces on it."""

    def __init__(self, rig, sides):
        self.rig, self.sides = rig, sides

    def hang(self):
        return hang_aside(self.rig, self.sides)


def of_load(load):
    """A load file of point weights. What is not known here is refused."""
    known = {'load', 'units', 'parts', 'picks', 'hook', 'legs'}
    if set(load) - known or load['units'] != 'm':
        raise SystemExit(f'not known here: {set(load) - known}')
    mass = cg = 0
    for part in load['parts']:
        if set(part) != {'name', 'weight', 'at', 'tolerance'}:
            raise SystemExit(f'not known here: {part}')
        m = float(re.fullmatch(r'([0-9.]+) kg', part['weight'])[1])
        mass, cg = mass + m, cg + m * np.array(part['at'], float)
    cg = cg / mass
    picks = [p['at'] for p in load['picks']]
    legs = load['legs']
    if legs['lengths'] == 'level':
        lengths = [np.linalg.norm(np.array(load['hook']['at']) - p) for p in picks]
    elif isinstance(legs['lengths'], dict):
        lengths = [legs['lengths'][p['name']] for p in load['picks']]
    else:
        lengths = [legs['lengths']] * len(picks)
    stiffness = None
    if 'stretch' in legs:
        ea = 1e6 * float(re.fullmatch(r'([0-9.]+) MN', legs['stretch']['EA'])[1])
        stiffness = [ea / l for l in lengths]
    return Rig(mass * G, cg, picks, lengths, stiffness)


SOURCES = {'hook': 'energy of the whole body', 'up': 'energy of the whole body', 'tension': 'springs, or quadratic programme of least work',
           'least': 'linear programme', 'most': 'linear programme', 'even': 'linear programme', 'near': 'the pose'}
METHODS = {'hook': 'scipy.optimize.minimize, least_squares', 'up': 'scipy.optimize.minimize, least_squares',
           'tension': 'scipy.optimize.minimize', 'least': 'scipy.optimize.linprog (HiGHS)', 'most': 'scipy.optimize.linprog (HiGHS)',
           'even': 'scipy.optimize.linprog (HiGHS)', 'near': 'scipy.optimize.minimize'}
for what, of in (('height', 'hook'), ('tilt', 'up'), ('rise', 'up'), ('couple', 'hook')):  # of trees, and aside
    SOURCES[what], METHODS[what] = SOURCES[of], METHODS[of]
UNITS = {'hook': 'm', 'height': 'm', 'up': '1', 'near': '1', 'tilt': 'rad', 'rise': 'rad', 'couple': 'N m'}


def main():
    rows = []

    def add(name, rig, sha):
        try:
            found = rig.hang()
        except SystemExit as fault:
            raise SystemExit(f'{name}: {fault}')
        for what, value in found.items():
            for i, x in enumerate(np.atleast_1d(value)):
                if not np.isfinite(x):
                    raise SystemExit(f'{name}: {what} is {x}')
                rows.append([name, f'{what} {i}', repr(float(x)), UNITS.get(what, 'N'), METHODS[what], scipy.__version__, sha, SOURCES[what], 'computed'])
    only = sys.argv[1:]
    text = open(os.path.join(HERE, 'rigs.json'), 'rb').read()
    sha = hashlib.sha256(text).hexdigest()
    for rig in json.loads(text):
        name = rig.pop('name')
        if not only or name in only:
            add(name, Rig(**rig), sha)
    text = open(os.path.join(HERE, 'sides.json'), 'rb').read()
    sha = hashlib.sha256(text).hexdigest()
    for rig in json.loads(text):
        name, sides = rig.pop('name'), rig.pop('sides')
        if not only or name in only:
            add(name, Aside(Rig(**rig), sides), sha)
    text = open(os.path.join(HERE, 'trees.json'), 'rb').read()
    sha = hashlib.sha256(text).hexdigest()
    for tree in json.loads(text):
        name = tree.pop('name')
        if not only or name in only:
            add(name, Tree(**tree), sha)
    for file in sorted(os.listdir(os.path.join(HERE, 'loads'))):
        text = open(os.path.join(HERE, 'loads', file), 'rb').read()
        if not only or file in only:
            add(file, of_load(json.loads(text)), hashlib.sha256(text).hexdigest())
    if only:
        for row in rows:
            print(*row[:4])
        return
    with open(os.path.join(HERE, 'results.csv'), 'w', newline='') as out:
        w = csv.writer(out, lineterminator='\n')
        w.writerow(['name', 'what', 'value', 'unit', 'library', 'version', 'input_sha256', 'source', 'basis'])
        w.writerows(rows)
    print(f'{len(rows)} rows, Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}')


main()
