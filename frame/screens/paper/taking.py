"""A paper is taken: a task at a time, in any order, typed or worked on a frame."""

from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Pop, Push, Replace
from frame.course.next_paper import PaperDesk
from frame.course.paper import Paper
from frame.course.read_off import read_off
from frame.language.lines import Line
from frame.language.printed import sum_line
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.paper.graded import paper_title
from frame.screens.paper.open_tasks import HAND_IN, OpenTasks
from frame.screens.paper.paper_keeping import keep_handed_in, keep_left
from frame.screens.paper.places import Places
from frame.screens.paper.result import PaperResult
from frame.screens.paper.strip import paint_beads, section_tabs, seen_of, strip_buttons
from frame.screens.paper.task import paint_answer, paint_task
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.keypad import ERASE, MINUS, key_sign, keypad
from frame.screens.parts.page import Page
from frame.sheets.recipe import Part
from frame.sheets.sheet import Way
from frame.technique.beads import Frame, Stroke
from frame.technique.expression import Sum
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.reading import plain
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.inputs import Key
from frame.view.widgets import Brushes, Button, Style

_MINUTE = 60.0
_BACK, _ON = (pygame.K_LEFT, pygame.K_UP), (pygame.K_RIGHT, pygame.K_DOWN)


class Due(StrEnum):
    """What the screen waits for."""

    MINUTE = "minute"


