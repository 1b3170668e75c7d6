"""The arguments of the commands, and what is said of each."""

import argparse
import re
from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import NoReturn

from frame import __version__
from frame.commands.output import Refusal
from frame.language.catalogue import Words
from frame.learner.assigned import Work
from frame.learner.class_list import MOST_CHILDREN
from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.sheets.recipe import MOST_BY, MOST_COUNT, MOST_SEED, Leaf, Part, Version
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import (
    Carry,
    First,
    Operands,
    Outer,
    Remove,
    Strictness,
)

_THEMES = ("light", "dark", "high-contrast")
_SIZE = re.compile(r"([0-9]{2,4})x([0-9]{2,4})")
_WITHOUT_JSON = ("board", "code")
MOST_PLACES = 12
SMALLEST_SIDE, LARGEST_SIDE = 64, 8192
_SHEET_SIZES = {"count": MOST_COUNT, "rows": MOST_ROWS, "digits": MOST_DIGITS, "by": MOST_BY}


class _Parser(argparse.ArgumentParser):
    """An argument parser whose errors are refusals."""

    where = ""

    def error(self, message: str) -> NoReturn:
        """Raises Refusal."""
        usage = " ".join(self.format_usage().split()[1:])
        raise Refusal(self.where, message, usage)


def parser_of(words: Words) -> argparse.ArgumentParser:
    """What reads the arguments. Raises Refusal for those that are none."""
    _Parser.where = words.text("cli.command_line")
    parser = _Parser(
        prog="bead-frame",
        description=words.text("cli.help.about"),
        epilog=words.text("cli.help.examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"bead-frame {__version__}")
    parser.add_argument("--desktop", action="store_true", help=words.text("cli.help.desktop"))
    commands = parser.add_subparsers(dest="command", metavar=words.text("cli.help.command"))

    def command(name: str) -> argparse.ArgumentParser:
        return commands.add_parser(
            name,
            help=words.text(f"cli.help.{name}"),
            description=words.text(f"cli.help.{name}"),
            epilog=_epilog(name, words),
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
    _add_sheet(command("sheet"), words)
    _add_mark(command("mark"), words)
    _add_class(command("class"), words)
    _add_give(command("give"), words)
    return parser


def _epilog(name: str, words: Words) -> str:
    """What the help of a command ends with: examples, and the keys of its JSON."""
    examples = words.text(f"cli.help.{name}_examples")
    if name in _WITHOUT_JSON:
        return examples
    head, keys = words.text("cli.json.head"), words.text(f"cli.json.{name}").strip("\n")
    return f"{examples}\n\n{head}\n{keys}"


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
    parser.add_argument(
        "--class", metavar="FOLDER", type=some_file, help=words.text("cli.help.report_class"),
        dest="whole_class",
    )  # fmt: skip
    _add_json(parser, words)


def _add_sheet(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("what", metavar="WHAT", nargs="?", help=words.text("cli.help.sheet_what"))
    pdf = words.text("cli.help.sheet_file")
    parser.add_argument("file", metavar="FILE.pdf", type=_path(words), help=pdf)
    reads = _some(words.text("cli.empty"))
    for topic, metavar in (
        ("facts", "FACT,..."), ("family", "FAMILY"), ("lesson", "LESSON"), ("unit", "UNIT"),
        ("slip", "FAULT"), ("due", "NAME"),
    ):  # fmt: skip
        told = words.text(f"cli.help.sheet_{topic}")
        parser.add_argument(f"--{topic}", metavar=metavar, type=reads, help=told)
    for size, most in _SHEET_SIZES.items():
        expected = words.text("cli.bad_rods", most=most)
        told = words.text(f"cli.help.sheet_{size}", most=most)
        number = _number(1, most, expected)
        parser.add_argument(f"--{size}", metavar="N", type=number, help=told)
    parser.add_argument("--minus", action="store_true", help=words.text("cli.help.sheet_minus"))
    seed = _number(0, MOST_SEED, words.text("cli.bad_places", most=MOST_SEED))
    told = words.text("cli.help.sheet_seed", most=MOST_SEED)
    parser.add_argument("--seed", metavar="N", type=seed, help=told)
    for choice, some in (("version", list(Version)), ("leaf", list(Leaf)), ("part", list(Part))):
        told = words.text(f"cli.help.sheet_{choice}")
        parser.add_argument(
            f"--{choice}", choices=list(map(str, some)), metavar="|".join(some), help=told
        )
    parser.add_argument("--worked", action="store_true", help=words.text("cli.help.sheet_worked"))
    _add_json(parser, words)


def _add_mark(parser: argparse.ArgumentParser, words: Words) -> None:
    parser.add_argument("code", metavar="CODE", help=words.text("cli.help.mark_code"))
    parser.add_argument(
        "file", metavar="ANSWERS.csv", nargs="?", type=_path(words),
        help=words.text("cli.help.mark_file"),
    )  # fmt: skip
    for given, metavar, reads in (
        ("answers", "ANSWERS", str),
        ("wrong", "NUMBERS", str),
        ("name", "NAME", _some(words.text("cli.empty_learner"))),
        ("id", "ID", _some(words.text("cli.empty_id"))),
    ):
        told = words.text(f"cli.help.mark_{given}")
        parser.add_argument(f"--{given}", metavar=metavar, type=reads, help=told)
    parser.add_argument("--keep", action="store_true", help=words.text("cli.help.mark_keep"))
    _add_json(parser, words)


def _add_class(parser: argparse.ArgumentParser, words: Words) -> None:
    a_list = words.text("cli.help.class_file")
    parser.add_argument("file", metavar="LIST.csv", nargs="?", type=_path(words), help=a_list)
    parser.add_argument(
        "--groups", metavar="N", default=3, help=words.text("cli.help.class_groups"),
        type=_number(1, MOST_CHILDREN, words.text("cli.bad_rods", most=MOST_CHILDREN)),
    )  # fmt: skip
    parser.add_argument(
        "--sheets", metavar="FOLDER", type=_path(words), help=words.text("cli.help.class_sheets")
    )
    _add_json(parser, words)


def _add_give(parser: argparse.ArgumentParser, words: Words) -> None:
    works = [str(one) for one in Work]
    parser.add_argument(
        "work", metavar="|".join(works), nargs="?", choices=works,
        help=words.text("cli.help.give_work"),
    )  # fmt: skip
    parser.add_argument("text", metavar="WHICH", nargs="?", help=words.text("cli.help.give_which"))
    reads = _some(words.text("cli.empty"))
    for whom, metavar in (("to", "NAME,..."), ("group", "GROUP")):
        told = words.text(f"cli.help.give_{whom}")
        parser.add_argument(f"--{whom}", metavar=metavar, type=reads, help=told)
    parser.add_argument("--all", action="store_true", help=words.text("cli.help.give_all"))
    parser.add_argument("--list", action="store_true", help=words.text("cli.help.give_list"))
    parser.add_argument("--take-back", action="store_true", help=words.text("cli.help.give_back"))
    parser.add_argument(
        "--slips", metavar="FILE.pdf", type=_path(words), help=words.text("cli.help.give_slips")
    )
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
