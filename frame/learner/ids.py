"""Ids that nothing else has on any computer, so that files can be merged."""

import hashlib
import re
import uuid

_UUID = re.compile(r"[0-9a-f]{32}")


def new_id() -> str:
    """An id that nothing has on any computer."""
    return uuid.uuid4().hex


def id_of(*parts: object) -> str:
    """The id of what these parts tell from all else: the same each time, and in the same form."""
    digest = hashlib.sha256("\n".join(map(str, parts)).encode()).digest()
    return uuid.UUID(bytes=digest[:16], version=4).hex


def uuid_of(id: str) -> uuid.UUID | None:
    """The UUID that an id is which was made so; None for any other."""
    found = uuid.UUID(id) if _UUID.fullmatch(id) else None
    return found if found and found.version == 4 else None
