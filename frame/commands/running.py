"""The commands: what the arguments ask, answered as text or JSON."""

import argparse
import re
import sys
import time
from pathlib import Path

from frame.commands.arguments import parser_of
from frame.commands.explain import explain
from frame.commands.judging import Judging
from frame.commands.output import Place, Refusal, need_file, write_json
from frame.commands.working import Ways
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.resources import LESSONS
from frame.technique.conventions import (
    Carry,
    Conventions,
    First,
    Operands,
    Outer,
    Remove,
    Strictness,
)

OK, PROBLEMS, WRONG_USE = 0, 1, 2

_NUMBER_WITH_MINUS = re.compile(r"-[\d.(]")


def answer(given: list[str], words: Words) -> int:
    """Do what the arguments ask; the exit status."""
    arguments = [_with_true_minus(one) for one in given]
    is_json = "--json" in arguments
    try:
        status = _run(arguments, words)
    except Refusal as refusal:
        if is_json:
            write_json(refusal.shape)
        else:
            _tell(refusal, dict(zip(arguments, given, strict=True)), words)
        status = WRONG_USE
    if sys.stdout:
        sys.stdout.flush()
    return status


def _tell(refusal: Refusal, typed: dict[str, str], words: Words) -> None:
    """The refusal goes to standard error, with its place in the argument as it was typed."""
    where, found = escaped(refusal.where), escaped(refusal.found)
    facts = {"where": where, "found": found, "expected": refusal.expected}
    print(words.text("cli.refusal", **facts), file=sys.stderr)
    if place := refusal.place:
        shown = Place(typed.get(place.text, place.text), place.column)
        print(shown.lines(getattr(sys.stderr, "encoding", None) or "utf-8"), file=sys.stderr)


def _with_true_minus(argument: str) -> str:
    """A number that begins with a minus must not look like an option."""
    return "−" + argument[1:] if _NUMBER_WITH_MINUS.match(argument) else argument


def _run(arguments: list[str], words: Words) -> int:
    try:
        asked = parser_of(words).parse_args(arguments)
    except SystemExit:  # Only --help and --version end so; errors are refusals.
        return OK
    if asked.desktop == bool(asked.command):
        found = words.text("cli.desktop.beside" if asked.desktop else "cli.desktop.nothing")
        raise Refusal(words.text("cli.command_line"), found, words.text("cli.desktop.one"))
    match asked.command:
        case "explain":
            return explain(asked.sum, _ways(asked), asked.json, words)
        case "judge":
            return _judge(asked, words)
        case "slip":
            return _slip(asked, words)
        case "lessons":
            return _lessons(asked, words)
        case "picture":
            return _picture(asked, words)
        case "board":
            from frame.commands.window import show_window

            need_file(asked.file, words.text("cli.board.a_file"), ".yaml", words)
            return show_window(words, asked.file)
        case "measure":
            from frame.commands.measure import show_figures

            return show_figures(time.perf_counter, asked.json, words)
    return _of_store(asked, words)


def _ways(asked: argparse.Namespace) -> Ways:
    conventions = _conventions(asked, Carry(asked.carry), Remove(asked.remove))
    return Ways(conventions, asked.rods, asked.places)


def _conventions(
    asked: argparse.Namespace, carry: Carry = Carry.LAST, remove: Remove = Remove.RUN
) -> Conventions:
    return Conventions(
        carry, remove, Operands(asked.layout), Outer(asked.outer), First(asked.first)
    )


def _judge(asked: argparse.Namespace, words: Words) -> int:
    judging = Judging(_ways(asked), Strictness(asked.strict), words)
    if (asked.sum == "-") == bool(asked.moves):
        found, expected = (
            ("moves_beside", "from_input") if asked.moves else ("no_moves", "some_moves")
        )
        raise Refusal(
            words.text("cli.command_line"),
            words.text(f"cli.judge.{found}"),
            words.text(f"cli.judge.{expected}"),
        )
    return judging.run(asked.sum, " ".join(asked.moves), asked.json)


