"""Paints the lesson screen: the sum, the sentence, the card with the rule, the progress."""

import pygame

from frame.course.attempts import Origin
from frame.course.runner import Stage
from frame.language.numbers import grouped
from frame.language.printed import printed, printed_parts
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked
from frame.practice.written import unused_line, written_lines
from frame.screens.lesson.asked import paint_asked, paint_call, paint_own, paint_rungs
from frame.screens.lesson.card import paint_card, shows_card
from frame.screens.lesson.places import Places
from frame.screens.lesson.scene import Scene
from frame.screens.parts.columns import paint_sum
from frame.screens.parts.names import paint_names
from frame.screens.parts.sentence import paint_sentence
from frame.screens.parts.written import paint_written
from frame.technique.expression import Sum
from frame.view.ashore import moved_by
from frame.view.pose import pose_of
from frame.view.scene_picture import paint_scene
from frame.view.things import number_on, number_place, paint_things, quay_in
from frame.view.widgets import Brushes, paint_string, paint_tick


def paint(scene: Scene, brushes: Brushes) -> None:
    """Paint all but the buttons."""
    places = scene.places
    _paint_header(scene, brushes, places)
    if scene.guide.sight.has_field:
        scene.field.paint(brushes.surface)
        _paint_place_names(scene, brushes)
        _paint_written(scene, brushes, places)
        _paint_story(scene, brushes)
    elif scene.guide.sight.is_pictured:
        _paint_picture(scene, brushes)
    else:
        paint_own(scene, brushes)
        if places.story.w:
            _paint_picture(scene, brushes)
    _paint_side(scene, brushes, places.side)
    _paint_progress(scene, brushes, places)


def _paint_story(scene: Scene, brushes: Brushes) -> None:
    """What the beads stand for, with the number that it says; else the picture of the lesson."""
    shore, lesson, field = scene.shore, scene.guide.runner.lesson, scene.field
    if scene.places.story.w and not brushes.needs(scene.places.story):
        return
    if shore is None or lesson.thing is None:
        _paint_picture(scene, brushes)
        return
    rest = pose_of(field.frame)
    hints = () if field.is_moving else field.hints
    lit = [moved_by(move, rest, field.frame.units) for move in hints]
    wanted = scene.guide.sight.wanted
    paint_things(
        brushes, shore, lesson.thing, field.pose, frozenset().union(*lit),
        pose_of(wanted) if wanted is not None else None,
    )  # fmt: skip
    number = number_on(shore, field.pose)
    if not number and scene.guide.runner.stage is Stage.WORK:
        return  # A number to be set stands at the head: there is but one.
    brushes.text(str(number), number_place(shore, scene.unit), 3, bold=True, align="centre")


def _paint_picture(scene: Scene, brushes: Brushes) -> None:
    """The picture of the lesson, or at its end that of the end, where there is room for it: on the
    quay of what can be counted, or on one of its own."""
    place, lesson = scene.picture, scene.guide.runner.lesson
    is_end = scene.guide.runner.stage is Stage.END
    names = lesson.end.scene if is_end else scene.scenery
    if place is None or not names or not brushes.needs(place):
        return
    quay = None
    if place == scene.places.story:
        quay = quay_in(place, scene.unit)
        place = pygame.Rect(place.topleft, (place.w, quay.place.bottom - place.top))
    paint_scene(
        brushes.surface, brushes.pictures, brushes.theme, names, place, is_end=is_end, quay=quay
    )


def _paint_written(scene: Scene, brushes: Brushes, places: Places) -> None:
    has_keys = scene.guide.runner.stage is Stage.ANSWER and scene.is_wide and not scene.has_row
    is_untouched = scene.work is not None and scene.work.finished and not scene.work.touches
    if scene.work is not None and places.written.h and not has_keys and not is_untouched:
        lines, unused = written_lines(scene.work), unused_line(scene.work)
        words = scene.room.words
        paint_written(brushes, places.written, scene.field, lines, words, unused=unused)


def _paint_header(scene: Scene, brushes: Brushes, places: Places) -> None:
    work, learned = scene.work, scene.guide.sight.learned
    exercise = work.exercise if work is not None else learned.exercise if learned else None
    kind = exercise.kind if exercise is not None else None
    if exercise is not None and exercise.asked is not Asked.SHOWN:
        paint_asked(scene, brushes, places.sum)
    elif exercise is not None and kind is Kind.SUM and scene.shows_sum:
        parts = printed_parts(exercise.sum, scene.room.words)
        term = None if work is None or exercise.is_silent else work.term
        paint_sum(brushes, places.sum, parts, term)
    elif exercise is not None and kind is Kind.SET and scene.guide.feedback.shows_number:
        brushes.text(printed(exercise.number), places.sum, 3, bold=True)
    else:
        brushes.text(scene.guide.runner.lesson.title, places.sum, 2, bold=True)
    line = scene.guide.line
    if line is not None:
        colour = brushes.theme.ink if scene.guide.said else brushes.theme.soft_ink
        place = places.line.copy()
        if scene.is_spoken:
            place.left = places.speaker.right + round(scene.unit)
            place.w = places.line.right - place.left
        paint_sentence(scene.room, brushes, line.show, place, colour)


