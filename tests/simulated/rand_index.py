"""How far two splits of the same things agree: the adjusted Rand index."""

from collections import Counter
from math import comb


def adjusted_rand(one, other):
    """1 for the same split, 0 on the average for splits by chance of these sizes. Both name the
    part of each thing, in the same order. Hubert and Arabie 1985, Comparing partitions, equation
    5; where each split has one part alone, or each thing apart, they are the same.

    >>> adjusted_rand("aabb", "xxyy"), adjusted_rand("aabb", "xyxy")
    (1.0, -0.5)
    """
    both = _pairs(zip(one, other, strict=True))
    in_one, in_other = _pairs(one), _pairs(other)
    expected = in_one * in_other / max(1, comb(len(one), 2))
    most = (in_one + in_other) / 2
    return 1.0 if most == expected else (both - expected) / (most - expected)


def _pairs(parts):
    """How many pairs of things are in the same part."""
    return sum(comb(count, 2) for count in Counter(parts).values())
