"""The buttons of a lesson with what they do, and the keys of an answer."""

from collections.abc import Callable, Iterator, Mapping

from frame.course.answer import is_one_digit, signs_of
from frame.language.lines import Line
from frame.screens.lesson.controls import SIGNS, Control, controls_of, keys_place
from frame.screens.lesson.scene import Scene
from frame.screens.parts.keypad import keypad, keys_in_rows, keys_in_two_rows
from frame.view.widgets import Button, Style


def buttons_of(scene: Scene, acts: Mapping[Control, Callable[[], object]]) -> Iterator[Button]:
    """The buttons for what the lesson waits for, but the keys of an answer."""
    for control, place, style, step in controls_of(scene):
        line = _line_of(control, scene)
        text = "" if style is Style.SIGN else line.show
        sign, name = SIGNS.get(control, ""), line.speak if text else ""
        yield Button(place, acts[control], text, sign=sign, name=name, style=style, step=step)


def _line_of(control: Control, scene: Scene) -> Line:
    if control is Control.FOLLOWING and scene.following is not None:
        return scene.following
    return scene.room.words.line(control)


def answer_keys(
    scene: Scene, type_sign: Callable[[str], object], give: Callable[[], object]
) -> list[Button]:
    """The keys of an answer. One that is shown looks like the main thing to do; where a digit is
    all of the answer, none gives it."""
    runner, shown = scene.guide.runner, scene.guide.sight.shown_sign
    is_narrow = scene.is_wide or scene.places.is_stacked
    keys = keys_in_two_rows if is_narrow else keypad
    keys = keys_in_rows if scene.has_row else keys
    done = None if is_one_digit(runner) else give
    buttons = keys(keys_place(scene), scene.unit, type_sign, done, signs_of(runner))
    for button in buttons:
        if button.text and button.text == shown:
            button.style = Style.MAIN
    return buttons
