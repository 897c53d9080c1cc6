"""Level forces, such as of wind, on a hung load that is held from turning about the
plumb line. Read by run.py; see README.md."""
import numpy as np
from scipy.optimize import least_squares

from numerics import slope, turned


def hang_aside(rig, sides):
    """The statics of the whole load: forces three ways, moments about the two level axes,
    and no turn of the load about the plumb line but that of the shortest way from the
    drawing. The forces grow from nothing; all legs of a rig that does not stretch must pull."""
    at = np.array([s['at'] for s in sides], float)
    arms = (at - rig.cg) / rig.size
    force = np.array([s['force'] for s in sides], float) / rig.weight
    n = len(rig.lengths)
    rods = rig.k is None

    def left(v, part):
        y = v[:7]
        line = rig.lines(y)
        reach = np.sqrt((line * line).sum(axis=1))
        if rods:
            pull = v[7:]
        else:
            stretch = reach - rig.lengths
            pull = rig.k * np.where(np.real(stretch) > 0, stretch, 0)
        pulls = line / reach[:, None] * pull[:, None]
        sums = pulls.sum(axis=0) + part * force.sum(axis=0) - np.array([0, 0, 1])
        cross = lambda a, b: np.stack([a[:, 1] * b[:, 2] - a[:, 2] * b[:, 1], a[:, 2] * b[:, 0] - a[:, 0] * b[:, 2],
                                       a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]], axis=-1).sum(axis=0)
        moments = cross(turned(y[3:], rig.arms), pulls) + cross(turned(y[3:], arms), part * force)
        gauge = [y[3:] @ y[3:] - 1, y[6]]
        return np.concatenate([sums, moments[:2], gauge, reach - rig.lengths if rods else []])

    y, pull = rig.hang_on_rods() if rods else rig.hang_on_springs()
    back = np.array([y[3], 0, 0, -y[6]])  # turned about the plumb line until nothing of it is left
    w, x, yy, z = y[3:]
    y = np.concatenate([turned(back, y[None, :3])[0], [w * w + z * z, w * x + z * yy, w * yy - z * x, 0]])
    y[3:] /= np.linalg.norm(y[3:])
    v = np.concatenate([y, pull]) if rods else y
    for part in np.linspace(0, 1, 11):
        found = least_squares(left, v, jac=lambda v, part: slope(lambda z: left(z, part), v), args=(part,),
                              method='trf', xtol=3e-16, ftol=3e-16, gtol=3e-16)
        v = found.x
        if np.abs(found.fun).max() > 1e-12:
            raise SystemExit(f'no balance with {part} of the forces: {np.abs(found.fun).max()}')
    y = v[:7]
    pull = v[7:] if rods else rig.k * np.maximum(0, rig.reach(y) - rig.lengths)
    if (pull < 0).any():
        raise SystemExit('a leg would push')
    q = y[3:] * [1, -1, -1, -1]
    hook = turned(q, -y[:3])
    a = turned(y[3:], arms) + y[:3]  # from the hook, as it hangs
    couple = (a[:, 0] * force[:, 1] - a[:, 1] * force[:, 0]).sum()
    return {'hook': rig.cg + hook * rig.size, 'up': turned(q, np.array([0, 0, 1.0])), 'tension': pull * rig.weight, 'couple': couple * rig.weight * rig.size}
