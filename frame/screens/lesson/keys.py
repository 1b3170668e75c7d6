"""What keys do on the lesson screen: they work beads, type an answer, hold a call."""

import pygame

from frame.course.runner import Stage
from frame.screens.lesson.view import LessonView
from frame.screens.parts.keypad import key_sign
from frame.view.bead_keys import is_bead_key, stroke_of_key
from frame.view.inputs import Key


def take_key(screen: LessonView, key: Key) -> bool:
    """Keys that work beads, type digits or hold a call. Whether the key was meant so."""
    stage = screen.runner.stage
    if stage is Stage.ANSWER:
        return _type_key(screen, key)
    if stage is Stage.PRESENT and _call_key(screen, key):
        return True
    if not screen.runner.takes_touches:
        return False
    if key.control and key.code == pygame.K_z:
        screen.undo()
        return True
    if screen.focus is not None or not is_bead_key(key):
        return False
    rod = screen.field.focus
    stroke = stroke_of_key(screen.field, key)
    if stroke is not None:
        screen.touch(stroke)
    elif screen.field.focus != rod:
        screen.say_rod()
    return True


def _type_key(screen: LessonView, key: Key) -> bool:
    enter = key.code in (pygame.K_RETURN, pygame.K_KP_ENTER)
    if sign := key_sign(key, screen.answer_signs):
        screen.type_sign(sign)
    elif enter and screen.answer.typed and screen.focus is None:
        screen.give_answer()
    else:
        return False
    return True


def _call_key(screen: LessonView, key: Key) -> bool:
    """While numbers are called: space holds the call, or lets it go on."""
    is_calling = screen.calling is not None and screen.calling.has_begun
    if key.code != pygame.K_SPACE or not is_calling or screen.focus is not None:
        return False
    screen.hold()
    return True