class TakingScreen(KeyedPanel, Page):
    """The task, its answer, and all numbers in a strip. Whoever leaves finds it again."""

    def __init__(self, room: Room, learner: Learner, paper: Paper, desk: PaperDesk) -> None:
        self.learner, self.desk = learner, desk
        self.paper = paper.go_on(room.seconds())
        self.has_frame = self._may_have_frame and desk.choices.on_beads
        self.frames: dict[int, Frame] = {}
        self.plan = self._plan_of(room)
        self.note: Line | None = None
        super().__init__(room, self.plan.start)
        self.places = self._places
        self.is_over = self.paper.is_over(room.seconds())
        self.is_handed_in = False

    # What it is

    @property
    def _places(self) -> Places:
        sheet = self.paper.sheet
        has_tabs = len(sheet.sections) > 1 and sheet.recipe.part is not Part.WARM_UP
        is_column = isinstance(sheet.tasks[self.paper.at].sum, Sum)
        return Places(self, has_tabs, self.has_frame, is_column)

    @property
    def _may_have_frame(self) -> bool:
        return any(section.way is Way.BEADS for section in self.paper.sheet.sections)

    def _plan_of(self, room: Room) -> Plan:
        task = self.paper.sheet.tasks[self.paper.at]
        return plan_of(task.sum, room.settings.conventions, task.rods)

    @property
    def shown(self) -> BeadField | None:
        """The frame that is seen; None while none is."""
        return self.field if self.has_frame and not self.paper.is_paused else None

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The same, for its beads to glide."""
        return () if self.shown is None else (self.field,)

    @property
    def greeting(self) -> Line:
        """What is told, or what is to be done."""
        line = self.room.words.line
        if self.note is not None:
            return self.note
        if self.paper.is_paused:
            return line("paper.paused")
        return line("paper.work" if self.has_frame else "paper.type")

    @property
    def heard(self) -> Line:
        """The task, unless it is covered, and what is told or to be done."""
        if self.paper.is_paused:
            return self.greeting
        task = self.paper.sheet.tasks[self.paper.at]
        return Line.joined([sum_line(task.sum, self.room.words), self.greeting])

    # How it is laid out

    def arrange(self) -> None:
        """The buttons for what is seen."""
        self._wait()
        places = self.places = self._places
        text, paper, words = self.room.words.text, self.paper, self.room.words
        self.buttons += self.speaker(self.corner)
        if paper.is_paused:
            go_on = Button(places.go_on, self.go_on, text("paper.go_on"), style=Style.MAIN, step=2)
            self.buttons.append(go_on)
            return
        pause = Button(places.pause, self.pause, sign="pause", name=text("paper.pause"))
        self.buttons.append(pause)
        if self._may_have_frame:
            sign, key = ("type", "paper.to_type") if self.has_frame else ("beads", "paper.to_beads")
            self.buttons.append(Button(places.other_way, self.turn, sign=sign, name=text(key)))
        if places.has_tabs:
            tabs = section_tabs(paper, self.go, words)
            self.buttons += self.tabs(places.tabs, tabs, 0, narrow=len(tabs))
        self._arrange_answer(places)
        self.buttons += strip_buttons(paper, places.strip, self.go, words)
        # Last, for Enter means the first main thing to do.
        style = Style.PLAIN if paper.open else Style.MAIN
        self.buttons.append(Button(places.hand_in, self.ask, text("paper.hand_in"), style=style))

    def _arrange_answer(self, places: Places) -> None:
        """What leads to the tasks beside, and the keys, or the frame with its buttons."""
        text, at, last = self.room.words.text, self.paper.at, len(self.paper.texts) - 1
        before = partial(self.go, at - 1) if at else None
        after = partial(self.go, at + 1) if at < last else None
        self.buttons += [
            Button(places.before, before, sign="step_back", name=text("marks.before")),
            Button(places.after, after, sign="step_on", name=text("marks.after")),
        ]
        if not self.has_frame:
            self.buttons += keypad(places.pad, self.unit, self.press_sign, self.enter, MINUS)
            return
        self.field.place(places.frame)
        self.buttons += [
            Button(places.clear, self.clear, text("free.clear")),
            Button(places.take, self.take, text("paper.take"), style=Style.MAIN),
        ]

    # The clock

    def _wait(self) -> None:
        """Look at the clock again with the next minute."""
        now, paper = self.room.seconds(), self.paper
        is_running = paper.is_clocked and not paper.is_paused
        left = _MINUTE - paper.seconds(now) % _MINUTE
        self.dues.put(Due.MINUTE, now + left if is_running else None)

    def rest(self, now: float) -> Change | None:
        """A minute more has passed."""
        if self.dues.take(Due.MINUTE, now):
            self._look_at_clock(now)
            self.rearrange()
        return None

    def _look_at_clock(self, now: float) -> None:
        """Tell once that the minutes are over."""
        was_over, self.is_over = self.is_over, self.paper.is_over(now)
        if self.is_over and not was_over:
            self._tell(self.room.words.line("paper.over", minutes=round(self.paper.minutes)))

    @property
    def clock(self) -> str:
        """The minutes worked, of those there are; empty where nobody wants to know."""
        if not self.paper.is_clocked:
            return ""
        minutes = int(self.paper.seconds(self.room.seconds()) // _MINUTE)
        key = "paper.told.clock_of" if self.paper.minutes else "paper.told.clock"
        if self.is_over:
            key = "paper.told.clock_over"
        return self.room.words.text(key, minutes=minutes, all=round(self.paper.minutes))

    # What is answered

    def press_sign(self, sign: str) -> None:
        """A sign more, or `<` for one less."""
        now, paper = self.room.seconds(), self.paper
        self.paper = paper.erase(now) if sign == ERASE else paper.type(sign, now)
        self.note = None
        self.rearrange()

    def enter(self) -> None:
        """What is typed is the answer: on to the next task without one."""
        before = self.paper.at
        self._come_to(self.paper.on())
        if not self.paper.open:
            self._tell(self.room.words.line("paper.all_answered"))
        elif self.paper.at == before:
            self._tell(self.room.words.line("paper.last_open"))

    def take(self) -> None:
        """What the frame reads is the answer. Of a product or a quotient, whose ones have no one
        rod, it is seen first what was read, and the next one comes when it is taken once more."""
        number = read_off(self.field.frame, self.plan)
        if not number:
            self._tell(self.room.words.line("paper.no_bead"))
            return
        was, self.paper = self.paper, self.paper.put(plain(number), self.room.seconds())
        if self.places.is_column or was.text == self.paper.text:
            self.enter()
            return
        self._tell(self.room.words.line("paper.read", number=number))
        self.rearrange()

    def go(self, at: int) -> None:
        """Go to any task."""
        self._come_to(self.paper.go(at))

    def _come_to(self, paper: Paper) -> None:
        """A task is open, with the frame as it was left there."""
        self.frames[self.paper.at] = self.field.frame
        self.paper, self.note = paper, None
        self.plan = self._plan_of(self.room)
        self._show(self.frames.get(paper.at, self.plan.start))
        keep_left(self.room, self.learner, paper)
        self.rearrange()

    # The frame

    def turn(self) -> None:
        """From the frame to the keys, or back."""
        self.has_frame = not self.has_frame
        choices = self.desk.choices.choose(on_beads=self.has_frame)
        self.desk = self.desk._replace(choices=choices)
        self.rearrange()

    def may_press(self, at: Point) -> bool:
        """Whether a frame is there to be touched."""
        return self.shown is not None and super().may_press(at)

    def touch(self, stroke: Stroke) -> None:
        """Beads move."""
        if self.field.frame.can_all(stroke):
            self._show(self.field.frame.apply_all(stroke))

    def wipe(self, rods: tuple[int, ...]) -> None:
        """The rods are cleared."""
        frame = self.field.frame
        for rod in rods:
            frame = frame.with_digit(rod, 0)
        self._show(frame)

    def clear(self) -> None:
        """All beads away from the beam."""
        self._show(self.plan.start)

    def _show(self, frame: Frame) -> None:
        self.field.show(frame, self.room.seconds())
        self.touch_up_fields()

    # Keys

    def press_key(self, key: Key) -> Change | None:
        """Signs and Enter are for the answer, or keys are for the beads, unless a button has the
        ring."""
        if self.paper.is_paused:
            return super().press_key(key)
        sign = key_sign(key, MINUS)
        if sign and (not self.has_frame or sign in (MINUS, ERASE)):
            self.focus_button(None)
            self.press_sign(sign)
            return None
        if self.has_frame:
            return self._press_for_beads(key)
        if self.focus is None and key.code in (pygame.K_RETURN, pygame.K_KP_ENTER):
            self.enter()
            return None
        if self.focus is None and key.code in (*_BACK, *_ON):
            self.go(self.paper.at + (-1 if key.code in _BACK else 1))
            return None
        return super().press_key(key)

    def _press_for_beads(self, key: Key) -> Change | None:
        if key.code == pygame.K_DELETE:
            self.clear()
        elif self.focus is None and key.code in (pygame.K_RETURN, pygame.K_KP_ENTER):
            self.take()
        elif self.focus is None and key.code in (pygame.K_PAGEUP, pygame.K_PAGEDOWN):
            self.go(self.paper.at + (-1 if key.code == pygame.K_PAGEUP else 1))
        elif self.take_bead_key(key):
            self.touch_up_fields()
        else:
            return super().press_key(key)
        return None

    # How it ends

    def pause(self) -> None:
        """The clock stands still, and the task is covered."""
        self.paper = self.paper.pause(self.room.seconds())
        self._come_or_go()

    def go_on(self) -> None:
        """On with the paper."""
        self.paper = self.paper.go_on(self.room.seconds())
        self._come_or_go()

    def ask(self) -> Change | None:
        """Hand it in; where tasks are open, show once which they are."""
        return Push(OpenTasks(self.room, self.paper)) if self.paper.open else self.hand_in()

    def resumed(self, result: object) -> Change | None:
        """An open task is gone to, or it is handed in as it is."""
        if result == HAND_IN:
            return self.hand_in()
        if isinstance(result, int):
            self.go(result)
        self._look_at_clock(self.room.seconds())
        return None

    def _come_or_go(self) -> None:
        """The task is covered, or seen again."""
        self.note = None
        self.field.cancel(self.room.seconds())
        self.rearrange()
        self.greet()

    def hand_in(self) -> Change:
        """It is over, and kept."""
        handed = self.paper.hand_in(self.room.seconds())
        self.is_handed_in = True
        keep_handed_in(self.room, self.learner, handed)
        return Replace(PaperResult(self.room, handed))

    def back(self) -> Change | None:
        """First it is paused; from there it is left."""
        if self.paper.is_paused:
            return Pop()
        self.pause()
        return None

    def leave(self) -> None:
        """Until it is handed in it waits."""
        left = None if self.is_handed_in else self.paper.pause(self.room.seconds())
        keep_left(self.room, self.learner, left)
        self.room.papers = self.desk._replace(left=left)

    # What is seen

    def _tell(self, line: Line) -> None:
        self.note = line
        self.room.say(line)
        self.rearrange()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the clock, and the task with its answer; or what covers it."""
        places, paper, words = self.places, self.paper, self.room.words
        brushes.text(paper_title(paper.sheet.recipe, words), places.title, 1, bold=True)
        if paper.is_paused:
            brushes.text(self.greeting.show, places.paused, 2, align="centre")
            return
        align = "left" if places.is_upright else "right"
        brushes.text(self.clock, places.clock, 1, soft=True, align=align)
        paint_task(brushes, places.task, paper.sheet.tasks[paper.at].sum, words)
        paint_answer(brushes, places.field, paper.text, has_caret=not self.has_frame)
        if self.has_frame:
            self.field.paint(brushes.surface)
        paint_beads(brushes, self.room.painter, paper, places.strip, places.beads)
        if self.note is not None:
            brushes.text(self.note.show, places.note, 1)
        else:
            brushes.text(self._about, places.note, 0, soft=True)

    @property
    def _about(self) -> str:
        """Which tasks are seen in the strip, and how many have an answer."""
        paper, most = self.paper, len(self.places.strip) - 2
        seen, count = seen_of(paper.sheet, paper.at, most), len(paper.texts)
        return self.room.words.text(
            "paper.told.seen", first=seen.start + 1, last=seen.stop, all=count,
            answered=count - len(paper.open),
        )  # fmt: skip
