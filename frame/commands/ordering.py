"""What sheet is asked for by arguments, as a recipe."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from difflib import get_close_matches
from typing import Any, NamedTuple

from frame.commands.output import Place, Refusal, refusal_near
from frame.course.course import CourseIndex
from frame.language.catalogue import Words
from frame.practice.families import Family
from frame.sheets.choices import KINDS, WITH_MINUS, WITH_WORK, sizes_of
from frame.sheets.code import CodeError, recipe_of
from frame.sheets.enough import fitted
from frame.sheets.grades import grade, grades
from frame.sheets.recipe import Kind, Leaf, Part, Recipe, Version
from frame.sheets.topics import facts_of, facts_of_items, facts_showing, fitting, kind_for
from frame.technique.facts import ALL_FACTS
from frame.technique.habits import Habit

_SIZES = ("count", "rows", "digits", "by")


class Topic(NamedTuple):
    """What a sheet is for: one of these at most. `due` names the learner whose due items it is
    for."""

    facts: str | None = None
    family: str | None = None
    lesson: str | None = None
    unit: str | None = None
    slip: str | None = None
    due: str | None = None


@dataclass(frozen=True, slots=True)
class Order:
    """How large the tasks are; which of equal sheets it is; and how it is printed. None for what is
    usual."""

    count: int | None = None
    rows: int | None = None
    digits: int | None = None
    by: int | None = None
    minus: bool = False
    seed: int | None = None
    version: Version | None = None
    leaf: Leaf | None = None
    part: Part | None = None
    worked: bool = False

    @property
    def given(self) -> tuple[str, ...]:
        """The names of the options that say anything."""
        given = asdict(self).items()
        return tuple(name for name, one in given if one is not None and one is not False)

    @property
    def printed(self) -> Mapping[str, Any]:
        """Which of equal sheets it is and how it is printed, as in a `Recipe`."""
        some = {"seed": self.seed, "version": self.version, "leaf": self.leaf}
        given = {name: one for name, one in some.items() if one is not None}
        return {**given, "is_worked": self.worked}


class Ordering(NamedTuple):
    """What is needed to understand an order: how the course is read, which takes a while, and what
    items are due of whom."""

    course: Callable[[], CourseIndex]
    due: Callable[[str], Sequence[str]]
    words: Words

    def recipe(self, what: str | None, topic: Topic, order: Order) -> Recipe:
        """The recipe of an order. `what` is a kind, a grade or a code; None stands for the kind
        that the topic needs. Raises Refusal."""
        if what is not None and what.casefold() in (*KINDS, *grades()):
            what = what.casefold()
        facts = self._facts(topic)
        if what is None or what in KINDS:
            return self._of_kind(kind_for(facts) if what is None else Kind(what), facts, order)
        if facts:
            raise self._refusal(what, "kind_of_topic", KINDS)
        if what in grades():
            self._need_none(what, order, (*_SIZES, "minus"), "cli.sheet.no_sizes")
            part, parts = order.part or Part.WHOLE, grade(what).parts
            if part not in parts:
                expected = self.words.text("cli.sheet.part", parts=", ".join(parts))
                raise Refusal(what, f"--part {part}", expected)
            return Recipe(kind=Kind.PAPER, grade=what, part=part, **order.printed)
        near = get_close_matches(what, [*KINDS, *grades()], 1)
        if near or not any(map(str.isdigit, what)):
            raise self._refusal(what, "what", near)
        recipe = coded(what, self.words)
        self._need_none(what, order, order.given, "cli.sheet.code_alone")
        return recipe

    def _of_kind(self, kind: Kind, facts: Sequence[str], order: Order) -> Recipe:
        foreign = [size for size in _SIZES if size not in sizes_of(kind)]
        self._need_none(kind, order, (*foreign, "part"), "cli.sheet.not_of_kind")
        if order.minus and kind not in WITH_MINUS:
            raise self._refusal("--minus", "no_minus", ())
        if order.worked and kind not in WITH_WORK:
            raise self._refusal("--worked", "no_work", ())
        recipe = _recipe(kind, self._fitting(kind, facts), order)
        if order.minus and not recipe.can_take:
            raise self._refusal("--minus", "no_minus_yet", ())
        return recipe

    def _need_none(self, where: str, order: Order, options: Sequence[str], expected: str) -> None:
        """Raises Refusal where one of these options was given."""
        some = ", ".join(f"--{name}" for name in order.given if name in options)
        if some:
            raise Refusal(where, some, self.words.text(expected, options=some))

    def _facts(self, topic: Topic) -> tuple[str, ...]:
        given = {name: text for name, text in topic._asdict().items() if text}
        if len(given) > 1:
            options = ", ".join(f"--{name}" for name in given)
            where, expected = map(self.words.text, ("cli.command_line", "cli.sheet.one_topic"))
            raise Refusal(where, options, expected)
        for name, text in given.items():
            facts = frozenset(self._named(name, text))
            if not facts:
                raise self._refusal(text, "facts_there", ())
            return tuple(fact for fact in ALL_FACTS if fact in facts)
        return ()

    def _named(self, name: str, text: str) -> Iterable[str]:
        """The facts that a topic stands for."""
        match name:
            case "facts":
                some = [one.strip() for one in text.split(",")]
                for one in some:
                    self._need(one, ALL_FACTS, "fact")
                return some
            case "family":
                self._need(text, tuple(Family), "family")
                return facts_of(Family(text))
            case "lesson":
                lessons = self.course().by_id
                self._need(text, tuple(lessons), "lesson")
                return lessons[text].new
            case "unit":
                course = self.course()
                self._need(text, [unit.id for unit in course.units], "unit")
                return [fact for one in course.lessons_of(text) for fact in one.new]
            case "slip":
                self._need(text, tuple(Habit), "slip")
                return facts_showing(Habit(text))
        return facts_of_items(self.due(text))

    def _need(self, text: str, among: Sequence[str], wanted: str) -> None:
        if text not in among:
            raise self._refusal(text, wanted, get_close_matches(text, among, 1))

    def _fitting(self, kind: Kind, facts: Sequence[str]) -> tuple[str, ...]:
        """The facts that tasks of a kind may need. Raises Refusal where there are none."""
        fit = fitting(kind, facts)
        if facts and not fit and kind is not Kind.FRAME:
            raise self._refusal(kind, "other_kind", [kind_for(facts)])
        return fit

    def _refusal(self, where: str, wanted: str, near: Sequence[str]) -> Refusal:
        text = self.words.text(f"cli.sheet.{wanted}")
        found = self.words.text("cli.sheet.none_such")
        return refusal_near(where, found, text, near, self.words)


def _recipe(kind: Kind, facts: tuple[str, ...], order: Order) -> Recipe:
    sizes = {name: getattr(order, name) for name in _SIZES}
    return replace(fitted(kind, facts, sizes, order.minus), **order.printed)


def coded(code: str, words: Words) -> Recipe:
    """The recipe with this code. Raises Refusal, with the code that may have been meant."""
    try:
        return recipe_of(code)
    except CodeError as error:
        where = words.text("cli.sheet.code", column=error.where)
        found = repr(error.found) if error.found else words.text("cli.the_end")
        near = [error.nearest] if error.nearest else []
        lacking = error.expected
        expected, place = words.text(f"cli.code_error.{lacking}"), Place(code, error.where)
        raise refusal_near(where, found, expected, near, words, place) from None
