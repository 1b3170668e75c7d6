"""The grown-ups' code: four digits, of which only a salted hash is kept.

It keeps children out, not thieves: there are ten thousand codes, any number may be tried, and
whoever can read the file or use the command line needs none.
"""

import os
from typing import NamedTuple

SALT, DIGEST = 16, 32
"""Bytes of the salt and of the hash."""
COST = 2**14
"""With 8 and 1 Percival's numbers for logging in (2009; from memory): about 50 ms."""


class Seal(NamedTuple):
    """What is kept of a code."""

    salt: bytes
    digest: bytes

    def __str__(self) -> str:
        return f"{self.salt.hex()} {self.digest.hex()}"

    def fits(self, code: str) -> bool:
        """Whether this is the code that was sealed."""
        return is_four_digits(code) and _digest(code, self.salt) == self.digest


def seal_of(code: str) -> Seal:
    """The seal of a code, another one each time. Raises ValueError for other than four digits."""
    if not is_four_digits(code):
        raise ValueError("a code has four digits")
    salt = os.urandom(SALT)
    return Seal(salt, _digest(code, salt))


def read_seal(text: str) -> Seal | None:
    """The inverse of `str`; None for a text that is no seal."""
    try:
        salt, digest = map(bytes.fromhex, text.split(" "))
    except ValueError:
        return None
    return Seal(salt, digest) if (len(salt), len(digest)) == (SALT, DIGEST) else None


def is_four_digits(code: str) -> bool:
    """Whether a code may be so."""
    return len(code) == 4 and code.isascii() and code.isdigit()


def _digest(code: str, salt: bytes) -> bytes:
    # hashlib takes a while to load, and the window opens without it.
    from hashlib import scrypt

    return scrypt(code.encode(), salt=salt, n=COST, r=8, p=1, dklen=DIGEST)
