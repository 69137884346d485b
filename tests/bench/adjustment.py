"""Fifteen readings of the L adjusted by SciPy's least_squares (lm, analytic Jacobian): seconds a solve, beside the bench's own."""

import timeit

import numpy as np
from scipy.optimize import least_squares

PLAN = np.array([(0, 0), (7800, 0), (7800, 3600), (4800, 3600), (4800, 6000), (0, 6000)], float)
FROM, TO = np.triu_indices(6, 1)
OFF = ((7 * FROM + 3 * TO) % 5) / 2 - 1 + 3
READ = np.round(np.hypot(*(PLAN[TO] - PLAN[FROM]).T) + OFF)
# Shifts and the turn are held by A and the direction of AB: three of the twelve coordinates stay.
FREE = [2, 4, 5, 6, 7, 8, 9, 10, 11]
SD = 1.5


def corners(unknowns):
    points = PLAN.flatten()
    points[FREE] = unknowns
    return points.reshape(6, 2)


def residuals(unknowns):
    points = corners(unknowns)
    return (np.hypot(*(points[TO] - points[FROM]).T) - READ) / SD


def jacobian(unknowns):
    points = corners(unknowns)
    away = points[TO] - points[FROM]
    unit = away / np.hypot(*away.T)[:, None] / SD
    full = np.zeros((15, 12))
    for row in range(15):
        full[row, 2 * FROM[row]:2 * FROM[row] + 2] = -unit[row]
        full[row, 2 * TO[row]:2 * TO[row] + 2] = unit[row]
    return full[:, FREE]


def solve():
    return least_squares(residuals, PLAN.flatten()[FREE], jac=jacobian, method="lm")


solve()
times = timeit.repeat(solve, number=50, repeat=5)
print(f"SciPy's least_squares, fifteen readings: {1e6 * min(times) / 50:.0f} µs")
