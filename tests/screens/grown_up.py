"""Somebody simulated, who has practised for a while, in the place of whoever is in the window."""

from growers import life, live


def grow_up(room, attempts, age=None):
    """Whoever is here has made so many attempts."""
    if age is not None:
        room.set(age=age)
    live(room.store, room.learner, life(attempts))
    room.lessons = room.store.lessons(room.learner)
    room.fold_anew()
