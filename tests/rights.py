"""Files that a user may not read or write, also where the tests are run by one who may all."""

import os
from contextlib import contextmanager

NOBODY = 65534


@contextmanager
def without_rights(*places):
    """Meanwhile these are owned by a user who can do no more than the modes of files say."""
    if os.geteuid() != 0:
        yield
        return
    for place in places:
        os.chown(place, NOBODY, NOBODY)
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)
