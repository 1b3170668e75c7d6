"""The course and the words that are shipped, each read once for all tests."""

from functools import cache

from frame.course.course import index, load_one
from frame.language.catalogue import load_words
from frame.resources import ASSETS, LESSONS


@cache
def the_course():
    """The index of the course."""
    return index(LESSONS, None)


@cache
def the_words():
    """The words of the tool."""
    return load_words(ASSETS / "words" / "en.toml")


@cache
def lesson_of(lesson_id):
    """A lesson of the course."""
    return load_one(the_course(), lesson_id)
