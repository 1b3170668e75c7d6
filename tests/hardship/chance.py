"""What a monkey does, drawn by chance: tuples of plain values, so that a list of them can be
printed, shortened and played again."""

import pygame

SIZES = ((100, 100), (3000, 2000))
"""The smallest window and the largest."""

PRINTED = "0123456789+-*/=., :xvabefghilmnoprst²é√−"
OTHER_KEYS = (
    pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE, pygame.K_TAB, pygame.K_BACKSPACE,
    pygame.K_DELETE, pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_HOME,
    pygame.K_END, pygame.K_PAGEDOWN, pygame.K_PAGEUP, pygame.K_F1, pygame.K_F2, pygame.K_F5,
    pygame.K_F11, pygame.K_ESCAPE, pygame.K_LSHIFT, pygame.K_KP0, pygame.K_KP5, pygame.K_KP_PERIOD,
    pygame.K_KP_PLUS, pygame.K_KP_MINUS, pygame.K_PAUSE, 0, 1 << 30,
)  # fmt: skip
MODS = (0, 0, 0, 0, pygame.KMOD_SHIFT, pygame.KMOD_CTRL, pygame.KMOD_ALT,
        pygame.KMOD_CTRL | pygame.KMOD_SHIFT)  # fmt: skip
TEXTS = ("", "7", "46 + 39", "\x00", "\x7f", "\u200b", "🦦", "a" * 300, "٣", "\n", "½", "\ud800")
PASTED = (
    "", "46 + 39", "12\n7\n-5", "12\n7\n5", "no sum", "1 + 1\n" * 300, "9" * 500, "\ufeff3 + 4",
    "3,5 + 2", "sqrt 1764\n37 x 24\n3876 / 68", "🦦", "=\n=\n",
)  # fmt: skip
DROPPED = {
    "nets.yaml": "board: Nets\nitems:\n  - show: 12 - 7\n  - read: 57\n  - show: 37 x 24\n",
    "runs.yaml": "board: Runs\nitems:\n  - flash: 3 + 5 + 9\n    pace: 0.5\n"
                 "  - call: 3 + 4\n    pace: 1\n  - read: 57\n",
    "broken.yaml": "board: Nets\nitems:\n  - shw: 12 - 7\n",
    "torn.yaml": "board: [\n\t- &a *b",
    "sums.txt": "3 + 4\n12 - 30\n3876 / 68\nsqrt 1764\n",
    "numbers.txt": "12\n7\n5\n",
    "empty.txt": "",
    "binary": "\x00\xff\xfe\x80" * 400,
    "long.txt": "1 + 1\n" * 3000,
}  # fmt: skip
"""The files that are let go on the window, by name, and what stands in them."""
NO_FILES = ("missing.yaml", "folder", "", "\udcff.yaml")
"""What is let go as well, and is no file."""

WINDOW = ("FOCUSLOST", "FOCUSGAINED", "MINIMIZED", "RESTORED", "EXPOSED", "HIDDEN", "SHOWN",
          "LEAVE", "ENTER", "MAXIMIZED")  # fmt: skip
MEANWHILE = ("escape", "black", "digit", "press", "size", "lost", "next")
"""What comes while numbers are flashed."""


def events(random, count):
    """So many events."""
    kinds, weights = zip(*_WEIGHTS.items(), strict=True)
    return [
        (kind.__name__.strip("_"), *kind(random))
        for kind in random.choices(kinds, weights, k=count)
    ]


def _share(random):
    """A place along the window, now and then beyond it."""
    return round(random.uniform(-0.05, 1.05), 3)


def _seconds(random, least, most):
    return round(least * (most / least) ** random.random(), 3)


def _mouse(random):
    kind = random.choice(("DOWN", "UP", "MOTION", "MOTION"))
    return (
        kind,
        _share(random),
        _share(random),
        random.choice((1, 1, 1, 2, 3)),
        random.random() < 0.1,
    )


def _finger(random):
    kind = random.choice(("DOWN", "MOTION", "UP"))
    return kind, random.randrange(3), _share(random), _share(random)


def _drag(random):
    return (
        random.choice((-1, 0, 1)), random.random(), random.random(), random.choice((0, 0, 1)),
        round(random.uniform(-0.4, 0.4), 3), random.choice((0.0, 0.01, 0.1)),
    )  # fmt: skip


def _pinch(random):
    return random.random(), *(round(random.uniform(-0.3, 0.3), 3) for _ in "ab")


def _wheel(random):
    return (random.choice((-3, -1, 1, 3)),)


def _press(random):
    return random.randrange(40), random.choice((0.0, 0.0, 0.7))


def _key(random):
    mod = random.choice(MODS)
    if random.random() < 0.5:
        sign = random.choice(PRINTED)
        return ord(sign), mod, sign
    code = random.choice(OTHER_KEYS)
    usual = {pygame.K_RETURN: "\r", pygame.K_TAB: "\t", pygame.K_SPACE: " "}.get(code, "")
    return code, mod, usual if random.random() < 0.9 else random.choice(TEXTS)


def _text(random):
    return (random.choice(TEXTS),)


def _compose(random):
    return (random.choice(TEXTS),)


def _right(random):
    return ()


def _time(random):
    return (_seconds(random, 0.01, 40),)


def _drop(random):
    return (random.choice((*DROPPED, *NO_FILES)),)


def _copy(random):
    return (random.choice(PASTED),)


def _size(random):
    (width, height), (most_width, most_height) = SIZES
    return (
        round(width * (most_width / width) ** random.random()),
        round(height * (most_height / height) ** random.random()),
    )


def _window(random):
    return (random.choice(WINDOW),)


def _sounds(random):
    return (random.choice(("voice", "heard", "silence")),)


def _displays(random):
    return (random.randint(1, 3),)


def _meanwhile(random):
    return random.choice(MEANWHILE), random.randrange(60)


def _aside(random):
    return ()


def _look(random):
    return ()


_WEIGHTS = {
    _press: 26, _key: 22, _drag: 14, _right: 8, _time: 12, _mouse: 6, _finger: 5, _pinch: 2,
    _wheel: 1, _text: 1, _compose: 0.5, _drop: 1.5, _copy: 1, _size: 1, _window: 2, _sounds: 0.7,
    _displays: 0.5, _meanwhile: 1, _aside: 3, _look: 1,
}  # fmt: skip
