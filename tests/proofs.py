"""Which cases are tried each day, and which under `-m proof` alone."""

import pytest


def some_daily(every, daily, several=False):
    """Every case as a parameter, or as `several` of them; those that are not daily are proofs."""
    assert all(one in every for one in daily)
    marks = {True: (), False: (pytest.mark.proof,)}
    return [pytest.param(*(one if several else (one,)), marks=marks[one in daily]) for one in every]
