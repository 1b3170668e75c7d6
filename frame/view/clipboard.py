"""What lies on the computer's clipboard."""

import pygame


def clipboard_text() -> str:
    """The text on the clipboard, empty where there is none or it can't be reached."""
    try:
        if hasattr(pygame.scrap, "get_text"):
            return str(pygame.scrap.get_text())
        # pygame itself knows only the older way.
        if not pygame.scrap.get_init():
            pygame.scrap.init()
        found = pygame.scrap.get(pygame.SCRAP_TEXT)
    except pygame.error:
        return ""
    return (found or b"").decode("utf-8", "replace").rstrip("\0")
