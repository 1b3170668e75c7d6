"""A screen with buttons: pressing, releasing, and going round them with the keyboard."""

from enum import StrEnum

import pygame

from frame.app import Change, Perform, Pop, Push, Quit, Replace, Screen
from frame.dues import Dues
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.ring import across, along, rows_of
from frame.view.inputs import Drag, Input, Key, Lost, Press, Release
from frame.view.theme import unit
from frame.view.widgets import Brushes, Button, Style, focus_reach, paint_button

AGAIN_SECONDS = 20.0
"""How long somebody may wait until they are told again what there is to do."""
_FORGIVING = 3.0
_NARROW = 90
"""Units across."""


class Due(StrEnum):
    """What every panel waits for."""

    GREETING = "greeting"


class Panel(Screen):
    """Subclasses fill `buttons` in `arrange` and paint the rest in `paint_rest`. Touches of
    buttons, and keys that press one, are not meant for what has just come up under the finger
    before `deaf_until`. A button that rests is not seen, unless it came to rest under the ring."""

    goes_back = True

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.buttons: list[Button] = []
        self.size = (0, 0)
        self.focus: int | None = None
        self.deaf_until = 0.0
        self.dues = Dues()
        self._pressed: tuple[int, int] | None = None  # finger, button

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""
        return unit(self.size[1])

    def rect(self, x: float, y: float, w: float, h: float) -> pygame.Rect:
        """A rectangle given in units."""
        one = self.unit
        return pygame.Rect(round(x * one), round(y * one), round(w * one), round(h * one))

    @property
    def across(self) -> float:
        """How many units wide the window is."""
        return self.size[0] / self.unit

    @property
    def head(self) -> float:
        """The height in units of the page's head: the way back, and what stands beside it."""
        return 12.0

    @property
    def is_narrow(self) -> bool:
        """Whether the window is too narrow for much to stand side by side."""
        return self.across < _NARROW

    def resized(self, size: tuple[int, int]) -> None:
        """Lay everything out for a window of this size."""
        self.size = size
        self.rearrange()

    def rearrange(self) -> None:
        """Lay everything out anew, and paint it."""
        self.lay_out()
        self.touch_up()

    def lay_out(self) -> None:
        """Lay everything out anew."""
        before, focus = self.buttons, self.focus
        self.focus_button(None)
        self._pressed = None
        self.buttons = []
        if self.goes_back:
            back = self.rect(1.5, 3, 8, 8)
            self.buttons.append(Button(back, self.back, sign="back", style=Style.SIGN))
        self.arrange()
        if focus is not None:
            old = before[focus] if focus < len(before) else None
            self.focus_button(self._nearest(old, focus))

    def _nearest(self, button: Button | None, index: int) -> int | None:
        """The button that is the same thing as one that stood at an index, else one that does the
        same, as near to it as can be; None where there is none any more."""
        if button is None:
            return None
        same = [at for at, one in enumerate(self.buttons) if one.is_like(button)]
        same = same or [at for at, one in enumerate(self.buttons) if one.does_as(button)]
        return min(same, key=lambda at: abs(at - index), default=None)

    def greet(self) -> None:
        """Say what there is to do; once more, where nobody does anything for a while."""
        super().greet()
        if self.greeting:
            self._wait_anew()

    def _wait_anew(self) -> None:
        self.dues.put(Due.GREETING, self.room.seconds() + AGAIN_SECONDS)

    def advance(self, now: float) -> Change | None:
        """Say once more what there is to do, when it is time."""
        if self.dues.take(Due.GREETING, now):
            self.room.say(self.greeting)
        return None

    def arrange(self) -> None:
        """Fill `buttons`."""

    def wakes_in(self, now: float) -> float | None:
        """When something falls due."""
        return self.dues.wakes_in(now)

    def back(self) -> Change | None:
        """What the way back does."""
        return Pop()

    def brushes(self, surface: pygame.Surface) -> Brushes:
        """What to paint with."""
        room = self.room
        return Brushes(surface, room.theme, room.lettering, room.pictures)

    def paint(self, surface: pygame.Surface) -> None:
        """Paint the ground, the buttons and the rest."""
        surface.fill(self.room.theme.ground)
        brushes = self.brushes(surface)
        self.paint_rest(brushes)
        for index in self._present:
            pressed = self._pressed is not None and self._pressed[1] == index
            paint_button(brushes, self.buttons[index], pressed=pressed)
        if self.focus is not None:
            # Above all, as its neighbours stand within its reach.
            brushes.ring(self.buttons[self.focus].place)

    def paint_rest(self, brushes: Brushes) -> None:
        """Paint what is not a button."""

    def handle(self, event: Input) -> Change | None:
        """Take an input meant for the buttons."""
        if self.dues.at(Due.GREETING) is not None:
            self._wait_anew()
        match event:
            case Press(finger, at) if not self._is_new_at(at):
                self._press(finger, self.button_at(at))
            case Release(finger, at):
                return self._release(finger, at)
            case Lost():
                self._press(0, None)
            case Key():
                return self.press_key(event)
            case Drag() | Press():
                pass
        return None

    def _is_new_at(self, at: tuple[float, float]) -> bool:
        """Whether something may have just come up at a place; the way back never has."""
        here = self.under(at)
        is_back = here is not None and here.sign == "back"
        return self.room.seconds() < self.deaf_until and not is_back

    def under(self, at: tuple[float, float]) -> Button | None:
        """The button under a place."""
        index = self.button_at(at)
        return None if index is None else self.buttons[index]

    def button_at(self, at: tuple[float, float]) -> int | None:
        """The index of the button under a place."""
        for index, button in enumerate(self.buttons):
            if button.place.collidepoint(at) and not button.rests:
                return index
        return None

    def _press(self, finger: int, index: int | None) -> None:
        old, self._pressed = self._pressed, None if index is None else (finger, index)
        for changed in {old and old[1], index}:
            if changed is not None and changed < len(self.buttons):
                self.touch_up_button(changed)
        if index is not None:
            self.focus_button(None)

    def press_no_button(self, finger: int) -> None:
        """What a finger does was not meant for a button."""
        self._press(finger, None)

    def touch_up_button(self, index: int) -> None:
        """Have a button painted anew, with what lies around it."""
        place = self.buttons[index].place
        self.touch_up(focus_reach(place, self.size[1]).inflate(0, round(self.unit)))

    def _release(self, finger: int, at: tuple[float, float]) -> Change | None:
        if self._pressed is None or self._pressed[0] != finger:
            return None
        index = self._pressed[1]
        self._press(finger, None)
        reach = round(_FORGIVING * self.unit)
        if index < len(self.buttons) and self.buttons[index].place.inflate(
            2 * reach, 2 * reach
        ).collidepoint(at):
            return self.press_button(index)
        return None

    def press_button(self, index: int) -> Change | None:
        """Do what a button does."""
        act = self.buttons[index].act
        change = act() if act else None
        return change if isinstance(change, Push | Pop | Replace | Quit | Perform) else None

    def focus_button(self, index: int | None) -> None:
        """Put the focus ring around a button, or take it away."""
        for changed in {self.focus, index}:
            if changed is not None and changed < len(self.buttons):
                self.touch_up_button(changed)
        self.focus = index

    def press_key(self, key: Key) -> Change | None:
        """Take a key: they go round the buttons, and press them."""
        if key.code == pygame.K_ESCAPE:
            return self.back()
        if key.code == pygame.K_TAB and self.buttons:
            self.focus_next(-1 if key.shift else 1)
        elif key.code in (pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE):
            if self.room.seconds() < self.deaf_until:
                return None
            index = self.focus if self.focus is not None else self.main_button()
            return self.press_button(index) if index is not None else None
        elif key.code in _ARROWS and self.buttons:
            self.focus_beside(key.code)
        return None

    def main_button(self) -> int | None:
        """The button that Enter means when none is in focus: the one main thing to do."""
        for index, button in enumerate(self.buttons):
            if button.style is Style.MAIN:
                return index
        return None

    @property
    def _present(self) -> list[int]:
        """The buttons that are seen."""
        return [at for at, one in enumerate(self.buttons) if not one.rests or at == self.focus]

    @property
    def order(self) -> list[int]:
        """The buttons as the ring goes round them: as they are read, but from the first one below
        the head of the page, whose own come last, the way back among them."""
        seen, head = self._present, self.head * self.unit
        read = [seen[at] for row in rows_of([self.buttons[at].place for at in seen]) for at in row]
        return sorted(read, key=lambda at: self.buttons[at].place.centery < head)

    def focus_next(self, way: int) -> None:
        """Put the focus ring around the next button, or for -1 the one before, and say which."""
        order = self.order
        at = order.index(self.focus) if self.focus in order else (-1 if way > 0 else len(order))
        self.focus_button(order[(at + way) % len(order)])
        self.speak_focus()

    def focus_beside(self, code: int) -> None:
        """Put the focus ring around the button to which an arrow points, and say which; at the end
        of a row, and at that of all rows, it stays. Where there is none it comes as by Tab."""
        (step, way), seen = _ARROWS[code], self._present
        if self.focus not in seen:
            self.focus_next(way)
            return
        there = step([self.buttons[at].place for at in seen], seen.index(self.focus), way)
        if there is not None:
            self.focus_button(seen[there])
        self.speak_focus()

    def speak_focus(self) -> None:
        """Say what the button in focus is, for whoever works without looking."""
        if self.focus is None:
            return
        button = self.buttons[self.focus]
        words = self.room.words
        text = button.name or button.text
        if button.sign and not text:
            text = words.text(f"sign.{button.sign}")
        if text:
            self.room.say(Line(text, text))


_ARROWS = {
    pygame.K_LEFT: (along, -1), pygame.K_RIGHT: (along, 1),
    pygame.K_UP: (across, -1), pygame.K_DOWN: (across, 1),
}  # fmt: skip