def _slip(asked: argparse.Namespace, words: Words) -> int:
    from frame.commands.slip import slip

    if (asked.sum == "-") == (asked.answer is not None):
        beside = asked.answer is not None
        raise Refusal(
            words.text("cli.command_line"),
            words.text("cli.slip.answer_beside" if beside else "cli.slip.no_answer"),
            words.text("cli.slip.from_input" if beside else "cli.slip.number"),
        )
    return slip(asked.sum, asked.answer, _ways(asked), asked.json, words)


def _lessons(asked: argparse.Namespace, words: Words) -> int:
    from frame.commands.lessons import check, show_course

    if asked.check is None:
        return show_course(LESSONS, asked.json, words)
    return check(asked.check, LESSONS, asked.json, words)


def _picture(asked: argparse.Namespace, words: Words) -> int:
    from frame.commands.picture import Looks, picture
    from frame.view.theme import THEMES

    looks = Looks(THEMES[asked.theme], asked.size)
    ways = Ways(_conventions(asked), asked.rods, asked.places)
    shape = picture(asked.sum, asked.file, looks, ways, asked.steps, words)
    if asked.json:
        write_json(shape)
    return OK


def _of_store(asked: argparse.Namespace, words: Words) -> int:
    """What is asked of the learners' file, or may be, and of where it lies."""
    from frame.screens.start import STORE_NAME, NoFolder, data_folder

    try:
        path = data_folder() / STORE_NAME
    except NoFolder:
        print(words.text("cli.no_folder"), file=sys.stderr)
        return PROBLEMS
    if asked.desktop:
        from frame.commands.desktop import add_to_desktop

        return add_to_desktop(path.parent, words)
    if asked.command in ("sheet", "mark", "class", "give"):
        return _of_class(path, asked, words)
    from frame.commands.code import forget_code
    from frame.commands.copies import take_in, write_backup
    from frame.commands.export import write_export

    if asked.command == "code":
        return forget_code(path, words)
    if asked.command == "backup":
        return write_backup(path, asked.file, asked.name, asked.id or "", asked.json, words)
    if asked.command == "export":
        how = {"is_xapi": asked.xapi, "is_json": asked.json}
        return write_export(path, asked.file, asked.name, asked.id or "", words, **how)
    if asked.command == "report":
        from frame.commands.report import tell, tell_class

        if asked.whole_class is not None:
            if asked.name or asked.id or asked.html:
                where, found = words.text("cli.command_line"), words.text("cli.report.beside")
                raise Refusal(where, found, words.text("cli.sheet.class_alone"))
            return tell_class(path, asked.whole_class, asked.json, words)
        return tell(path, (asked.name, asked.id or ""), asked.html, asked.json, words)
    is_back = asked.command == "restore"
    return take_in(path, asked.file, asked.json, words, bring_back=is_back)


def _of_class(path: Path, asked: argparse.Namespace, words: Words) -> int:
    """What a tutor asks for on paper, and of a class."""
    if asked.command == "sheet":
        return _sheet(path, asked, words)
    if asked.command == "mark":
        from frame.commands.mark import Given, mark_sheet

        given = Given(asked.file, asked.answers, asked.wrong, asked.name, asked.id or "")
        return mark_sheet(path, asked.code, given, asked.keep, asked.json, words)
    if asked.command == "give":
        from frame.commands.give import Wanted, Whom, give_work

        whom = Whom(asked.to, asked.group, asked.all)
        work = Wanted(asked.work, asked.text, asked.list, asked.take_back, asked.slips)
        return give_work(path, whom, work, asked.json, words)
    from frame.commands.whole_class import Asked, show_class

    wanted = Asked(asked.file, asked.groups, asked.sheets)
    return show_class(path, wanted, asked.json, words)


def _sheet(path: Path, asked: argparse.Namespace, words: Words) -> int:
    from frame.commands.ordering import Order, Topic
    from frame.commands.sheet import print_sheet
    from frame.sheets.recipe import Leaf, Part, Version

    topic = Topic(asked.facts, asked.family, asked.lesson, asked.unit, asked.slip, asked.due)
    order = Order(
        asked.count, asked.rows, asked.digits, asked.by, asked.minus, asked.seed,
        asked.version and Version(asked.version), asked.leaf and Leaf(asked.leaf),
        asked.part and Part(asked.part), asked.worked,
    )  # fmt: skip
    return print_sheet(path, asked.what, asked.file, topic, order, asked.json, words)
