"""Owns an X display's clipboard, as a program does from which somebody has copied something.

    python x_owner.py TARGET=TEXT ...

It offers each target with its text, says `ready` once it owns the clipboard, and stays until it is
ended. Plain Xlib through ctypes, with the structures of X11/Xlib.h.
"""

import ctypes
import sys

SELECTION_REQUEST, SELECTION_NOTIFY = 30, 31
REPLACE, ATOM, BYTES, LONGS = 0, 4, 8, 32


class Request(ctypes.Structure):
    """XSelectionRequestEvent, as large as an XEvent."""

    _fields_ = (
        ("type", ctypes.c_int),
        ("serial", ctypes.c_ulong),
        ("send_event", ctypes.c_int),
        ("display", ctypes.c_void_p),
        ("owner", ctypes.c_ulong),
        ("requestor", ctypes.c_ulong),
        ("selection", ctypes.c_ulong),
        ("target", ctypes.c_ulong),
        ("property", ctypes.c_ulong),
        ("time", ctypes.c_ulong),
        ("rest", ctypes.c_ulong * 24),
    )


class Answer(ctypes.Structure):
    """XSelectionEvent, as large as an XEvent."""

    _fields_ = (
        ("type", ctypes.c_int),
        ("serial", ctypes.c_ulong),
        ("send_event", ctypes.c_int),
        ("display", ctypes.c_void_p),
        ("requestor", ctypes.c_ulong),
        ("selection", ctypes.c_ulong),
        ("target", ctypes.c_ulong),
        ("property", ctypes.c_ulong),
        ("time", ctypes.c_ulong),
        ("rest", ctypes.c_ulong * 24),
    )


def own(offers):
    x = ctypes.CDLL("libX11.so.6")
    x.XOpenDisplay.restype = ctypes.c_void_p
    x.XInternAtom.restype = x.XDefaultRootWindow.restype = ctypes.c_ulong
    x.XCreateSimpleWindow.restype = ctypes.c_ulong
    display = ctypes.c_void_p(x.XOpenDisplay(None))
    root = ctypes.c_ulong(x.XDefaultRootWindow(display))
    window = ctypes.c_ulong(x.XCreateSimpleWindow(display, root, 0, 0, 1, 1, 0, 0, 0))

    def atom(name):
        return x.XInternAtom(display, name.encode(), 0)

    def put(request, kind, size, data, count):
        place = map(ctypes.c_ulong, (request.requestor, request.property, kind))
        x.XChangeProperty(display, *place, size, REPLACE, data, count)

    values = {atom(name): value.encode() for name, value in offers.items()}
    targets = atom("TARGETS")
    x.XSetSelectionOwner(display, ctypes.c_ulong(atom("CLIPBOARD")), window, ctypes.c_ulong(0))
    x.XSync(display, 0)
    print("ready", flush=True)
    request = Request()
    while True:
        x.XNextEvent(display, ctypes.byref(request))
        if request.type != SELECTION_REQUEST:
            continue
        answer = Answer(
            SELECTION_NOTIFY, 0, 0, None, request.requestor, request.selection, request.target,
            request.property, request.time,
        )  # fmt: skip
        if request.target in values:
            value = values[request.target]
            put(request, request.target, BYTES, value, len(value))
        elif request.target == targets:
            names = (ctypes.c_ulong * (len(values) + 1))(targets, *values)
            put(request, ATOM, LONGS, names, len(names))
        else:
            answer.property = 0
        requestor = ctypes.c_ulong(request.requestor)
        x.XSendEvent(display, requestor, 0, ctypes.c_long(0), ctypes.byref(answer))
        x.XFlush(display)


if __name__ == "__main__":
    own(dict(offer.split("=", 1) for offer in sys.argv[1:]))
