"""A lesson shown: what its guide has is seen on the frame and heard, as it stands."""

from functools import cached_property, partial

from frame.app import Change, Pop
from frame.course.feedback import Feedback
from frame.course.guide import Guide
from frame.course.quiet import Quiet
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.learner.assigned import Work
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.controls import SIGNS, Control, Standing, standing_of
from frame.screens.lesson.fault import answers_of
from frame.screens.lesson.given_now import FollowingGiven, following_given
from frame.screens.lesson.hand import lose_hand
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.painting import paint
from frame.screens.lesson.places import is_wide
from frame.screens.lesson.scene import Scene
from frame.screens.parts.calling import Calling
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.outcome import Next
from frame.view.geometry import Bead
from frame.view.motion import MOVE_SECONDS
from frame.view.painter import FADES, Appearance
from frame.view.things import RING_REACH, number_on, number_place
from frame.view.widgets import Brushes

DEAF_SECONDS = 0.6
"""What comes up where a button was pressed: a second press of that is not meant for it."""
_COMES_UP = (Stage.TELL, Stage.WORK, Stage.PRESENT, Stage.ANSWER, Stage.DONE, Stage.END)


class GuidedPanel(KeyedPanel):
    """A lesson, or a set practised, from where the learner left it. Subclasses arrange the buttons,
    take what the learner does and let time pass; then they `show`."""

    def __init__(self, room: Room, keeping: Keeping) -> None:
        super().__init__(room, keeping.runner.frame)
        self.keeping = keeping
        self.guide = Guide(
            keeping.runner,
            self.feedback(),
            is_lesson=keeping.origin.is_lesson,
            eyes_shut=room.settings.eyes_shut,
            sure=room.ladder.sure,
        )
        self.dues = self.guide.dues
        self.calling: Calling | None = None
        self.following: FollowingGiven | None = None
        self.field.recentre(room.hand_at)
        self._entered = self._told = 0
        self._pose, self._moves = self.field.pose, False
        self._arranged: Standing | None = None
        self.guide.settle(room.seconds())

    def feedback(self) -> Feedback:
        """What makes the sentences."""
        kind = Feedback if self.keeping.origin.is_marked else Quiet
        return kind(self.room.words, self.room.listener, partial(answers_of, self.room))

    @property
    def runner(self) -> Runner:
        """The lesson's course."""
        return self.keeping.runner

    @property
    def work_done(self) -> tuple[Work, str] | None:
        """The work that is done at the end, as a tutor may have given it."""
        return self.keeping.ticks

    def follow_given(self) -> Change | None:
        """To what follows of what a tutor gave."""
        return Pop(self.following.asks) if self.following else None

    def next_lesson(self) -> Change:
        """Home, and from there to the next lesson."""
        return Pop(Next(self.runner.lesson.id))

    @cached_property
    def is_wide(self) -> bool:
        """Whether the frame takes all of the window's width."""
        return is_wide(self.runner.lesson.steps)

    @property
    def scene(self) -> Scene:
        """What is arranged and painted."""
        return Scene(
            self.room, self.guide, self.field, self.calling, self.keeping.origin, self.size,
            self.is_wide, tuple(button.place for button in self.buttons),
            following=self.following.line if self.following else None,
        )  # fmt: skip

    def resized(self, size: tuple[int, int]) -> None:
        """Lay everything out; in a window of another size the hand is looked for again."""
        if self.size not in ((0, 0), size):
            lose_hand(self.room, self.field)
        super().resized(size)

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, the sentence, the frame, the card, the string of progress."""
        paint(self.scene, brushes)

    def touch_up_fields(self) -> None:
        """What the beads stand for comes and goes with them, and so does its number; what is lit
        is so while they rest."""
        before, pose, moves = self._pose, self.field.pose, self.field.is_moving
        if moves is not self._moves and self.size[1]:
            self._moves = moves
            self.touch_up(self.scene.places.story)
        if pose is not before and self.size[1]:
            self._pose = pose
            shore = self.scene.shore
            if shore is not None and len(before.rods) == len(pose.rods):
                reach = round(RING_REACH * self.unit)
                for place in shore.changed(before, pose):
                    self.touch_up(place.inflate(reach, reach))
                if number_on(shore, before) != number_on(shore, pose):
                    self.touch_up(number_place(shore, self.unit))
        super().touch_up_fields()

    @property
    def clicks(self) -> bool:
        """Whether beads are heard when they come to rest: unseen ones are heard when touched."""
        return not self.guide.sight.keeps_back

    def show(self, now: float, seconds: float = MOVE_SECONDS) -> None:
        """Let the beads go where the lesson has them, and show and speak what stands there."""
        if self.field.frame != self.guide.sight.frame:
            self.field.show(self.guide.sight.frame, now, seconds)
        self.sync(now)

    def sync(self, now: float) -> None:
        """Show what stands there; arrange it anew where the lesson waits for something else."""
        standing = standing_of(self.scene)
        if standing == self._arranged:
            self._show_marks()
            self._speak(now)
            return
        before, self._arranged = self._arranged, standing
        if self.guide.entered != self._entered:
            self._come_up(now)
        self._point_on(can_point=False)
        self.lay_out()  # It arranges, and so comes here once more for the marks.
        for place in self.scene.places.between_exercises:
            self.touch_up(place)
        if not (standing.has_field and before is not None and before.has_field):
            self.touch_up()  # What stands in the place of a frame is no part of the lesson's.

    def _show_marks(self) -> None:
        """What is marked and seen of the frame, and what stands beside it."""
        guide, veil = self.guide, self.guide.sight.veil
        self.field.point(guide.sight.pointed)
        self.field.hint(guide.sight.hinted)
        self.field.mend(guide.sight.mending)
        self.field.count([(one.rod, Bead(one.bead)) for one in guide.sight.counting.seen])
        self._point_on()
        look = Appearance(
            tint=self.room.settings.bead_tint, opacity=FADES[veil.pale], faded=veil.faded,
            covered=veil.covered, traces=veil.traces,
        )  # fmt: skip
        self.field.appear(look, blind=veil.covered)
        self.touch_up_fields()
        for place in self.scene.places.changing:
            self.touch_up(place)
        if not guide.sight.has_field:
            self.touch_up(self.scene.paper)

    def _point_on(self, can_point: bool = True) -> None:
        """The button that goes on is ringed where it is pointed at; before all is laid out anew
        none is, as a ring reaches beyond what is painted anew then."""
        points_on = can_point and self.guide.sight.points_on
        for index, button in enumerate(self.buttons):
            is_pointed = points_on and button.sign == SIGNS[Control.GO_ON]
            if button.pointed != is_pointed:
                button.pointed = is_pointed
                self.touch_up_button(index)

    def _come_up(self, now: float) -> None:
        """The lesson waits for something else."""
        self._entered = self.guide.entered
        if self.runner.stage in _COMES_UP:
            self.deaf_until = now + DEAF_SECONDS
        if self.runner.stage is Stage.WORK:
            self.field.focus_on(None if self.field.focus is None else 0)
        elif self.runner.stage is Stage.END:
            self.field.focus_on(None)
            self.keeping.keep()  # With it something may wait for no lesson any more.
            if self.work_done is not None:
                self.following = following_given(self.room, self.work_done)
        work = self.runner.work
        if self.runner.stage is Stage.PRESENT and work is not None:
            is_called = work.exercise.asked is Asked.CALLED
            self.calling = Calling.of(self.room, work.exercise) if is_called else None
        is_right = work is not None and work.right and work.exercise.asked is Asked.SHOWN
        is_told = is_right and self.keeping.origin.is_marked
        if self.runner.stage is Stage.DONE and is_told:
            self.room.click("right")

    def _speak(self, now: float) -> None:
        """Say what is new; while numbers are called nothing else is said."""
        telling = self.guide.telling
        if self._told != telling.count and not self.scene.is_calling:
            self.guide.pacing.heard(now, self.room.say(telling.line))
        self._told = telling.count
