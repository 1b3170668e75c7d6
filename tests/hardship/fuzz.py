"""Coverage-guided fuzzing of one target: python tests/hardship/fuzz.py TARGET [INPUTS] [SEED].

atheris drives it (libFuzzer: an input that reaches new code is kept and changed further), from the
sound inputs of the target; a quarter of the changes are its own, half those of `mutations`, and a
quarter begin again from a sound input, as most strange inputs are refused at their first sign. Ends
with 1 after telling each kind of failure with the shortest input found for it.
"""

import os
import sys
import tempfile
from pathlib import Path
from random import Random

import atheris

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
with atheris.instrument_imports(include=["frame"]):
    from targets import TARGETS

from mutations import changed
from trying import Trials

LONGEST = 4096
"""Bytes of an input."""


def fuzz(name: str, inputs: int, seed: int) -> None:
    """Try so many inputs, and end the process."""
    target = TARGETS[name]
    seeds = target.seeds()
    trials = Trials(target.run)

    def take(data: bytes) -> None:
        kinds = len(trials.failed)
        trials.take(data)
        if len(trials.failed) > kinds:
            print("failed:", *list(trials.failed.items())[-1], file=sys.stderr, flush=True)
        if trials.count >= inputs:
            end(name, trials)

    def change(data: bytes, most: int, number: int) -> bytes:
        random = Random(number)
        way = random.random()
        if way < 0.25:
            return atheris.Mutate(data, most)
        begin = data if way < 0.75 else random.choice(seeds)
        return changed(begin, seeds, target.pieces, random)[:most]

    with tempfile.TemporaryDirectory() as folder:
        for number, data in enumerate(seeds):
            Path(folder, f"{number:04}").write_bytes(data)
        flags = [f"-seed={seed}", f"-max_len={LONGEST}", "-len_control=0", "-timeout=600"]
        options = [*flags, "-rss_limit_mb=4096", f"-artifact_prefix={folder}/", folder]
        atheris.Setup([sys.argv[0], *options], take, custom_mutator=change)
        atheris.Fuzz()


def end(name: str, trials: Trials) -> None:
    """Tell the figures and what failed, and end the process, which libFuzzer would go on with."""
    print(f"{name}: {trials.told()}")
    for kind, data in trials.shrunk().items():
        print(f"  {kind}\n    {data!r}")
    sys.stdout.flush()
    os._exit(1 if trials.failed else 0)


if __name__ == "__main__":
    fuzz(sys.argv[1], *map(int, (*sys.argv[2:], 100_000, 1)[:2]))
