"""Window events as the few inputs that screens understand.

They are NamedTuples, which are imported faster than dataclasses: the window needs them at its
start.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import pygame

if TYPE_CHECKING:
    from frame.view.geometry import Point

MOUSE = -1
"""The finger id of the mouse."""


class Press(NamedTuple):
    """A finger or the mouse button goes down; the place is in pixels."""

    finger: int
    at: Point


class Drag(NamedTuple):
    """A finger that is down moves."""

    finger: int
    at: Point


class Release(NamedTuple):
    """A finger or the mouse button goes up."""

    finger: int
    at: Point


class Hover(NamedTuple):
    """The mouse moves with no button down."""

    at: Point


class Key(NamedTuple):
    """A key goes down: pygame's key code, whether shift or control is held, and what it types."""

    code: int
    shift: bool = False
    control: bool = False
    text: str = ""

    @property
    def is_black(self) -> bool:
        """Whether a presenter's remote sends it to make the screen black: the full stop, which is
        not that of the keypad, or B."""
        is_point = self.text == "." and self.code != pygame.K_KP_PERIOD
        return not self.control and (is_point or self.code == pygame.K_b)


class Typed(NamedTuple):
    """A text is typed: by keys, or put together by an input method and taken. It comes beside the
    keys."""

    text: str


class Composing(NamedTuple):
    """What an input method puts together looks like this now; empty when it is taken or given
    up."""

    text: str


class Wheel(NamedTuple):
    """The wheel turns by so many notches, which are positive towards the hand."""

    notches: int


class Dropped(NamedTuple):
    """A file is let go over the window: its path."""

    path: str


class Lost(NamedTuple):
    """The window lost the hand: fingers that were down are forgotten."""


class Found(NamedTuple):
    """The window has the hand again."""


class Resized(NamedTuple):
    """The window has another size, or must be drawn again."""


class Closed(NamedTuple):
    """The window is to close."""


Input = (
    Press | Drag | Release | Hover | Key | Typed | Composing | Wheel | Dropped | Lost | Found
    | Resized | Closed
)  # fmt: skip

_REDRAW = (pygame.WINDOWSIZECHANGED, pygame.WINDOWEXPOSED, pygame.WINDOWRESTORED)


def input_of(
    event: pygame.event.Event, size: tuple[int, int], corner: tuple[int, int] = (0, 0)
) -> Input | None:
    """The input behind an event in a window of `size`, or None for one that means nothing. Places
    count from the `corner` of what screens are laid out in.

    A touch screen also makes mouse events up; they are left out, or a tap would move a bead
    twice. Only the left mouse button counts, and a key held down counts once.
    """
    if event.type in (pygame.FINGERDOWN, pygame.FINGERMOTION, pygame.FINGERUP):
        return _finger(event, (event.x * size[0] - corner[0], event.y * size[1] - corner[1]))
    if event.type in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP, pygame.MOUSEMOTION):
        return _mouse(event, (event.pos[0] - corner[0], event.pos[1] - corner[1]))
    if event.type == pygame.KEYDOWN:
        held = bool(event.mod & pygame.KMOD_SHIFT), bool(event.mod & pygame.KMOD_CTRL)
        return Key(event.key, *held, event.unicode)
    if event.type == pygame.TEXTINPUT:
        return Typed(event.text)
    if event.type == pygame.TEXTEDITING:
        return Composing(event.text)
    if event.type == pygame.MOUSEWHEEL:
        return Wheel(-event.y)
    if event.type == pygame.DROPFILE:
        return Dropped(event.file)
    if event.type == pygame.WINDOWFOCUSLOST:
        return Lost()
    if event.type == pygame.WINDOWFOCUSGAINED:
        return Found()
    if event.type in _REDRAW:
        return Resized()
    return Closed() if event.type == pygame.QUIT else None


def kind_of(taken: Input) -> str:
    """By what a hand gave an input: `mouse`, `touch` or `keys`; empty where no hand did."""
    if isinstance(taken, Press):
        return "mouse" if taken.finger == MOUSE else "touch"
    return "keys" if isinstance(taken, Key) else ""


def _finger(event: pygame.event.Event, at: Point) -> Input:
    if event.type == pygame.FINGERDOWN:
        return Press(event.finger_id, at)
    if event.type == pygame.FINGERUP:
        return Release(event.finger_id, at)
    return Drag(event.finger_id, at)


def _mouse(event: pygame.event.Event, at: Point) -> Input | None:
    if getattr(event, "touch", False):
        return None
    if event.type == pygame.MOUSEMOTION:
        return Drag(MOUSE, at) if event.buttons[0] else Hover(at)
    if event.button != pygame.BUTTON_LEFT:
        return None
    return (Press if event.type == pygame.MOUSEBUTTONDOWN else Release)(MOUSE, at)
