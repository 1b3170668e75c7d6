"""Many rows that take next to no time, tried by one test."""

from functools import wraps
from inspect import signature

import pytest

_FAILURES = Exception, BaseExceptionGroup, pytest.fail.Exception


def each_row(names, rows):
    """Tries a test with every row, as `parametrize` does, but as one test, which names every row
    that fails: to begin and end a test takes longer than most of them."""
    rows, names = list(rows), names.split(", ") if isinstance(names, str) else list(names)
    assert rows, "a test without a row can't fail"

    def tried_with_each(test):
        @wraps(test)
        def tried(**others):
            failed = []
            for row in rows:
                given = dict(zip(names, row if len(names) > 1 else (row,), strict=True))
                try:
                    test(**others, **given)
                except _FAILURES as error:
                    error.add_note(f"with {given}")
                    failed.append(error)
            if failed:
                raise BaseExceptionGroup(f"{len(failed)} of {len(rows)} rows", failed)

        own = signature(test)
        left = [one for name, one in own.parameters.items() if name not in names]
        tried.__signature__ = own.replace(parameters=left)
        return tried

    return tried_with_each
