"""A hundred sheets and papers made again from their codes alone, printed, and marked.

    python tests/simulated/rebuilt.py [COUNT]

Recipes are drawn of every kind. Each is made, printed and coded; from the code it is made and
printed again, in another process, and the two files are compared byte for byte. Then the answers of
the key, read from the first sheet, are marked on the second one: all must be right.
"""

import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from random import Random

from frame.language.catalogue import load_words
from frame.printing.sheet_file import write_sheet
from frame.resources import ASSETS
from frame.sheets.code import code_of, recipe_of
from frame.sheets.grades import grades
from frame.sheets.making import SheetError, sheet_of
from frame.sheets.marking import Answer, mark
from frame.sheets.recipe import Kind, Leaf, Recipe, Version
from frame.sheets.sizing import extent_of
from frame.technique.conventions import USUAL
from frame.technique.facts import ALL_FACTS

WORDS = load_words(ASSETS / "words" / "en.toml")
AGAIN = """
import sys
from pathlib import Path
sys.path.insert(0, {folder!r})
from rebuilt import printed
for line in sys.stdin:
    code, path = line.rstrip().split("\\t")
    printed(code, Path(path))
"""


def drawn(random):
    """Any recipe for which a sheet can be made."""
    while True:
        kind = random.choice(list(Kind))
        version, leaf = random.choice(list(Version)), random.choice(list(Leaf))
        recipe = Recipe(kind=kind, seed=random.randrange(10000), version=version, leaf=leaf)
        if kind is Kind.PAPER:
            recipe = Recipe(
                kind=kind, seed=recipe.seed, leaf=leaf, grade=random.choice([*grades()])
            )
        elif random.random() < 0.5:
            usual = extent_of(kind, ())
            sizes = {"count": usual.count, "rows": usual.rows, "digits": usual.digits}
            recipe = Recipe(kind=kind, seed=recipe.seed, version=version, leaf=leaf, **sizes)
        else:
            facts = frozenset(random.sample(ALL_FACTS, random.randint(1, 3)))
            recipe = Recipe(
                kind=kind, seed=recipe.seed, version=version, leaf=leaf, count=12, rows=3, digits=2,
                facts=tuple(fact for fact in ALL_FACTS if fact in facts),
            )  # fmt: skip
        try:
            sheet_of(recipe_of(code_of(recipe)))
        except SheetError:
            continue
        return recipe


def printed(code, path):
    """The sheet of a code, printed to a file."""
    sheet = sheet_of(recipe_of(code))
    write_sheet(path, sheet, code, WORDS, USUAL)
    return sheet


def rebuilt(count, seed=1):
    """How many sheets of each kind were made again, and the codes of those that differ."""
    random, kinds, wrong = Random(seed), Counter(), []
    with tempfile.TemporaryDirectory() as folder:
        codes = [code_of(drawn(random)) for _ in range(count)]
        files = [
            (Path(folder, f"{at}.pdf"), Path(folder, f"{at}-again.pdf")) for at in range(count)
        ]
        sheets = [printed(code, one) for code, (one, _) in zip(codes, files, strict=True)]
        lines = [f"{code}\t{two}" for code, (_, two) in zip(codes, files, strict=True)]
        program = AGAIN.format(folder=str(Path(__file__).parent))
        subprocess.run(
            [sys.executable, "-c", program], input="\n".join(lines) + "\n", text=True, check=True
        )
        for code, sheet, (one, two) in zip(codes, sheets, files, strict=True):
            kinds[sheet.recipe.kind] += 1
            answers = [Answer(task.sum.result, task.sum.remainder) for task in sheet.tasks]
            is_right = not mark(sheet_of(recipe_of(code)), answers).wrong
            if one.read_bytes() != two.read_bytes() or not is_right:
                wrong.append(code)
    return kinds, wrong


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    kinds, wrong = rebuilt(count)
    for kind, number in sorted(kinds.items()):
        print(f"{kind:12} {number:4}")
    print(f"Made again byte for byte, and its key marked right: {count - len(wrong)} of {count}.")
    for code in wrong:
        print(f"  differs: {code}")


if __name__ == "__main__":
    main()
