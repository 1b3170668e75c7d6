"""The bar of the board: a sign for each thing that can be done, those in force filled; while a sum
is typed, its keys."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from frame.course.agenda import Task
from frame.language.catalogue import Words
from frame.screens.board.acts import Aid, BoardAct, Deed, Moment, Question, Signs
from frame.screens.board.places import Places
from frame.view.widgets import Button, Style

_GAP = 0.4
_SIGNS = ("1234567890", "+−×÷√().")


class Tool(NamedTuple):
    """One thing on the bar: what it does, its sign, whose name stands in the words file, or the
    text on it, and whether it is in force."""

    act: BoardAct
    sign: str
    text: str = ""
    is_on: bool = False


def tools_of(now: Moment) -> list[Tool]:
    """What can be done now, in the order shown."""
    if now.typed.is_open:
        keys = [Tool(Signs(sign), "", sign) for sign in "".join(_SIGNS)]
        ends = [_tool(deed, now) for deed in (Deed.ERASE, Deed.TAKE, Deed.BLACK)]
        return [_tool(Deed.LEAVE, now), _tool(Deed.TYPE, now), *keys, *ends]
    deeds = [Deed.LEAVE, Deed.TYPE, Deed.AGENDAS]
    if now.task is not None:
        deeds += [Deed.BACK, Deed.NEXT]
    if now.task is Task.SHOW:
        deeds += [Deed.TO_STEP_START, Deed.TO_STEP_END, Deed.TOGGLE, Deed.SPEED]
    tools = [_tool(deed, now) for deed in deeds]
    aids = [aid for aid in Aid if aid is not Aid.STOP_BEFORE or now.task is Task.SHOW]
    tools += [Tool(aid, aid, is_on=aid in now.aids) for aid in aids]
    if now.task is Task.READ:
        tools.append(_tool(Deed.READ, now))
    if now.task is not None:
        tools.append(_tool(Deed.ANSWER, now))
    if now.is_tried:
        tools.append(_tool(Deed.UNDO, now))
    tools += [_tool(Deed.WATCH, now), _tool(Deed.BLACK, now)]
    return tools if now.task is None else [*tools, _tool(Deed.CLEAR, now)]


def _tool(deed: Deed, now: Moment) -> Tool:
    match deed:
        case Deed.TOGGLE:
            return Tool(deed, "pause" if now.runs else "play", is_on=now.runs)
        case Deed.SPEED:
            return Tool(deed, "fast" if now.speed > 1 else "slow", is_on=now.speed != 1)
        case Deed.ANSWER:
            return Tool(deed, deed, is_on=now.is_told)
        case Deed.TYPE:
            return Tool(deed, deed, is_on=now.typed.is_open)
    return Tool(deed, deed)


def bar_buttons(
    tools: Sequence[Tool], places: Places, words: Words, do: Callable[[BoardAct], object]
) -> list[Button]:
    """The bar's buttons, in the middle of each row."""
    abreast = -(-len(tools) // places.bar_rows)
    size = min(places.bar_size, (places.across - 2) / abreast - _GAP)
    buttons = []
    for index, tool in enumerate(tools):
        row, column = divmod(index, abreast)
        count = min(abreast, len(tools) - row * abreast)
        left = (places.across - count * (size + _GAP) + _GAP) / 2 + column * (size + _GAP)
        top = places.bar_top + row * (places.bar_size + _GAP)
        place = places.rect(left, top, size, size)
        name = words.text(f"board.{tool.sign}") if tool.sign else ""
        buttons.append(
            Button(
                place, partial(do, tool.act), tool.text, sign=tool.sign, name=name,
                style=Style.CHOICE, step=2, chosen=tool.is_on,
            )
        )  # fmt: skip
    return buttons


def way_in_button(places: Places, words: Words, do: Callable[[BoardAct], object]) -> Button:
    """The way to the agendas on an empty board."""
    act, name = partial(do, Deed.AGENDAS), words.text("board.agenda")
    return Button(places.way_in, act, name, sign=Deed.AGENDAS, style=Style.CHOICE, step=3)


def answer_buttons(
    question: Question, places: Places, words: Words, do: Callable[[BoardAct], object]
) -> list[Button]:
    """Two large buttons with the answers to a question, each with its key."""
    buttons = []
    for index, deed in enumerate(question.answers):
        said, place = words.text(f"board.{deed}"), places.answer(index)
        button = Button(place, partial(do, deed), f"{index + 1}  {said}", name=said)
        button.style, button.step = Style.CHOICE, 3
        buttons.append(button)
    return buttons
