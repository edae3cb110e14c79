"""Start of the tail and area of a layer of a ziggurat for the normal density, to 20 digits (mpmath).

For 256 layers the figures are those published by Marsaglia & Tsang, J. Stat. Softw. 5(8), 2000: 3.6541528853610088 and
0.00492867323399.
"""
from mpmath import mp, mpf, erfc, exp, log, pi, sqrt

mp.dps = 50


def density(x):
    return exp(-x * x / 2)


def excess(tail, layers):
    """How far the uppermost layer reaches above the peak, and the area of a layer; None where layers run out."""
    area = tail * density(tail) + sqrt(pi / 2) * erfc(tail / sqrt(mpf(2)))
    x = tail
    for _ in range(layers - 2):
        height = area / x + density(x)
        if height >= 1:
            return None, area
        x = sqrt(-2 * log(height))
    return area / x + density(x) - 1, area


for layers in (256, 1024):
    low, high = mpf(3), mpf(5)
    for _ in range(200):
        middle = (low + high) / 2
        reach, _area = excess(middle, layers)
        if reach is None or reach > 0:
            low = middle
        else:
            high = middle
    print(layers, mp.nstr(high, 20), mp.nstr(excess(high, layers)[1], 20))
