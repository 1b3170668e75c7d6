"""The code of a sheet as it is typed: its signs, how they are shown, and what is wrong with one."""

from frame.language.catalogue import Words
from frame.sheets.code import MOST_SIGNS, CodeError, Expected
from frame.sheets.spelling import is_between

_GROUP, _IN_LINE = 4, 5
"""Signs in a group, and groups in a line."""


def code_signs(text: str) -> str:
    """The signs of a text that may be a code, in capitals, without what means nothing between
    them, and no more than a code has."""
    signs = (one.upper() for one in text if one.isprintable() and not is_between(one))
    return "".join(signs)[:MOST_SIGNS]


def code_lines(signs: str) -> list[str]:
    """The signs in groups, as they are printed on a sheet; a long code in lines."""
    groups = [signs[at : at + _GROUP] for at in range(0, len(signs), _GROUP)]
    lines = [groups[at : at + _IN_LINE] for at in range(0, len(groups), _IN_LINE)]
    return ["-".join(line) for line in lines]


def code_trouble(error: CodeError, words: Words) -> str:
    """What is wrong with a code: which sign, where one is, and what it should have been."""
    why = words.text(f"marks.code.{error.expected}")
    if not error.nearest and error.expected is not Expected.SIGN:
        return why
    where = words.text("marks.code.where", number=error.where, sign=error.found)
    return f"{where} {why}"
