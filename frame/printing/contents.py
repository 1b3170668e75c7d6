"""What stands between head and foot: the sections of a sheet, and those of its key."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby

from frame.language.catalogue import Words
from frame.practice.exercises import Kind as Asked
from frame.printing.blocks import Block, Ease
from frame.printing.columns import Numbered, column_blocks
from frame.printing.key import key_blocks
from frame.printing.leaf import Area
from frame.printing.lines import line_blocks
from frame.printing.of_grades import marks_of, ranks_of
from frame.printing.pen import HAIR, SOFT, Pen, Type
from frame.printing.ranks import ranks_block
from frame.printing.reading import finger_block, frame_blocks
from frame.printing.titles import headings_of
from frame.printing.worked import worked_blocks
from frame.sheets.recipe import Kind
from frame.sheets.sheet import Sheet, Way
from frame.technique.conventions import Conventions
from frame.technique.expression import Sum
from frame.technique.planning import fits_a_frame

_HEADING, _MARKS = Type(12, bold=True), Type(10, grey=SOFT)
_HEADING_HEIGHT = 7.0
_SPACING = 0.31
"""From rod to rod on the key, in millimetres for each point of figures beside."""
_BlocksOf = Callable[[Sequence[Numbered], float], Iterator[Block]]


@dataclass(frozen=True)
class Contents:
    """The blocks of a sheet, measured by a pen. The work of its key goes by the conventions."""

    pen: Pen
    sheet: Sheet
    words: Words
    conventions: Conventions

    @property
    def tasks(self) -> list[Numbered]:
        """All tasks with their numbers."""
        return list(enumerate(self.sheet.tasks, 1))

    def sheet_blocks(self, width: float, ease: Ease) -> Iterator[Block]:
        """The tasks, laid out with that ease."""
        if self.sheet.recipe.kind is Kind.FRAME:
            yield finger_block(width)
        if any(section.way is Way.FOLLOWED for section in self.sheet.sections):
            for numbered in self.tasks:
                yield from self._worked(numbered, width, ease.spacing)
            return
        yield from self._ranks()
        yield from self._sections(width, partial(self._task_blocks, ease))

    def answer_blocks(self, width: float, ease: Ease) -> Iterator[Block]:
        """The answers and, where the recipe asks for it and a frame holds it, how the first task is
        worked."""
        yield from self._ranks()
        yield from self._sections(width, self._answer_blocks)
        if self._is_worked:
            yield self._heading(self.words.text("sheet.worked"), "")
            yield from self._worked(self.tasks[0], width, ease.size * _SPACING)

    def _ranks(self) -> Iterator[Block]:
        """What marks are enough for, where there are ranks."""
        if ranks := ranks_of(self.sheet.recipe):
            yield ranks_block(ranks, self.words)

    @property
    def _is_worked(self) -> bool:
        if not self.sheet.recipe.is_worked or not self.tasks:
            return False
        _, task = self.tasks[0]
        return task.kind is Asked.SUM and fits_a_frame(task.sum, self.conventions)

    def _sections(self, width: float, blocks_of: _BlocksOf) -> Iterator[Block]:
        """The blocks of each section, with its heading if it has one."""
        first = 0
        headings = headings_of(self.sheet, self.words)
        for section, heading in zip(self.sheet.sections, headings, strict=True):
            tasks = self.tasks[first : first + len(section.tasks)]
            first += len(tasks)
            if heading:
                yield self._heading(heading, marks_of(section, self.words))
            for _, alike in groupby(tasks, key=_form):
                yield from blocks_of(list(alike), width)

    def _task_blocks(self, ease: Ease, tasks: Sequence[Numbered], width: float) -> Iterator[Block]:
        kind, calculation = tasks[0][1].kind, tasks[0][1].sum
        if kind is not Asked.SUM:
            return frame_blocks(tasks, width, ease)
        if isinstance(calculation, Sum):
            return column_blocks(self.pen, tasks, width, ease)
        return line_blocks(self.pen, tasks, width, ease, self.words)

    def _answer_blocks(self, tasks: Sequence[Numbered], width: float) -> Iterator[Block]:
        return key_blocks(self.pen, tasks, width, self.words)

    def _worked(self, numbered: Numbered, width: float, spacing: float) -> Iterator[Block]:
        room = width, spacing
        return worked_blocks(self.pen, numbered, room, self.words, self.conventions)

    def _heading(self, text: str, note: str) -> Block:
        again = partial(_draw_heading, self.words.text("sheet.continued", name=text), "")
        draw = partial(_draw_heading, text, note)
        return Block(_HEADING_HEIGHT, draw, gap=6.0, leads=True, again=again)


def _form(numbered: Numbered) -> tuple[Asked, type]:
    """What tasks that stand side by side have in common."""
    return numbered[1].kind, type(numbered[1].sum)


def _draw_heading(text: str, note: str, pen: Pen, area: Area) -> None:
    foot = area.y + _HEADING.capital + 0.8
    pen.write(text, (area.x, foot), _HEADING)
    pen.write(note, (area.right, foot), _MARKS, 1)
    pen.line((area.x, area.bottom), (area.right, area.bottom), 0.25, HAIR)
