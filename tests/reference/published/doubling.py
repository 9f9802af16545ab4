# Lambertian light on isotropically scattering layers without boundaries: doubling and adding of thin slices in N
# Gaussian directions a hemisphere (van de Hulst 1980). Prints R and T for the layers of slabs_index_matched.csv.
# Plain Python 3.
import math


def gauss(n):
    nodes, weights = [], []
    for i in range(n):
        x = math.cos(math.pi * (i + 0.75) / (n + 0.5))
        for _ in range(100):
            p0, p1 = 1, x
            for k in range(2, n + 1):
                p0, p1 = p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k
            slope = n * (x * p1 - p0) / (x * x - 1)
            x -= p1 / slope
        nodes.append((x + 1) / 2)
        weights.append(1 / ((1 - x * x) * slope * slope))
    return nodes, weights


def product(a, b):
    return [[sum(x * y for x, y in zip(row, column)) for column in zip(*b)] for row in a]


def plus(a, b, sign=1):
    return [[x + sign * y for x, y in zip(r, s)] for r, s in zip(a, b)]


def inverse(a):
    n = len(a)
    m = [list(a[i]) + [float(i == j) for j in range(n)] for i in range(n)]
    for c in range(n):
        p = max(range(c, n), key=lambda r: abs(m[r][c]))
        m[c], m[p] = m[p], m[c]
        m[c] = [v / m[c][c] for v in m[c]]
        for r in range(n):
            if r != c:
                m[r] = [v - m[r][c] * u for v, u in zip(m[r], m[c])]
    return [r[n:] for r in m]


def add(one, other):
    (r1, t1, r1b, t1b), (r2, t2, r2b, t2b) = one, other
    unit = [[float(i == j) for j in range(len(r1))] for i in range(len(r1))]
    x = inverse(plus(unit, product(r1b, r2), -1))
    y = inverse(plus(unit, product(r2, r1b), -1))
    return (plus(r1, product(t1b, product(r2, product(x, t1)))), product(t2, product(x, t1)),
            plus(r2b, product(t2, product(r1b, product(y, t2b)))), product(t1b, product(y, t2b)))


def solve(n, layers, doublings=22):
    mu, w = gauss(n)
    total = None
    for depth, albedo in layers:
        d = depth / 2 ** doublings
        r = [[albedo / 2 * w[j] / mu[i] * d for j in range(n)] for i in range(n)]
        t = [[r[i][j] + (1 - d / mu[i] if i == j else 0) for j in range(n)] for i in range(n)]
        layer = (r, t, r, t)
        for _ in range(doublings):
            layer = add(layer, layer)
        total = layer if total is None else add(total, layer)
    return [2 * sum(w[i] * mu[i] * sum(m[i]) for i in range(n)) for m in total[:2]]


for name, layers in [("1c", [(0.03125, 0.99)]), ("1f", [(32, 0.99)]),
                     ("8a", [(0.25, 0.5), (0.25, 0.3)]), ("8b", [(0.25, 0.8), (0.25, 0.95)])]:
    print(name, *(f"{n}: {r:.6f} {t:.6f}" for n in (4, 16) for r, t in [solve(n, layers)]))