def _paint_place_names(scene: Scene, brushes: Brushes) -> None:
    field = scene.field
    if not scene.room.settings.place_names or len(field.frame.digits) == 1:
        return
    top, height = field.box.bottom + round(0.5 * scene.unit), round(4 * scene.unit)
    if scene.is_wide:
        height = min(height, scene.places.buttons.top - top)
    learned = scene.guide.sight.learned
    worked = scene.work or learned
    is_one_number = worked is None or isinstance(worked.exercise.sum, Sum)
    band = pygame.Rect(0, top, 0, height)
    paint_names(brushes, field, band, is_one_number=is_one_number)


def _paint_progress(scene: Scene, brushes: Brushes, places: Places) -> None:
    runner, work = scene.guide.runner, scene.work
    if not scene.origin.is_counted:
        return
    is_on_ladder = work is not None and not work.exercise.own and not runner.is_set_told_at_end
    if scene.origin is Origin.SET and is_on_ladder and work is not None:
        paint_rungs(scene, brushes, places.string, work.exercise.rung)
    else:
        done = runner.done - runner.left_out
        paint_string(brushes, scene.room.painter, places.string, done, runner.total)
    if runner.stage is not Stage.END and scene.origin is not Origin.TODAY:  # It may end before.
        count = min(runner.done + 1, runner.total)
        text = scene.room.words.text("lesson.step_count", done=count, all=runner.total)
        brushes.text(text, places.count, 0, soft=True, align="right")


def _paint_side(scene: Scene, brushes: Brushes, side: pygame.Rect) -> None:
    runner, work = scene.guide.runner, scene.work
    if not brushes.needs(side) and not brushes.needs(scene.places.buttons):
        return
    if runner.stage is Stage.ANSWER:
        box = scene.places.answer
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        _paint_answer(scene, brushes, box)
    elif runner.stage is Stage.PRESENT:
        paint_call(scene, brushes, side)
    elif runner.stage is Stage.DONE and work is not None:
        if work.right and scene.origin.is_marked and not runner.is_set_told_at_end:
            _paint_done(scene, brushes)
    elif work is not None and scene.origin.is_counted and shows_card(work):
        paint_card(scene, brushes, side, work)
    if runner.stage is Stage.DEMO:
        _paint_watch(scene, brushes, scene.places.buttons)


def _paint_answer(scene: Scene, brushes: Brushes, box: pygame.Rect) -> None:
    """What is typed; what was given and is not right stands there with a dashed edge until then."""
    answer = scene.guide.answer
    shown = answer.typed or answer.refused
    if answer.refused and not answer.typed:
        brushes.dashes(box, brushes.theme.mending)
    inner = box.inflate(-round(scene.unit), 0)
    text = grouped(shown) if shown else "?"
    brushes.line(text, inner, 3, least=0, bold=True, align="centre")


def _paint_done(scene: Scene, brushes: Brushes) -> None:
    """The tick, close to the beads that were looked at."""
    box = scene.field.box
    place = pygame.Rect(0, 0, round(14 * scene.unit), round(14 * scene.unit))
    if scene.is_wide or scene.places.is_stacked:
        place.center = scene.places.side.center
        paint_tick(brushes, place)
        return
    place.centery = round(scene.field.layout.beam_box.centre[1])
    if scene.room.settings.left_handed:
        place.right = box.left - round(4 * scene.unit)
    else:
        place.left = box.right + round(4 * scene.unit)
    paint_tick(brushes, place)


def _paint_watch(scene: Scene, brushes: Brushes, side: pygame.Rect) -> None:
    """While the tool moves beads: an eye, where the buttons stand otherwise."""
    size = round(7 * scene.unit)
    sign = brushes.pictures.get("icon-eye", size, brushes.theme.soft_ink)
    at = sign.get_rect(bottomleft=side.bottomleft)
    brushes.surface.blit(sign, at)
    beside = pygame.Rect(at.right + round(2 * scene.unit), at.top, side.w, at.h)
    beside.w = side.right - beside.left
    brushes.text(scene.room.words.text("lesson.watch"), beside, 1, soft=True, bold=True)
