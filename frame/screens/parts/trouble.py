"""What is wrong with the learners' file, in words."""

from frame.language.catalogue import Words
from frame.learner.keeper import Keeper
from frame.learner.salvage import Saved
from frame.learner.trouble import Trouble


def trouble_text(trouble: Trouble, words: Words) -> str:
    """Why the file can't be used now."""
    return words.text(f"store.{trouble}")


def unsaved_line(keeper: Keeper, words: Words) -> str:
    """That something is not on disk yet, and why."""
    why = trouble_text(keeper.trouble.trouble, words) if keeper.trouble else ""
    return f"{why} {words.text('store.unsaved')}".strip()


def saved_text(saved: Saved, words: Words) -> str:
    """What could be saved of a damaged file, and where that lies."""
    counts = {"learners": saved.learners, "attempts": saved.attempts}
    return words.text("store.saved", file=saved.aside.name, **counts)
