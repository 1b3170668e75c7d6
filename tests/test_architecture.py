"""The shape of the program: which way imports go, what stays out of it, how long things are."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import frame

PACKAGE = Path(frame.__file__).parent
MOST_LINES_OF_A_FUNCTION = 45
MOST_LINES_OF_A_FILE = 400
"""The number is an alarm, not a knife: files are cut where the sense is."""

# A module may import only from groups above its own and, within its group, from lines above.
# Modules on one line know nothing of one another. Imports for type checkers alone count as well.
ORDER: dict[str, list[str]] = {
    "resources": ["resources"],
    "dues": ["dues"],
    "aside": ["aside"],
    "drawn": ["drawn"],
    "technique": [
        "beads conventions operation",
        "reading",
        "plan places calculation",
        "fingers reasons",
        "hand",
        "addition rounding",
        "trials",
        "multiplication division roots",
        "expression",
        "planning",
        "foretold",
        "facts",
        "intents",
        "tracks",
        "ways",
        "progress",
        "mend",
        "slips",
        "habits",
        "faulty",
        "omissions",
        "guesses",
        "line_slips",
        "commissions",
        "judge",
    ],
    "language": [
        "escaping lines numbers signs speech",
        "catalogue",
        "printed written days",
        "wording reasons",
        "verdicts",
        "habits",
    ],
    "practice": [
        "rungs outcomes columns touches evidence schedule answers tally",
        "suspects grouping",
        "separating suspected bead_habits",
        "behind",
        "flashing",
        "families",
        "ladder sizes needs",
        "climb taught",
        "own_ladder",
        "standing",
        "why possible items mastery",
        "confusions growth",
        "figures",
        "exercises",
        "examples numbers",
        "drawing",
        "fading imagining probes",
        "supposed",
        "asking",
        "log",
        "observed",
        "pace",
        "work choices",
        "found prediction replay written kept_choices",
        "today",
        "wanted",
        "candidates",
        "todays",
        "cues",
    ],
    "sheets": [
        "taught_order difficulty table",
        "recipe",
        "bits numbered spelling sheet topics partners likeness fairness",
        "asked_facts grades runs tasks alike sizing in_turn",
        "nudging enough graded_tasks",
        "code papers versions choices rounds",
        "making marking",
        "typed_in of_needs",
        "half_marked",
        "called",
    ],
    "course": [
        "lesson attempts stages paper read_off",
        "problems next_paper",
        "nodes",
        "fields",
        "checker loader",
        "draft",
        "agenda",
        "shown sheet_items",
        "board",
        "course kept",
        "sets",
        "learned own placement spoken",
        "runner",
        "answer counting feedback stopwatch telling typed veil",
        "pacing plays quiet",
        "sight",
        "guide",
        "minutes",
    ],
    "learner": [
        "settings sizes lock_code looks nickname trouble persons sitting cells",
        "paper_left sheets_left",
        "schema packing kept_sets papers class_list",
        "rows",
        "copies answered ids",
        "mending",
        "salvage new_file",
        "datafile",
        "computer",
        "learners",
        "assigned",
        "store table",
        "class_kept folding lately backups keeper other_file statements on_paper",
        "merging due class_file class_taking",
        "exporting sharing giving",
        "known sharer",
    ],
    "view": [
        "pose theme sdl clips live place_names reading_order system_fonts",
        "canvas",
        "waiting clipboard stopping",
        "geometry",
        "voice calling gestures motion inputs flash_safety presenting scrolling",
        "double_tap ashore",
        "sprites lettering pictures flash_stage anchor stale classroom",
        "painter flash_pictures quay",
        "scene_picture",
        "gliding flash_run field_painting",
        "bead_field widgets",
        "bead_keys things",
    ],
    "report": ["figures", "reading told drawings", "class_reading document"],
    "printing": [
        "leaf",
        "other_fonts of_grades",
        "titles",
        "pen",
        "report_page",
        "figures beads blocks cuts",
        "columns furniture ranks paging",
        "lines reading worked cards slips",
        "key",
        "contents",
        "sheet_file",
    ],
    "tutor_desk": ["tutor_desk"],
    "room": ["room"],
    "app": ["app"],
    "screens.parts": [
        "sentence fitting columns written outcome decimals names trouble hanging portraits accents "
        "ring rod_names counted",
        "panel backup_list keypad problem calling flashing set_card merged bead_string given_work "
        "code_of_sheet",
        "frame_panel page",
        "keyed_panel dials naming paged given_slips",
        "own_files tickets dial_lines way code_page",
        "reported saved sheet_saving",
    ],
    "screens.lesson": [
        "hand fault given places",
        "keeping",
        "scene",
        "card asked practice replay",
        "controls painting results given_now",
        "buttons guided_panel",
        "screen",
        "one_by_one own tapping",
        "today unmarked run",
        "imagining placement play",
    ],
    "screens.grown": [
        "view",
        "sentences",
        "charts climb fact_map played",
        "curves family_frame",
        "screen",
    ],
    "screens.board": [
        "acts agendas arriving places",
        "bar keys keeping seen",
        "heading work",
        "desk painting",
        "screen",
    ],
    "screens.paper": [
        "graded told_marks paper_keeping task",
        "strip dots open_tasks",
        "places told_paper",
        "result",
        "taking",
        "papers",
    ],
    "screens.marking": [
        "sheets_kept",
        "at_hand answer_fields next_child",
        "marks_end",
        "sheet_page",
        "type_answers touch_wrong call_sheet",
        "marks",
    ],
    "screens.tutor": [
        "told rows reading group_choice whom named to_give slips code_to_give given_names",
        "covering saving taking given_before",
        "sheets reports class_files giving",
        "child groups listing picker",
        "screen",
    ],
    "screens.choosing": [
        "plays",
        "free classroom own_lessons code sections chosen newcomer joined two_computers",
        "shared_folder",
        "course_map home_offers one_child parting",
        "report_sheet sheet_sizes sheet_topics",
        "same_child placed report sheets",
        "given_sheet",
        "settings practice_note usual shown_sets published",
        "named_sets shown_given",
        "given_page",
        "all_choices",
        "practise",
        "lock",
        "home",
        "who",
        "unopened unkept",
    ],
    "screens.start": ["start"],
    "measuring": ["technique flash call", "window"],
    "commands": [
        "output",
        "working opening whom arguments entries",
        "ordering",
        "explain judging slip lessons measure picture code copies export report window sheet mark "
        "desktop",
        "whole_class give",
        "running",
    ],
    "cli": ["cli"],
}


def full_name(group: str, module: str) -> str:
    return f"frame.{group}" if ORDER[group] == [module] else f"frame.{group}.{module}"


PLACES = {
    full_name(name, module): (group, line)
    for group, (name, lines) in enumerate(ORDER.items())
    for line, modules in enumerate(lines)
    for module in modules.split()
}
WITHOUT_PYGAME = ("technique", "language", "practice", "sheets", "course", "learner")
NETWORK = {
    "aiohttp",
    "ftplib",
    "http",
    "httpx",
    "imaplib",
    "nntplib",
    "poplib",
    "requests",
    "smtplib",
    "socket",
    "socketserver",
    "ssl",
    "telnetlib",
    "urllib.request",
    "urllib3",
    "webbrowser",
    "websockets",
    "xmlrpc",
}
STREAMS = {"open_connection", "start_server", "open_unix_connection", "start_unix_server"}


def module_name(path: Path) -> str:
    parts = ("frame", *path.relative_to(PACKAGE).with_suffix("").parts)
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {module_name(path): path for path in sorted(PACKAGE.rglob("*.py"))}


@cache
def tree(name: str) -> ast.Module:
    """A module as it is written."""
    return ast.parse(MODULES[name].read_text("utf-8"))


def is_package(name: str) -> bool:
    return MODULES[name].name == "__init__.py"


def imported(name: str) -> Iterator[str]:
    """The full names of all that a module imports, wherever in it the import stands."""
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from (f"{origin(name, node)}.{alias.name}" for alias in node.names)


def origin(name: str, node: ast.ImportFrom) -> str:
    """The absolute name behind `from`, dots resolved."""
    if not node.level:
        return node.module or ""
    parts = name.split(".")
    kept = parts[: len(parts) - node.level + is_package(name)]
    return ".".join([*kept, *filter(None, [node.module])])


def our_module(target: str) -> str | None:
    """The module of ours that an imported name lies in, or None."""
    while target and target not in MODULES:
        target = target.rpartition(".")[0]
    return None if target in ("", "frame") else target


def place(module: str) -> tuple[int, int] | None:
    """Group and line of a module; a package stands at the top of its group."""
    group = module.removeprefix("frame.")
    rooms = [name for name in ORDER if name == group or name.startswith(f"{group}.")]
    if is_package(module) and rooms:
        return list(ORDER).index(rooms[0]), -1
    return PLACES.get(module)


PLACED = {name: here for name in MODULES if (here := place(name)) is not None}


def ours_imported_by(name: str) -> set[str]:
    return {target for target in map(our_module, imported(name)) if target and target != name}


def test_every_module_has_its_place() -> None:
    new = [name for name in MODULES if name != "frame" and place(name) is None]
    assert new == [], f"give them their places in ORDER, in {Path(__file__).name}"


def test_imports_go_one_way() -> None:
    below = [
        f"{name} imports {target}, which lies below it"
        for name, here in PLACED.items()
        for target in ours_imported_by(name)
        if (there := place(target)) is None or there >= here
    ]
    assert below == []


def modules_of(*groups: str) -> list[str]:
    return [m for m in MODULES if m.split(".")[1:2] and m.split(".")[1] in groups]


def loaded_by(*groups: str) -> set[str]:
    """The names of all modules that a fresh Python holds after importing the groups."""
    path = f"import sys; sys.path.insert(0, {str(PACKAGE.parent)!r})"
    imports = [f"import {module}" for module in modules_of(*groups)]
    run = [sys.executable, "-I", "-c", "\n".join([path, *imports, "print(*sys.modules)"])]
    done = subprocess.run(run, capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.split())


def loaded_bare() -> set[str]:
    return loaded_by("no such group")


def test_the_model_needs_no_pygame() -> None:
    names = loaded_by(*WITHOUT_PYGAME)
    assert "frame.technique.judge" in names
    assert not {name for name in names if name.split(".")[0] == "pygame"}


def test_the_technique_needs_only_the_standard_library() -> None:
    new = loaded_by("technique") - loaded_bare()
    roots = {name.split(".")[0] for name in new}
    assert "frame" in roots
    assert roots - sys.stdlib_module_names - {"frame"} == set()


def is_network(name: str) -> bool:
    return any(name == module or name.startswith(f"{module}.") for module in NETWORK)


def test_no_module_names_the_network() -> None:
    assert [(name, one) for name in MODULES for one in imported(name) if is_network(one)] == []


def test_no_module_opens_a_stream_to_elsewhere() -> None:
    assert [(name, one) for name in MODULES for one in named(name) & STREAMS] == []


def named(name: str) -> set[str]:
    """The last names of all that a module imports, and of what it asks of anything."""
    attributes = {n.attr for n in ast.walk(tree(name)) if isinstance(n, ast.Attribute)}
    return attributes | {target.rpartition(".")[2] for target in imported(name)}


def test_the_model_loads_no_network_at_run_time() -> None:
    new = loaded_by(*WITHOUT_PYGAME) - loaded_bare()
    assert sorted(filter(is_network, new)) == []


def test_files_are_short() -> None:
    lines = {name: len(path.read_text("utf-8").splitlines()) for name, path in MODULES.items()}
    assert {name: many for name, many in lines.items() if many > MOST_LINES_OF_A_FILE} == {}


def test_functions_are_short() -> None:
    long = {
        f"{name}.{node.name}": length
        for name in MODULES
        for node in ast.walk(tree(name))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (length := (node.end_lineno or node.lineno) - node.lineno + 1)
        > MOST_LINES_OF_A_FUNCTION
    }
    assert long == {}
