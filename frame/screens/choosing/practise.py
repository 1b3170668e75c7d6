"""What to practise: what is usual for this learner stands ready, the sets that they keep by name,
and papers; the rest behind one button."""

from collections.abc import Sequence

import pygame

from frame.app import Change, Pop, Push
from frame.course.course import LessonEntry
from frame.language.lines import Line
from frame.learner.kept_sets import KeptSet
from frame.learner.settings import Age
from frame.practice.choices import Choices
from frame.practice.drawing import ExerciseError
from frame.practice.why import why_line
from frame.room import Room
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.named_sets import KeptSets, can_begin, set_tickets
from frame.screens.choosing.shown_sets import ShownSet, drawing_of, shown_set
from frame.screens.choosing.usual import choices_of, kept_sets, usual
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import begin_set, keep_choices, known_facts
from frame.screens.lesson.screen import LessonScreen
from frame.screens.paper.papers import PapersPage
from frame.screens.parts.outcome import Left, NextGiven
from frame.screens.parts.tickets import Ticket, TicketPage
from frame.view.widgets import Brushes, Button, Style


class PractiseScreen(TicketPage):
    """One wide button that begins what is usual, a ticket for each kept set, and *more*."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, "practise.title")
        self.said: Line | None = None
        self._look()

    def _look(self) -> None:
        """See what is usual now."""
        self.usual = usual(self.room)
        self.ready: ShownSet | None = None
        if self.usual.can_be_asked(known_facts(self.room)):
            self.ready = shown_set(self.room, self.usual)

    @property
    def greeting(self) -> Line:
        """What was done, the title, and what stands ready."""
        line = self.room.words.line
        title = line("practise.title")
        ready = self.ready.spoken if self.ready else line("practise.first").speak
        said = [self.said.speak] if self.said else []
        return Line(title.show, " ".join((*said, f"{title.speak}.", ready)))

    def resumed(self, result: object) -> Change | None:
        """A set is over, or was left; or others were chosen, named or let go. What a tutor gave may
        be wanted next, which home knows."""
        left = result._asdict() if isinstance(result, Left) else None
        self.said = self.room.words.line("practise.left", **left) if left else None
        self._look()
        self.rearrange()
        return Pop(result) if isinstance(result, NextGiven) else None

    def leave(self) -> None:
        """What was chosen is kept for another day."""
        keep_choices(self.room)

    # How it is laid out

    @property
    def area(self) -> pygame.Rect:
        """Where tickets hang: higher, where nothing is told above them."""
        top = 39 if self._told else 32
        return self.band(top, 77 - top)

    @property
    def _main(self) -> pygame.Rect:
        """The wide button: in the middle, where no tickets hang."""
        return self.band(14 if kept_sets(self.room) else 26, 15)

    def tickets(self) -> Sequence[Ticket]:
        """A ticket for each kept set."""
        return set_tickets(self.room, self.begin_kept)

    def arrange(self) -> None:
        """What stands ready, the tickets, and what leads further."""
        words = self.room.words
        if self.ready:
            drawing = drawing_of(self.room, self.ready.card)
            is_young = self.room.settings.age is Age.YOUNG
            text = self.ready.short if is_young else self.ready.title.show
            main = Button(
                self._main, self._begin_usual, text, name=self.ready.spoken,
                style=Style.MAIN, step=2, drawing=drawing,
            )  # fmt: skip
        else:
            text = words.text("home.start", title=self._first_lesson.title)
            main = Button(self._main, self._open_first, text, sign="next", style=Style.MAIN, step=2)
        self.buttons.append(main)
        super().arrange()
        self.buttons += self.speaker(self.corner)
        papers = self.band(79, 9)
        wide = min(round(30 * self.unit), round(0.36 * papers.w))
        more = papers.move(papers.w - wide, 0)
        more.w = papers.w = wide
        self.buttons.append(Button(more, self._more, words.text("practise.more")))
        if self.room.settings.age is not Age.YOUNG or self.room.settings.all_open:
            self.buttons.append(Button(papers, self._papers, words.text("paper.open")))
        if kept_sets(self.room):
            change = pygame.Rect(
                more.left - more.h - round(2 * self.unit), more.top, more.h, more.h
            )
            self.buttons.append(Button(change, self._change, sign="pencil", style=Style.SIGN))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what the main button asks more exactly, and the rails."""
        self.paint_title(brushes, self.room.words.text("practise.title"))
        note = self._main.move(0, self._main.h + round(self.unit))
        note.h = round(8 * self.unit)
        brushes.text(self._told, note, 1, soft=self.said is None)
        self.paint_rails(brushes)

    @property
    def _told(self) -> str:
        """What was done last, and what stands ready, which a picture and the voice tell the
        young."""
        words, said = self.room.words, self.said.show if self.said else ""
        if self.room.settings.age is Age.YOUNG:
            return said
        if self.ready is None:
            return said or words.text("practise.first")
        why = self.usual.why(self.room.ladder, self.room.settings.conventions)
        told = why_line(why, words) if why is not None else None
        return " ".join(filter(None, (said, self.ready.detail.show, told.show if told else "")))

    # What is done

    def _begin_usual(self) -> Change | None:
        return self._begin(self.usual)

    def begin_kept(self, one: KeptSet) -> Change | None:
        """Begin a kept set, where what it asks for is known."""
        choices = choices_of(self.room, one)
        if choices is None or not can_begin(self.room, one):
            self._tell(self.room.words.line("practise.unknown"))
            return None
        return self._begin(self.usual.asking(choices))

    def _begin(self, choices: Choices) -> Change | None:
        try:
            keeping = begin_set(self.room, choices)
        except ExerciseError:
            self._tell(self.room.words.line("practise.none"))
            return None
        self.room.choices = choices
        keep_choices(self.room)
        return Push(LessonScreen(self.room, keeping))

    def _tell(self, line: Line) -> None:
        """Have this below the main button, and heard."""
        self.said = line
        self.room.say(line)
        self.rearrange()

    @property
    def _first_lesson(self) -> LessonEntry:
        return self.room.course.lessons[0]

    def _open_first(self) -> Change:
        return Push(LessonScreen(self.room, Keeping.begin(self.room, self._first_lesson.id)))

    def _more(self) -> Change:
        return Push(AllChoices(self.room))

    def _papers(self) -> Change:
        return Push(PapersPage(self.room))

    def _change(self) -> Change:
        return Push(KeptSets(self.room))
