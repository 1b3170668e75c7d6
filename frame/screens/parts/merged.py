"""What another file brought, or why it did not, in words."""

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.merging import Merged
from frame.learner.trouble import Trouble


def merged_line(merged: Merged, words: Words) -> Line:
    """What a file brought that was taken in."""
    told = []
    if not merged.is_whole:
        told.append(words.line("merged.damaged"))
    if merged.learners or merged.attempts or merged.back:
        told.append(_brought_line(merged, words))
    if merged.removed:
        told.append(words.line("merged.removed", removed=merged.removed))
    if not any((merged.learners, merged.attempts, merged.back, merged.removed)):
        told.append(words.line("merged.changed" if merged.is_new else "merged.nothing"))
    if merged.left_out:
        told.append(words.line("merged.left_out", left_out=merged.left_out))
    return Line(" ".join(one.show for one in told), " ".join(one.speak for one in told))


def _brought_line(merged: Merged, words: Words) -> Line:
    """Who came and what they did, in one sentence: who comes back is among those who came."""
    learners, attempts, back = merged.learners, merged.attempts, merged.back
    if not back:
        return words.line("merged.brought", learners=learners, attempts=attempts)
    if back == learners:
        return words.line("merged.back", back=back, attempts=attempts)
    return words.line("merged.some_back", learners=learners, back=back, attempts=attempts)


def other_trouble_line(trouble: Trouble, words: Words) -> Line:
    """Why a file that is not the one of this computer can't be used."""
    return words.line(f"other_file.{trouble}")
