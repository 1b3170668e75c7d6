"""The bar of the board: a sign for each thing that can be done, those in force filled."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.course.agenda import Act as Task
from frame.language.catalogue import Words
from frame.screens.board.acts import Act, Aid, Deed, Moment
from frame.view.widgets import Button, Style

_SIZE = 8.0
_GAP = 0.8
_TOP = 80.5


class Tool(NamedTuple):
    """One thing on the bar: what it does, its sign, whose name stands in the words file, and
    whether it is in force."""

    act: Act
    sign: str
    is_on: bool = False


def tools_of(now: Moment) -> list[Tool]:
    """What can be done now, in the order shown."""
    deeds = [Deed.LEAVE]
    if now.task is not None:
        deeds += [Deed.BACK, Deed.NEXT]
    if now.task is Task.SHOW:
        deeds += [Deed.TO_STEP_START, Deed.TO_STEP_END, Deed.TOGGLE, Deed.SPEED]
    tools = [_tool(deed, now) for deed in deeds]
    aids = [aid for aid in Aid if aid is not Aid.STOP_BEFORE or now.task is Task.SHOW]
    tools += [Tool(aid, aid, aid in now.aids) for aid in aids]
    if now.task is Task.READ:
        tools.append(_tool(Deed.READ, now))
    if now.task is not None:
        tools.append(_tool(Deed.ANSWER, now))
    if now.is_tried:
        tools.append(_tool(Deed.UNDO, now))
    return [*tools, _tool(Deed.BLACK, now)]


def _tool(deed: Deed, now: Moment) -> Tool:
    match deed:
        case Deed.TOGGLE:
            return Tool(deed, "pause" if now.runs else "play", now.runs)
        case Deed.SPEED:
            return Tool(deed, "fast" if now.speed > 1 else "slow", now.speed != 1)
        case Deed.ANSWER:
            return Tool(deed, deed, now.is_told)
    return Tool(deed, deed)


def bar_buttons(
    tools: Sequence[Tool], *, across: float, unit: float, words: Words,
    do: Callable[[Act], object],
) -> list[Button]:  # fmt: skip
    """The bar's buttons, in one row in the middle of a window so many units wide."""
    size = min(_SIZE, (across - 4) / len(tools) - _GAP)
    left = (across - len(tools) * (size + _GAP) + _GAP) / 2
    buttons = []
    for index, tool in enumerate(tools):
        at = round((left + index * (size + _GAP)) * unit), round(_TOP * unit)
        place = pygame.Rect(at, (round(size * unit), round(size * unit)))
        name = words.text(f"board.{tool.sign}")
        act = partial(do, tool.act)
        button = Button(place, act, sign=tool.sign, style=Style.CHOICE, name=name)
        button.chosen = tool.is_on
        buttons.append(button)
    return buttons
