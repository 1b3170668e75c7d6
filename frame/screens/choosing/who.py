"""Who is here: a ticket each, told apart by its picture, so that no reading is needed.

A few hang in the order they came: a child who can't read finds the place it knows, and a newcomer
moves nobody. Many hang by name, as in a register, for then a grown-up looks for one of them, or a
child who reads. Which of the two goes by how many there are, and by nothing that changes from day
to day, such as who was here last or how large the window is.
"""

from collections.abc import Sequence
from functools import partial

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.looks import Portrait
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.room import Room
from frame.screens.choosing.newcomer import ChooseAge, ChooseAnimal, animals
from frame.screens.parts.portraits import by_name, called, portrait_name
from frame.screens.parts.tickets import MANY, Ticket, TicketPage
from frame.screens.parts.trouble import saved_text, trouble_text, unsaved_line
from frame.view.inputs import Found, Input
from frame.view.widgets import Button, Style

_NEWCOMER = "newcomer"


class Who(TicketPage):
    """The tickets of everybody who learns here, and one for whoever is new. Where nobody is known
    yet, the animals to choose from."""

    goes_back = False

    def __init__(self, room: Room) -> None:
        super().__init__(room, "who.title")
        self.trouble: Trouble | None = None
        self.removed: Learner | None = None
        self._everybody: tuple[Learner, ...] = ()

    @property
    def note(self) -> str:
        """What is wrong with the learners' file, or what became of a damaged one."""
        words, saved = self.room.words, self.room.store.saved
        if self.room.store.is_damaged:
            return words.text("store.found_damaged")
        if self.trouble is not None:
            return f"{trouble_text(self.trouble, words)} {words.text('store.try_again')}"
        if self.room.is_unsaved:
            return unsaved_line(self.room.keeper, words)
        if saved:
            return saved_text(saved, words)
        return words.text("shared.away") if self.room.sharer.untold is not None else ""

    @property
    def told(self) -> str:
        """Who was removed: below the question, where it moves no ticket."""
        if self.removed is None:
            return super().told
        return self.room.words.text("who.removed", name=self.removed.nickname)

    @property
    def greeting(self) -> Line:
        """The question; before it, that somebody went."""
        words, asked = self.room.words, self.room.words.line(self.question)
        if self.removed is None:
            return asked
        went = words.line("who.removed", name=called(words, self.removed))
        return Line(asked.show, f"{went.speak} {asked.speak}")

    def resumed(self, result: object) -> Change | None:
        """Nobody is here again, unless a newcomer was taken in."""
        self.trouble = None
        self.removed, self.room.removed = self.room.removed, None
        if isinstance(result, Learner):
            self.focus_button(None)  # It was on what led to a newcomer, who has a ticket now.
            return self._home()
        self.room.leave()
        self.rearrange()
        return None

    def renewed(self) -> None:
        """Somebody more may be there, or less, or the shared folder be away."""
        self.rearrange()

    def handle(self, event: Input) -> Change | None:
        """Whoever comes back to the window may have taken in another file by a command."""
        if isinstance(event, Found):
            self.rearrange()
        return super().handle(event)

    def arrange(self) -> None:
        """The tickets; in a corner the tutor's board and the computer's settings."""
        self._everybody = self.room.learners()
        self.question = "who.title" if self._everybody else "who.choose_animal"
        super().arrange()
        corner = self.rect(self.across - 9.5, 3, 8, 8)
        self.buttons.append(Button(corner, self._board, sign="board", style=Style.SIGN))
        beside = self.rect(self.across - 18.5, 3, 8, 8)
        self.buttons.append(Button(beside, self._settings, sign="gear", style=Style.SIGN))

    def tickets(self) -> Sequence[Ticket]:
        """Everybody's, and a new one."""
        everybody, words = self._everybody, self.room.words
        if not everybody:
            return animals(self.room, self._meet)
        if len(everybody) >= MANY:
            everybody = by_name(everybody)
        known = [
            Ticket(one.picture, one.nickname, partial(self._enter, one),
                   portrait_name(words, one.picture))
            for one in everybody
        ]  # fmt: skip
        new = words.text("who.new")
        return [*known, Ticket(_NEWCOMER, new, self._choose, new)]

    def _choose(self) -> Change:
        return Push(ChooseAnimal(self.room, self._meet))

    def _meet(self, portrait: Portrait) -> Change:
        return Push(ChooseAge(self.room, portrait))

    def _board(self) -> Change:
        # The board brings the painting of beads with it, and tickets must be seen before.
        from frame.screens.board.screen import BoardScreen

        return Push(BoardScreen(self.room))

    def _settings(self) -> Change:
        # The settings bring the board with them.
        from frame.screens.choosing.lock import for_grown_ups

        return Push(for_grown_ups(self.room))

    def _enter(self, learner: Learner) -> Change | None:
        try:
            self.room.enter(learner)
        except StoreError as error:
            self.trouble = error.trouble
            self.rearrange()
            return None
        self.room.sharer.untold = None
        return self._home()

    def _home(self) -> Change:
        # Home brings the course with it, and tickets must be seen before that is loaded.
        from frame.screens.choosing.home import Home

        return Push(Home(self.room))

    def back(self) -> Change | None:
        """Esc closes no window."""
        return None
