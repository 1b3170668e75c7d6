"""Tapping: half a minute of beads that are lit one after another, from which the pace of a hand is
known.

Nothing is right or wrong in it. No clock is seen and nothing is counted; a bead is lit until it is
moved, and whoever leaves has lost nothing.
"""

from frame.app import Change
from frame.language.lines import Line
from frame.learner.learners import new_id
from frame.learner.settings import Age
from frame.practice.pace import Tapping, is_due, is_enough, pace_of
from frame.room import Room
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.page import Page
from frame.screens.parts.sentence import paint_sentence
from frame.technique.beads import BeadMove, Frame, Stroke
from frame.view.inputs import Input, Key, Lost
from frame.view.widgets import Brushes, Button, Style

_RODS = 3
"""Few enough for large beads, and enough for a hand to have some way to go."""
_SINGLE = (1, -1, 5, -5)


def offer_tapping(room: Room) -> bool:
    """Whether tapping is offered now. That it was is kept, so that nobody is asked often."""
    learner = room.learner
    if learner is None or room.settings.age is Age.YOUNG:
        return False
    never: tuple[Tapping, ...] = ()
    tappings = room.keeper.read(lambda store: store.tappings(learner), never)
    attempts = room.keeper.read(lambda store: store.count_attempts(learner), 0)
    is_offered = is_due(tappings, attempts, room.now().timestamp())
    if is_offered:
        _keep(room, None)
    return is_offered


def _keep(room: Room, pace: float | None) -> None:
    sitting, now, one = room.sitting, room.now(), new_id()
    if sitting is not None:
        room.keeper.write(lambda store: store.keep_tapping(one, sitting.id, pace, now))


class TappingScreen(KeyedPanel, Page):
    """A frame with a bead that is lit, and another one when that was moved."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, Frame.cleared(_RODS))
        self.taps: list[float] = []
        self.is_over = False
        self._last: BeadMove | None = None
        self._lit_at: float | None = None
        self._light()

    @property
    def greeting(self) -> Line:
        """What there is to do, then thanks."""
        return self.room.words.line("tapping.thanks" if self.is_over else "tapping.begin")

    @property
    def lit(self) -> BeadMove | None:
        """The move of the bead that is lit; None while the last one is on its way, and at the
        end."""
        return next(iter(self.field.hints), None)

    def _light(self) -> None:
        """Light another bead, never one that was moved just now."""
        frame = self.field.frame
        rods = range(frame.lowest, frame.highest + 1)
        moves = [BeadMove(rod, change) for rod in rods for change in _SINGLE]
        back = self._last.inverse if self._last else None
        may = [move for move in moves if frame.can(move) and move != back]
        self.field.hint([self.room.random.choice(may)])

    def arrange(self) -> None:
        """The frame, and at the end the way out."""
        self.field.painter = self.room.painter
        self.field.place(self.band(28, 46))
        if self.is_over:
            text = self.room.words.text("lesson.leave")
            place = self.band(77, 9 * self.room.button_scale)
            self.buttons.append(Button(place, self.back, text, sign="beads", style=Style.MAIN))

    def paint_rest(self, brushes: Brushes) -> None:
        """What there is to do, and the frame."""
        self.paint_title(brushes, self.room.words.text("tapping.title"))
        ink = brushes.theme.ink
        paint_sentence(self.room, brushes, self.greeting.show, self.band(13, 13), ink)
        self.field.paint(brushes.surface)

    def handle(self, event: Input) -> Change | None:
        """Keys move beads, too. While another window is before it no hand is at work."""
        if isinstance(event, Lost):
            self._lit_at = None
        if isinstance(event, Key) and self.take_bead_key(event):
            self.touch_up_fields()
            return None
        return super().handle(event)

    def touch(self, stroke: Stroke) -> None:
        """The bead that is lit moves, and that took so long. Another glides back; then what it took
        tells nothing."""
        now = self.room.seconds()
        if self.lit is None or stroke != (self.lit,):
            self.field.bounce(stroke, now)
            self._lit_at = None
            return
        if self._lit_at is not None:
            self.taps.append(now - self._lit_at)
        self._last, self._lit_at = self.lit, None
        self.field.hint(())
        self.field.show(self.field.frame.apply(self._last), now)
        if is_enough(self.taps):
            self._end()

    def _end(self) -> None:
        self.is_over = True
        pace = pace_of(self.taps)
        if pace is not None:
            _keep(self.room, pace)
            if not self.room.is_unsaved:  # Else the record lacks what waits to be written.
                self.room.fold_anew()
        self.rearrange()
        self.greet()

    def rest(self, now: float) -> Change | None:
        """When the last bead is at rest the next one is lit."""
        if self.lit is None and not self.is_over:
            self._light()
            self._lit_at = now
            self.touch_up_fields()
        return None

    def wakes_in(self, now: float) -> float | None:
        """At once where a bead is to be lit."""
        return 0 if self.lit is None and not self.is_over else super().wakes_in(now)
