"""Memories of simulated learners. No real learner was asked: the equations are of the literature on
word pairs, the numbers from memory, and both are unlike those of the schedulers that are compared.

A memory knows for each item how likely it is to be recalled, how long that takes, and what it does
to be asked. Times are seconds since the epoch.
"""

import math
from collections import defaultdict

DAY = 86_400.0


_SLOWLY = 0.025
"""How much of the time between sittings counts, as if it were practised through."""
_SITTING = 3600.0


def _passed(seconds):
    """Seconds within a sitting count whole, all longer times slowly."""
    if seconds < _SITTING:
        return seconds if seconds > 1.0 else 1.0
    return 0.5 * _SITTING + seconds * _SLOWLY


class Activation:
    """Pavlik and Anderson 2005: each use of an item leaves a trace that fades as a power of time,
    the faster the more active the item was, so that what is crammed is soon lost. Between sittings
    time passes more slowly. Traces of what had to be shown are weaker."""

    FADES, CROWDED = 0.177, 0.217
    THRESHOLD, NOISE = -0.704, 0.255
    SHOWN = 0.6

    def __init__(self, random):
        self.fades = max(0.10, random.gauss(self.FADES, 0.03))
        self.gift = random.gauss(0.6, 0.25)
        self.slowness = random.uniform(0.5, 1.2)
        self.easy = defaultdict(lambda: random.gauss(self.gift, 0.25))
        self.traces = defaultdict(list)

    def _activation(self, item, now):
        traces = self.traces[item]
        if not traces:
            return None
        whole = sum(weight * _passed(now - at) ** -fades for at, fades, weight in traces)
        return self.easy[item] + math.log(whole)

    def chance(self, item, now):
        active = self._activation(item, now)
        if active is None:
            return 0.02
        return 1 / (1 + math.exp((self.THRESHOLD - active) / self.NOISE))

    def seconds(self, item, now):
        """How long it takes to recall it."""
        active = self._activation(item, now)
        return 0.4 + self.slowness * math.exp(-(active if active is not None else -2.0))

    def asked(self, item, now, recalled):
        active = self._activation(item, now)
        crowd = 0.0 if active is None else math.exp(active)
        fades = self.CROWDED * min(crowd, 3.0) + self.fades
        self.traces[item].append((now, fades, 1.0 if recalled else self.SHOWN))


class HalfLife:
    """Exponential forgetting: an item has a half-life, which grows the more the nearer the item was
    to being lost, and far less where it had to be shown than where it was recalled."""

    SHOWN = 0.2

    def __init__(self, random):
        self.growth = random.lognormvariate(1.8, 0.35)
        self.first = random.lognormvariate(1.4, 0.4)
        self.slowness = random.uniform(0.5, 1.2)
        self.easy = defaultdict(lambda: random.lognormvariate(0.0, 0.3))
        self.lives = {}

    def chance(self, item, now):
        if item not in self.lives:
            return 0.02
        life, at = self.lives[item]
        return 0.5 ** ((now - at) / DAY / life)

    def seconds(self, item, now):
        return 0.4 + self.slowness * (1 + 3 * (1 - self.chance(item, now)))

    def asked(self, item, now, recalled):
        if item not in self.lives:
            self.lives[item] = self.first * self.easy[item], now
            return
        life, _ = self.lives[item]
        lost = 1 - self.chance(item, now)
        life *= 1 + self.growth * self.easy[item] * lost * (1.0 if recalled else self.SHOWN)
        self.lives[item] = min(max(life, 0.3), 400.0), now


class Forever:
    """Whatever was learned is known: no forgetting at all."""

    def __init__(self, random):
        self.slowness = random.uniform(0.5, 1.2)
        self.uses = defaultdict(float)

    def chance(self, item, now):
        return 1 - math.exp(-0.6 * self.uses[item])

    def seconds(self, item, now):
        return 0.4 + self.slowness

    def asked(self, item, now, recalled):
        self.uses[item] += 1.0 if recalled else 0.6


MEMORIES = {"activation": Activation, "half-life": HalfLife, "no forgetting": Forever}
