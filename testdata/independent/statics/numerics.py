"""What run.py and trees.py have in common."""
import zlib

import numpy as np


def turned(q, v):
    """v turned by the quaternion q, of any length but 0; also for complex numbers."""
    w, u = q[0], q[1:]
    cross = lambda a, b: np.stack([a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1],
                                   a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2],
                                   a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]], axis=-1)
    u = np.broadcast_to(u, v.shape)
    return v + 2 * cross(u, cross(u, v) + w * v) / (q @ q)


def slope(f, y):
    """Gradient or Jacobian by complex steps: exact to rounding."""
    rows = []
    for i in range(len(y)):
        z = y.astype(complex)
        z[i] += 1e-30j
        rows.append(np.imag(f(z)) / 1e-30)
    return np.array(rows).T


def kicked(of, n):
    """A little kick, the same each time for the same load."""
    return np.random.default_rng(zlib.crc32(of.tobytes())).normal(size=n) * 1e-3
