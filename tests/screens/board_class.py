"""A tutor before a class: the board opened, its keys pressed, what is seen."""

import pygame

from frame.app import Push
from frame.course.agenda import items_of, read_agenda
from frame.screens.board.screen import BoardScreen

REMOTE = {
    "on": pygame.K_PAGEDOWN,
    "back": pygame.K_PAGEUP,
    "black": pygame.K_b,
    "start": pygame.K_F5,
    "stop": pygame.K_ESCAPE,
}
"""The keys of a presenter's remote; start and stop are one button that takes turns."""

TYPED = {
    "\r": pygame.K_RETURN,
    "\b": pygame.K_BACKSPACE,
    "\t": pygame.K_TAB,
    " ": pygame.K_SPACE,
    ".": pygame.K_PERIOD,
    "\x1b": pygame.K_ESCAPE,
    "\x16": pygame.K_v,
    "\x1a": pygame.K_z,
}
"""Keys by what SDL says they type."""


def open_board(pilot, text=""):
    """The board with an agenda, or with a column of sums."""
    is_agenda = text.startswith("board:")
    if is_agenda:
        agenda, problems = read_agenda(text, "class")
    items, problems = (agenda.items, problems) if is_agenda else items_of(text)
    assert not problems, problems
    screen = BoardScreen(pilot.room, items)
    pilot.app.take(Push(screen))
    pilot.app.draw()
    return screen


def press(pilot, button, times=1):
    """A button of the remote; SDL says nothing of what Page Down and F5 type."""
    for _ in range(times):
        text = {"black": "b", "stop": "\x1b"}.get(button, "")
        pilot.key(REMOTE[button], text=text)
    if pilot.screen.field.is_moving:
        pilot.settle()


def type_keys(pilot, signs, mod=0):
    """Keys of the keyboard, one after another."""
    for sign in signs:
        pilot.key(TYPED.get(sign, ord(sign)), mod, text=sign)


def letter(pilot, name):
    """A letter key by its name."""
    pilot.key(getattr(pygame, f"K_{name}"), text=name)
    if pilot.screen.field.is_moving:
        pilot.settle()


def hover(pilot, at):
    """The mouse moves with no button down."""
    pilot.post(pygame.MOUSEMOTION, pos=tuple(map(round, at)), rel=(0, 0), buttons=(0, 0, 0),
               touch=False)  # fmt: skip


def without_bar(pilot):
    """Wait until the bar has gone."""
    pilot.wait(4.1, 4)
    assert not pilot.screen.buttons


def is_dark(pilot):
    """Whether nothing but black is on the window."""
    return not any(pilot.pixels())


def seen(pilot):
    """All texts that are read now, a line each, numbers without their thin spaces; the sum, which
    is written part by part, in one line at the end."""
    texts = [text.replace("\u202f", "") for text, _ in pilot.repaint()]
    return [*texts, heading(pilot)]


def heading(pilot):
    """The sum, or what is typed, as it stands on the board now, in one line."""
    largest = [one for one in pilot.room.lettering.written if one.how[0] == 4]
    left = [one.text for one in largest if not one.text.startswith("=")]
    joint = "" if pilot.screen.typed.is_open else " "
    return joint.join(left).replace("\u202f", "")


def steps_on(pilot, most=200):
    """Press for the next move until the item is told; the frames passed."""
    shown, frames = pilot.screen.shown, []
    for _ in range(most):
        press(pilot, "on")
        assert pilot.screen.shown is shown
        if shown.stage == "told":
            return frames
        frames.append(pilot.screen.field.frame)
    raise AssertionError("never told")
