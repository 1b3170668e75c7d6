"""A screen with a frame that the keyboard works, too: whether keys are for the beads or for the
buttons."""

import pygame

from frame.app import Change
from frame.screens.parts.frame_panel import FramePanel
from frame.view.bead_keys import is_bead_key, stroke_of_key
from frame.view.inputs import Key

_UPRIGHT = (pygame.K_UP, pygame.K_DOWN)
_ALONG = (pygame.K_LEFT, pygame.K_RIGHT)


class KeyedPanel(FramePanel):
    """While no button has the ring, keys are for the beads. Tab leaves them for the buttons, and
    comes back behind the last one; Up and Down come back at once, and digits, which mean nothing to
    a button, are always for the beads. An arrow too many, when the frame takes none any more,
    leaves nothing."""

    def take_bead_key(self, key: Key) -> bool:
        """Choose a rod or move beads; whether the key was meant so."""
        is_arrow = key.code in (*_UPRIGHT, *_ALONG)
        if not is_bead_key(key) or (is_arrow and self.focus is not None):
            return False
        self.focus_button(None)
        rod = self.field.focus
        stroke = stroke_of_key(self.field, key)
        if stroke is not None:
            self.touch(stroke)
        elif self.field.focus != rod:
            self.come_to_rod()
        return True

    def come_to_rod(self) -> None:
        """Keys have chosen another rod."""

    def press_key(self, key: Key) -> Change | None:
        """Arrows go round the buttons where none is for the beads."""
        if key.code in _UPRIGHT:
            self.focus_button(None)
        elif key.code not in _ALONG:
            return super().press_key(key)
        elif self.buttons and (self.focus is not None or self.field.focus is None):
            self.focus_next(-1 if key.code == pygame.K_LEFT else 1)
        return None

    def focus_next(self, way: int) -> None:
        """Before the first button and behind the last one are the beads."""
        if self.focus is not None and self.focus == self.order[-1 if way > 0 else 0]:
            self.focus_button(None)
        else:
            super().focus_next(way)
