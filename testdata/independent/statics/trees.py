"""Hangs trees: bars and a load under one hook, each a rigid body with all its
freedoms, joined by legs. Read by run.py; see README.md."""
import numpy as np
from scipy.optimize import least_squares, linprog, minimize

from numerics import kicked, slope, turned


class Tree:
    """In units of the whole weight and of the longest leg. The unknowns are for
    each body the place of its CG and a quaternion."""

    def __init__(self, hook, bodies, links):
        self.weight, self.size = sum(b['weight'] for b in bodies), max(l['length'] for l in links)
        self.n, self.m = len(bodies), len(links)
        self.w = np.array([b['weight'] for b in bodies]) / self.weight
        self.cg = [(np.array(b['cg']) - hook) / self.size for b in bodies]
        arm = lambda b, p: (np.array(bodies[b]['points'][p]) - bodies[b]['cg']) / self.size
        self.ends = [[(b, None if b < 0 else arm(b, p)) for b, p in (l['from'], l['to'])] for l in links]
        self.length = np.array([l['length'] for l in links]) / self.size
        self.k = np.array([l['stiffness'] for l in links]) * self.size / self.weight
        self.rigid = self.k == 0
        if self.rigid.any() and not self.rigid.all():
            raise SystemExit('legs of both kinds')

    def at(self, y, end):
        body, arm = end
        if body < 0:
            return np.zeros(3)
        return y[7 * body:7 * body + 3] + turned(y[7 * body + 3:7 * body + 7], arm[None])[0]

    def lines(self, y):
        """From the lower end of each leg to its upper one."""
        return np.stack([self.at(y, a) - self.at(y, b) for a, b in self.ends])

    def reach(self, y):
        line = self.lines(y)
        return np.sqrt((line * line).sum(axis=1))

    def energy(self, y, k):
        stretch = self.reach(y) - self.length
        stretch = np.where(np.real(stretch) > 0, stretch, 0)
        return (self.w * y[2::7]).sum() + (k * stretch * stretch).sum() / 2

    def unit(self, y):
        for b in range(self.n):
            y[7 * b + 3:7 * b + 7] /= np.linalg.norm(y[7 * b + 3:7 * b + 7])
        return y

    def norms(self, y):
        return np.array([y[7 * b + 3:7 * b + 7] @ y[7 * b + 3:7 * b + 7] - 1 for b in range(self.n)])

    def downhill(self, y, k):
        for _ in range(4):
            y = self.unit(minimize(self.energy, y, args=(k,), jac=lambda y, k: slope(lambda z: self.energy(z, k), y),
                                   method='BFGS', options={'gtol': 1e-9, 'maxiter': 5000}).x)
        return y

    def matrix(self, y):
        """Forces and moments (about its CG) on each body for a pull of 1 in each leg,
        as columns, and the weights that they must balance."""
        line = self.lines(y)
        u = line / np.sqrt((line * line).sum(axis=1))[:, None]
        columns = []
        for i, (upper, lower) in enumerate(self.ends):
            column = [np.zeros(3)] * (2 * self.n)
            for (body, arm), way in ((upper, -u[i]), (lower, u[i])):
                if body >= 0:
                    r = self.at(y, (body, arm)) - y[7 * body:7 * body + 3]
                    column[2 * body] = column[2 * body] + way
                    column[2 * body + 1] = column[2 * body + 1] + np.stack([r[1] * way[2] - r[2] * way[1], r[2] * way[0] - r[0] * way[2], r[0] * way[1] - r[1] * way[0]])
            columns.append(np.concatenate(column))
        b = np.zeros(6 * self.n)
        b[2::6] = self.w
        return np.stack(columns, axis=1), b

    def share(self, y, taut):
        """Least work, T >= 0: a quadratic programme; then its active set put exactly."""
        a, b = self.matrix(y)
        root = np.sqrt(self.length[taut])
        a = a[:, taut] / root
        # The balance in as many equations as there are: the rest follow.
        left, values, right = np.linalg.svd(a, full_matrices=False)
        rank = int((values > 1e-8).sum())
        rows, rest = left[:, :rank].T @ a, left[:, :rank].T @ b
        found = minimize(lambda s: s @ s / 2, right[:rank].T @ (rest / values[:rank]), jac=lambda s: s, bounds=[(0, None)] * len(taut),
                         constraints=[{'type': 'eq', 'fun': lambda s: rows @ s - rest, 'jac': lambda s: rows}],
                         method='SLSQP', options={'ftol': 1e-16, 'maxiter': 500})
        on = found.x > 1e-7
        exact, *_ = np.linalg.lstsq(a[:, on], b, rcond=1e-8)
        t = np.zeros(self.m)
        t[np.array(taut)[on]] = exact / root[on]
        return t

    def rest(self):
        y = np.concatenate([np.concatenate([c, [1, 0, 0, 0]]) for c in self.cg]) + kicked(self.length, 7 * self.n)
        y = self.unit(y)
        if not self.rigid.any():
            y = self.downhill(y, self.k)
            y = least_squares(lambda z: np.concatenate([slope(lambda v: self.energy(v, self.k), z), self.norms(z)]), y,
                              method='trf', xtol=3e-16, ftol=3e-16, gtol=3e-16).x
            return y, self.k * np.maximum(0, self.reach(y) - self.length)
        for k in (30.0, 300.0, 3000.0, 30000.0):
            y = self.downhill(y, np.full(self.m, k))
        slack = {'type': 'ineq', 'fun': lambda y: self.length - self.reach(y), 'jac': lambda y: -slope(self.reach, y)}
        height = np.zeros(7 * self.n)
        height[2::7] = self.w
        y = self.unit(minimize(lambda y: height @ y, y, jac=lambda y: height, constraints=[slack],
                               method='SLSQP', options={'ftol': 1e-15, 'maxiter': 1000}).x)
        taut = np.flatnonzero(self.length - self.reach(y) < 1e-6)
        pulls = self.share(y, taut)

        def balance(v):
            z, t = v[:7 * self.n], np.zeros(self.m, v.dtype)
            t[taut] = v[7 * self.n:]
            a, b = self.matrix(z)
            return np.concatenate([a @ t - b, (self.reach(z) - self.length)[taut], self.norms(z)])
        v = least_squares(balance, np.concatenate([y, pulls[taut]]), jac=lambda v: slope(balance, v),
                          method='trf', xtol=3e-16, ftol=3e-16, gtol=3e-16)
        if np.abs(v.fun).max() > 1e-11 or np.abs(v.x[:7 * self.n] - y).max() > 1e-3:
            raise SystemExit(f'no balance: {np.abs(v.fun).max()}, {np.abs(v.x[:7 * self.n] - y).max()}')
        y = v.x[:7 * self.n]
        taut = np.flatnonzero(self.length - self.reach(y) < 1e-9)
        return y, self.share(y, taut)

    def most(self, y, t):
        """The greatest pull of each leg that balances all bodies, the others as they like."""
        taut = np.flatnonzero(self.length - self.reach(y) < 1e-9)
        a, b = self.matrix(y)
        left, values, _ = np.linalg.svd(a[:, taut], full_matrices=False)
        rows = left[:, values > 1e-8].T
        most = t.copy()
        for i, leg in enumerate(taut):
            found = linprog(-np.eye(len(taut))[i], A_eq=rows @ a[:, taut], b_eq=rows @ b, method='highs',
                            options={'primal_feasibility_tolerance': 1e-10, 'dual_feasibility_tolerance': 1e-10})
            if found.status != 0:
                raise SystemExit(f'linear programme: {found.message}')
            most[leg] = -found.fun
        return most

    def hang(self):
        y, t = self.rest()
        line = self.lines(y)
        tilt = [np.arctan2(np.hypot(*u[:2]), u[2]) for u in (turned(y[7 * b + 3:7 * b + 7], np.array([[0, 0, 1.0]]))[0] for b in range(self.n))]
        found = {'tension': t * self.weight, 'height': y[2::7] * self.size, 'tilt': np.array(tilt),
                 'rise': np.arctan2(line[:, 2], np.hypot(line[:, 0], line[:, 1]))}
        if self.rigid.all():
            found['most'] = self.most(y, t) * self.weight
        return found
