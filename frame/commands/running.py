"""The commands: what the arguments ask, answered as text or JSON."""

import argparse
import re
import sys
import time
from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import NoReturn

from frame import __version__
from frame.commands.explain import explain
from frame.commands.judging import Judging
from frame.commands.output import Place, Refusal, need_file, write_json
from frame.commands.working import Ways
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.resources import LESSONS
from frame.technique.beads import MOST_RODS
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

_THEMES = ("light", "dark", "high-contrast")
_NUMBER_WITH_MINUS = re.compile(r"-[\d.(]")
_SIZE = re.compile(r"([0-9]{2,4})x([0-9]{2,4})")
MOST_PLACES = 12
SMALLEST_SIDE, LARGEST_SIDE = 64, 8192


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
        asked = _parser(words).parse_args(arguments)
    except SystemExit:  # Only --help and --version end so; errors are refusals.
        return OK
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
        case "code" | "merge" | "restore" | "backup" | "export" | "report":
            return _of_store(asked, words)
    raise AssertionError(f"{asked.command} has no answer")


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
    """What is asked of the learners' file."""
    from frame.commands.code import forget_code
    from frame.commands.copies import take_in, write_backup
    from frame.commands.export import write_export
    from frame.screens.start import STORE_NAME, NoFolder, data_folder

    try:
        path = data_folder() / STORE_NAME
    except NoFolder:
        print(words.text("cli.no_folder"), file=sys.stderr)
        return PROBLEMS
    if asked.command == "code":
        return forget_code(path, words)
    if asked.command == "backup":
        return write_backup(path, asked.file, asked.name, asked.id or "", asked.json, words)
    if asked.command == "export":
        how = {"is_xapi": asked.xapi, "is_json": asked.json}
        return write_export(path, asked.file, asked.name, asked.id or "", words, **how)
    if asked.command == "report":
        from frame.commands.report import tell

        return tell(path, (asked.name, asked.id or ""), asked.html, asked.json, words)
    is_back = asked.command == "restore"
    return take_in(path, asked.file, asked.json, words, bring_back=is_back)


class _Parser(argparse.ArgumentParser):
    """An argument parser whose errors are refusals."""

    where = ""

    def error(self, message: str) -> NoReturn:
        """Raises Refusal."""
        usage = " ".join(self.format_usage().split()[1:])
        raise Refusal(self.where, message, usage)


