"""The optional engine, for lines that nobody recorded: a tutor's own lessons."""

from collections.abc import Callable
from importlib.util import find_spec
from threading import Lock, Thread
from typing import Any

SECONDS_A_WORD = 0.4
"""About how long a word takes, to tell the length of a line before it is rendered."""

_LOUDEST = 0.7


class Live:
    """Renders lines in a thread of its own, at the clips' rate. Needs the extra `voice`."""

    def __init__(self) -> None:
        self._engine: Any = None
        self._lock = Lock()

    def speak(self, text: str, then: Callable[[bytes], None]) -> float:
        """Render a text and hand its samples to `then`, in another thread: about how long it
        will be, in seconds."""
        Thread(target=lambda: then(self._render(text)), daemon=True).start()
        return SECONDS_A_WORD * len(text.split())

    def _render(self, text: str) -> bytes:
        # The engine and its model take half a second, and most sittings need neither.
        from hibari import Hibari  # type: ignore[import-not-found, import-untyped, unused-ignore]

        with self._lock:
            self._engine = self._engine or Hibari()
            wave = self._engine(text, seed=0)
        loudest = max(float(abs(wave).max()), _LOUDEST) if len(wave) else 1.0
        return bytes((wave * (32_767 * _LOUDEST / loudest)).astype("<i2").tobytes())


def open_live() -> Live | None:
    """The engine, or None where the extra is not installed."""
    return Live() if find_spec("hibari") else None
