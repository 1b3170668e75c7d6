"""What somebody who only hears a lesson knows of what is to be done."""

import re

from frame.course.stages import Stage
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked


def says_what_to_do(text, runner, words):
    """Whether a text tells what the lesson waits for: the number to set or the numbers of the sum,
    the question that is to be answered, or the sentence that is to be heard."""
    work, stage = runner.work, runner.stage
    if stage is Stage.TELL:
        return text == runner.line.speak
    if stage not in (Stage.WORK, Stage.ANSWER) or work.exercise.asked is not Asked.SHOWN:
        return True
    if stage is Stage.ANSWER and not work.exercise.by_answer:
        return "?" in text or "Touch" in text
    if work.exercise.kind is Kind.CLEAR:
        return re.search("wipe|clear", text, re.IGNORECASE) is not None
    return names_numbers(text, work.exercise.sum.numbers, words)


def names_numbers(text, numbers, words):
    """Whether a text names numbers one after another; "and" within one counts for nothing."""
    heard = " ".join(one for one in re.findall(r"[\w'-]+", text.lower()) if one != "and")
    for number in numbers:
        _, found, heard = f" {heard} ".partition(f" {words.number(abs(number))} ")
        if not found:
            return False
    return True
