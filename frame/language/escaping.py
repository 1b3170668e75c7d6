"""Names and texts from elsewhere, as they can be shown: what a terminal would obey is spelt out."""


def escaped(text: str) -> str:
    r"""The text with all that is not seen, as codes that move the cursor, colour what follows or
    turn its direction, and bytes that are no letter, as Python would spell it: "\x1b"."""
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else repr(sign)[1:-1] for sign in text)
