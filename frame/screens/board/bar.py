"""The bar of the board: a sign for each thing that can be done, those in force filled."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

import pygame

from frame.course.agenda import Act
from frame.course.board import Stage
from frame.view.widgets import Button, Style

if TYPE_CHECKING:
    from frame.screens.board.screen import BoardScreen

_SIZE = 8.0
_GAP = 0.8
_TOP = 80.5


class Tool(NamedTuple):
    """One thing on the bar: its sign, whose name stands in the words file, what it does, and
    whether it is in force."""

    sign: str
    act: Callable[[], object]
    is_on: bool = False


def tools_of(screen: BoardScreen) -> list[Tool]:
    """What can be done now, in the order shown."""
    shown, shows = screen.shown, screen.shows
    runs = screen.plays or screen.calling is not None
    tools = [Tool("back", screen.leave_board)]
    if shown is not None:
        tools += [Tool("step_back", screen.go_back), Tool("step_on", screen.next)]
    if shown is not None and shown.is_worked:
        tools += [
            Tool("step_start", screen.step_back),
            Tool("step_end", screen.next_step),
            Tool("pause" if runs else "play", screen.toggle, runs),
            Tool("fast" if screen.speed > 1 else "slow", screen.turn_speed, screen.speed != 1),
            Tool("stop_before", screen.toggle_pauses, screen.pauses),
        ]
    if shown is not None and shown.item.act is Act.READ:
        tools.append(Tool("eye", screen.everyone_reads))
    if shown is not None:
        tools.append(Tool("answer", screen.toggle_answer, shown.stage is Stage.TOLD))
    tools += [
        Tool(name, partial(screen.turn, name), getattr(shows, name))
        for name in ("reading", "rule", "fingers", "names", "tint", "verdict", "spot", "ring")
    ]
    if shown is not None and shown.hand:
        tools.append(Tool("undo", screen.undo))
    return [*tools, Tool("dark", screen.toggle_black)]


def bar_buttons(screen: BoardScreen) -> list[Button]:
    """The bar's buttons, in one row in the middle."""
    tools, one = tools_of(screen), screen.unit
    size = min(_SIZE, (screen.across - 4) / len(tools) - _GAP)
    left = (screen.across - len(tools) * (size + _GAP) + _GAP) / 2
    buttons = []
    for index, tool in enumerate(tools):
        at = round((left + index * (size + _GAP)) * one), round(_TOP * one)
        place = pygame.Rect(at, (round(size * one), round(size * one)))
        name = screen.room.words.text(f"board.{tool.sign}")
        style = Style.CHOICE
        buttons.append(
            Button(place, tool.act, sign=tool.sign, style=style, chosen=tool.is_on, name=name)
        )
    return buttons
