"""What was given to do: what of it is told on the home, its picture, and the screen on which it is
done."""

from functools import partial

import pygame

from frame.app import Screen
from frame.language.lines import Line
from frame.learner.assigned import Assigned, Work
from frame.learner.kept_sets import KeptSet
from frame.practice.choices import Choices
from frame.practice.drawing import ExerciseError
from frame.room import Room
from frame.screens.choosing.given_sheet import sheet_screen
from frame.screens.choosing.shown_sets import drawing_of, shown_set
from frame.screens.choosing.usual import choices_of, usual
from frame.screens.lesson.given_now import Given, given_title, waits
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import begin_set
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.today import begin_today
from frame.view.widgets import Brushes, Drawing

_SIGNS = {Work.LESSON: "icon-next", Work.SHEET: "icon-slip", Work.DUE: "icon-today"}
_SHARE = 0.62
"""Of the side of its card: the side of a sign."""


def given_line(room: Room, now: Given) -> Line | None:
    """The first thing that is open, and how many more there are; on the day on which the last is
    done, that. None where there is nothing, or all of it waits for a lesson."""
    words, today = room.words, room.now().astimezone().date()
    if now.open:
        more = len(now.open) + len(now.waiting) - 1
        key = "given.first_of" if more else "given.one"
        return words.line(key, title=given_title(room, now.open[0]), count=more)
    is_fresh = any(one.done and one.done.astimezone().date() == today for one in now.done)
    return words.line("given.all_done") if is_fresh and not now.waiting else None


def given_drawing(room: Room, one: Assigned) -> Drawing:
    """Its picture, as the ladder stands now."""
    if one.work is Work.SET:
        return drawing_of(room, shown_set(room, _choices(room, one)).card)
    return sign_card(_SIGNS[one.work])


def given_screen(room: Room, one: Assigned) -> Screen | Line:
    """Where it is done, or why it can't be yet."""
    if waits(room, one):
        return room.words.line("given.first")
    match one.work:
        case Work.LESSON:
            return LessonScreen(room, Keeping.begin(room, one.text))
        case Work.SET:
            return _set_screen(room, one)
        case Work.SHEET:
            return sheet_screen(room, one.text)
        case Work.DUE:
            return begin_today(room)


def _set_screen(room: Room, one: Assigned) -> Screen | Line:
    choices = usual(room).asking(_choices(room, one))
    try:
        return LessonScreen(room, begin_set(room, choices, one.text))
    except ExerciseError:
        return room.words.line("practise.none")


def _choices(room: Room, one: Assigned) -> Choices:
    return choices_of(room, KeptSet(one.id, "", one.asked)) or Choices()


def sign_card(sign: str) -> Drawing:
    """What draws a card with one sign on it."""
    return partial(_paint_sign, sign)


def _paint_sign(sign: str, brushes: Brushes, place: pygame.Rect) -> None:
    brushes.box(place, brushes.theme.card, radius=max(2, place.w // 12))
    ink = brushes.theme.right if sign == "icon-tick" else brushes.theme.ink
    picture = brushes.pictures.get(sign, round(_SHARE * place.w), ink)
    brushes.surface.blit(picture, picture.get_rect(center=place.center))