def _parser(words: Words) -> argparse.ArgumentParser:
    _Parser.where = words.text("cli.command_line")
    parser = _Parser(
        prog="bead-frame",
        description=words.text("cli.help.about"),
        epilog=words.text("cli.help.examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"bead-frame {__version__}")
    commands = parser.add_subparsers(
        dest="command", metavar=words.text("cli.help.command"), required=True
    )

    def command(name: str) -> argparse.ArgumentParser:
        return commands.add_parser(
            name,
            help=words.text(f"cli.help.{name}"),
            description=words.text(f"cli.help.{name}"),
            epilog=words.text(f"cli.help.{name}_examples"),
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )

    _add_explain(command("explain"), words)
    _add_judge(command("judge"), words)
    _add_slip(command("slip"), words)
    _add_lessons(command("lessons"), words)
    _add_picture(command("picture"), words)
    command("board").add_argument(
        "file", metavar="FILE", type=_path(words), help=words.text("cli.help.agenda")
    )
    _add_json(command("measure"), words)
    _add_code(command("code"), words)
    for name in ("merge", "restore"):
        _add_file(command(name), "cli.help.learners_file", words)
    _add_backup(command("backup"), words)
    _add_export(command("export"), words)
    _add_report(command("report"), words)
    return parser


def _add_explain(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("sum", metavar="SUM", help=words.text("cli.help.sum_or_stream"))
    _add_ways(parser, words)


def _add_judge(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("sum", metavar="SUM", help=words.text("cli.help.sum_or_stream"))
    parser.add_argument("moves", metavar="MOVES", nargs="*", help=words.text("cli.help.moves"))
    _add_choice(parser, "--strict", Strictness, Strictness.BEADS, words)
    _add_ways(parser, words)


def _add_slip(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("sum", metavar="SUM", help=words.text("cli.help.sum_or_stream"))
    parser.add_argument("answer", metavar="ANSWER", nargs="?", help=words.text("cli.help.answer"))
    _add_ways(parser, words)


def _add_lessons(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument(
        "--check", metavar="FILE", nargs="+", type=_path(words), help=words.text("cli.help.check")
    )
    _add_json(parser, words)


def _add_picture(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("sum", metavar="SUM", help=words.text("cli.help.sum_or_number"))
    parser.add_argument(
        "file", metavar="FILE.png", type=_path(words), help=words.text("cli.help.png")
    )
    parser.add_argument(
        "--size", metavar="WxH", type=_size(words), help=words.text("cli.help.size")
    )
    parser.add_argument(
        "--theme", choices=_THEMES, default="light", help=words.text("cli.help.theme")
    )
    parser.add_argument("--steps", action="store_true", help=words.text("cli.help.steps"))
    _add_how(parser, words)
    _add_json(parser, words)


def _add_code(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument(
        "--forget", action="store_true", required=True, help=words.text("cli.help.forget")
    )


def _add_backup(parser: argparse.ArgumentParser, words: Words) -> None:
    empty = words.text("cli.empty_name")
    _add_learner(parser, words.text("cli.help.backup_name"), empty, words)
    _add_file(parser, "cli.help.backup_file", words)


def _add_export(parser: argparse.ArgumentParser, words: Words) -> None:
    empty = words.text("cli.empty_whom")
    _add_learner(parser, words.text("cli.help.export_name"), empty, words)
    _add_file(parser, "cli.help.export_file", words)
    parser.add_argument("--xapi", action="store_true", help=words.text("cli.help.xapi"))


def _add_report(parser: argparse.ArgumentParser, words: Words) -> None:
    empty = words.text("cli.empty_learner")
    _add_learner(parser, words.text("cli.help.report_name"), empty, words)
    some_file = _path(words)
    parser.add_argument("--html", metavar="FILE", type=some_file, help=words.text("cli.help.html"))
    _add_json(parser, words)


def _add_learner(parser: argparse.ArgumentParser, name: str, empty: str, words: Words) -> None:
    """The name of a learner, and --id; `empty` is what is said of a name that is none."""
    parser.add_argument("name", metavar="NAME", nargs="?", type=_some(empty), help=name)
    empty_id = words.text("cli.empty_id")
    parser.add_argument("--id", metavar="ID", type=_some(empty_id), help=words.text("cli.help.id"))


def _add_file(parser: argparse.ArgumentParser, key: str, words: Words) -> None:
    parser.add_argument("file", metavar="FILE", type=_path(words), help=words.text(key))
    _add_json(parser, words)


def _add_ways(parser: argparse.ArgumentParser, words: Words) -> None:
    """The school's ways, the rods and --json."""
    _add_choice(parser, "--carry", Carry, Carry.LAST, words)
    _add_choice(parser, "--remove", Remove, Remove.RUN, words)
    _add_how(parser, words)
    _add_json(parser, words)


def _add_choice(
    parser: argparse.ArgumentParser,
    option: str,
    choice: type[StrEnum],
    usual: StrEnum,
    words: Words,
) -> None:
    parser.add_argument(
        option, choices=[str(one) for one in choice], default=str(usual),
        metavar="|".join(choice), help=words.text(f"cli.help.{option[2:]}"),
    )  # fmt: skip


def _add_how(parser: argparse.ArgumentParser, words: Words) -> None:
    """The layout and order of products, the decimals of results, and the rods."""
    _add_choice(parser, "--layout", Operands, Operands.BOTH, words)
    _add_choice(parser, "--outer", Outer, Outer.MULTIPLICAND, words)
    _add_choice(parser, "--first", First, First.HIGHEST, words)
    most = words.text("cli.bad_places", most=MOST_PLACES)
    parser.add_argument(
        "--places", metavar="N", type=_number(0, MOST_PLACES, most),
        help=words.text("cli.help.places"),
    )  # fmt: skip
    most = words.text("cli.bad_rods", most=MOST_RODS)
    parser.add_argument(
        "--rods", metavar="N", type=_number(1, MOST_RODS, most),
        help=words.text("cli.help.rods", most=MOST_RODS),
    )  # fmt: skip


def _add_json(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("--json", action="store_true", help=words.text("cli.help.json"))


def _some(empty: str) -> Callable[[str], str]:
    """What takes a text as it is, unless there is nothing to be seen in it; `empty` says so."""

    def some(text: str) -> str:
        if not text.strip():
            raise argparse.ArgumentTypeError(empty)
        return text

    return some


def _path(words: Words) -> Callable[[str], Path]:
    some = _some(words.text("cli.empty_path"))
    return lambda text: Path(some(text))


def _number(least: int, most: int, expected: str) -> Callable[[str], int]:
    """What reads a whole number within bounds; `expected` ends the sentence on any other text."""

    def number(text: str) -> int:
        if not text.isascii() or not text.isdigit() or not least <= int(text[:9]) <= most:
            raise argparse.ArgumentTypeError(f"{text!r}, {expected}")
        return int(text)

    return number


def _size(words: Words) -> Callable[[str], tuple[int, int]]:
    def size(text: str) -> tuple[int, int]:
        match = _SIZE.fullmatch(text)
        width, height = (int(match[1]), int(match[2])) if match else (0, 0)
        if not SMALLEST_SIDE <= min(width, height) <= max(width, height) <= LARGEST_SIDE:
            raise argparse.ArgumentTypeError(words.text("cli.bad_size", found=repr(text)))
        return width, height

    return size
