"""A damaged file never ends the program, and costs no more than what is damaged of it."""

from random import Random

import pytest
from damaged import damage, evil_values, full_file

from frame.learner.store import Store, StoreError

COPIES = 1000


def read_all(store):
    """Everything that a window reads: how many learners and attempts there are."""
    store.computer(), store.has_code(), store.is_code("4711"), store.kept_plan(), store.pasted()
    tries = 0
    for learner in store.learners():
        store.settings(learner).conventions, store.lessons(learner), store.choices(learner)
        store.attempts(learner), store.flash_runs(learner)
        tries += len(store.tries(learner))
    return len(store.learners()), tries


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    path = tmp_path_factory.mktemp("sound") / "learners.sqlite"
    full_file(path)
    return path


def opened(path):
    """The store on a file that may be damaged; None where it is refused in words."""
    try:
        return Store(path)
    except StoreError:
        return None


@pytest.mark.parametrize("seeds", [range(20), pytest.param(range(COPIES), marks=pytest.mark.proof)])
@pytest.mark.parametrize("has_copy", [False, True])
def test_a_damaged_copy_is_saved_as_far_as_it_can_be_read(sound, tmp_path, seeds, has_copy):
    all_of_it = read_all(Store(sound))
    saved, refused = [], 0
    for seed in seeds:
        folder = tmp_path / str(seed)
        folder.mkdir()
        path = folder / "learners.sqlite"
        path.write_bytes(damage(sound.read_bytes(), Random(seed)))
        if has_copy:
            path.with_suffix(".good").write_bytes(sound.read_bytes())
        store = opened(path)
        if store is None:
            refused += 1
            continue
        try:
            learners, tries = read_all(store)
        except StoreError:
            learners, tries = 0, 0
        saved.append(tries / all_of_it[1])
        store.close()
        again = Store(path)
        again.close()
    print(
        f"{len(saved)} opened, {refused} refused, {100 * sum(saved) / len(seeds):.1f} % of tries saved"
    )
    assert refused <= len(seeds) * 0.02
    assert sum(saved) / len(seeds) > (0.99 if has_copy else 0.5)


@pytest.mark.parametrize("seeds", [range(20), pytest.param(range(COPIES), marks=pytest.mark.proof)])
def test_values_that_nobody_wrote_are_left_out(sound, tmp_path, seeds):
    for seed in seeds:
        path = tmp_path / f"{seed}.sqlite"
        path.write_bytes(sound.read_bytes())
        evil_values(path, Random(seed))
        store = opened(path)
        assert store is not None
        read_all(store)
        store.close()
