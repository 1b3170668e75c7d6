"""What lies on the computer's clipboard.

pygame's own way names and writes text otherwise on each system; SDL's is one for all.
"""

import ctypes

from frame.view.sdl import loaded_sdl


def clipboard_text() -> str:
    """The text on the clipboard, for an open window; empty where there is none, as with a
    picture, or where it can't be reached. Under X11 a text that was pasted before may come once
    more while the clipboard holds none: SDL 2 keeps it."""
    sdl = loaded_sdl()
    get, free = getattr(sdl, "SDL_GetClipboardText", None), getattr(sdl, "SDL_free", None)
    if get is None or free is None:
        return ""
    get.restype, free.argtypes = ctypes.c_void_p, [ctypes.c_void_p]
    found = get()
    text = ctypes.string_at(found).decode("utf-8", "replace") if found else ""
    free(found)
    return text
