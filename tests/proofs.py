"""Which cases are tried each day, and which under `-m proof` alone."""

import pytest


def some_daily(every, daily, several=False):
    """Every case as a parameter, or as `several` of them; those that are not daily are proofs."""
    assert all(one in every for one in daily)
    marks = {True: (), False: (pytest.mark.proof,)}
    return [pytest.param(*(one if several else (one,)), marks=marks[one in daily]) for one in every]


def is_proof(one):
    """Whether a test, or a case of one, is one of the long proofs."""
    marks = getattr(one, "pytestmark", None) or getattr(one, "marks", ())
    return any(mark.name == "proof" for mark in marks)


def without_proofs(parametrize, names, cases, *others, ids=None, **more):
    """Parametrise a test with its daily cases alone; with all where it has no others."""
    cases = list(cases)
    kept = [at for at, one in enumerate(cases) if not is_proof(one)] or range(len(cases))
    if ids is not None and not callable(ids):
        ids = [one for at, one in enumerate(ids) if at in kept]
    parametrize(names, [cases[at] for at in kept], *others, ids=ids, **more)
