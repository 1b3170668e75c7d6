"""A hand that moves the bead that is lit."""

import pygame


def until_lit(pilot):
    """Let the bead that was moved come to rest."""
    for _ in range(100):
        if pilot.screen.lit is not None:
            return pilot.screen.lit
        pilot.wait(0.01, 1)
    raise AssertionError("no bead is lit")


def tap(pilot, seconds):
    """Wait so long, then tap the lit bead."""
    move = until_lit(pilot)
    pilot.clock += seconds
    pilot.move(move)


def tap_by_key(pilot, seconds):
    """The same by keys."""
    move, field = until_lit(pilot), pilot.screen.field
    pilot.clock += seconds
    for _ in range(2 * len(field.frame.digits)):
        if field.focus == move.rod:
            break
        is_left = field.focus is None or field.focus < move.rod
        pilot.key(pygame.K_LEFT if is_left else pygame.K_RIGHT)
    is_up = move.change > 0
    pilot.key(pygame.K_5 if move.is_heaven else pygame.K_UP if is_up else pygame.K_DOWN)


def tap_to_the_end(pilot, seconds=0.7, by=tap):
    """Tap until it is over; how many beads were moved."""
    for count in range(1, 200):
        by(pilot, seconds)
        if pilot.screen.is_over:
            pilot.settle()
            return count
    raise AssertionError("no end")
