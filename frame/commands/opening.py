"""The learners' file, opened by a command."""

import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.store import Store
from frame.screens.parts.trouble import saved_text

_PATIENCE = 5.0
"""Seconds that a file is waited for which a window holds; nobody looks at a window meanwhile."""


@contextmanager
def opened_store(path: Path, words: Words) -> Iterator[Store]:
    """The file at `path`; what could be saved of one that is damaged or gone goes to standard error
    at once, for it is told only once. Raises StoreError."""
    with closing(Store(path, _PATIENCE)) as store:
        if store.saved is not None:
            print(escaped(saved_text(store.saved, words)), file=sys.stderr)
        yield store
