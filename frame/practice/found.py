"""How far somebody imagines the frame, as choices to practise with."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from frame.practice.choices import Choices, Sight
from frame.practice.flashing import FlashSetting
from frame.practice.imagining import Found, Step, worked_families
from frame.practice.rungs import Asked


def choices_found(before: Choices, found: Mapping[Asked, Found], known: Collection[str]) -> Choices:
    """The choices as they were `before`, each way of asking at the step that was found of it."""
    choices = before
    for asked in (Asked.FLASHED, Asked.CALLED, Asked.SHOWN):  # The first one is open at the end.
        one = found.get(asked)
        if one is not None and one.step is not None:
            choices = _at(choices, asked, one.step, known)
    return choices


def _at(choices: Choices, asked: Asked, step: Step, known: Collection[str]) -> Choices:
    open_ = replace(choices, asked=asked)
    match asked:
        case Asked.FLASHED:
            return open_.choose(setting=FlashSetting(step.digits, step.rows, step.pace))
        case Asked.CALLED:
            return open_.choose(
                digits=step.digits, rows=step.rows, pace=step.pace, sight=Sight.NONE
            )
        case Asked.SHOWN:
            family = worked_families(known)[-1]
            return open_.choose(
                family=family, rung=step.rung, digits=step.digits, rows=step.rows, own=False
            )
