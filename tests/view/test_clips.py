"""Recorded clips as samples: where they lie, how loud they are, and that few stay decoded."""

import random
import threading
from array import array
from collections import defaultdict
from collections.abc import Iterator
from importlib.util import find_spec

import pygame
import pytest

from frame.language.speech import PLAIN, QUICK, RATE, SPEEDS, Clip, Clips
from frame.resources import ASSETS
from frame.view.clips import SAMPLE_BYTES, ClipStore, silence
from frame.view.voice import Silence, Voice

FOLDER = ASSETS / "voice" / "en"
CLIPS = Clips(FOLDER)
FULL = 32_767


@pytest.fixture(scope="module", autouse=True)
def mixer() -> Iterator[None]:
    pygame.mixer.quit()
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    yield
    pygame.mixer.quit()


@pytest.fixture
def store() -> ClipStore:
    return ClipStore(FOLDER)


def sprites() -> dict[str, list[tuple[str, Clip]]]:
    found = defaultdict(list)
    for speed in SPEEDS:
        for words, clip in CLIPS.entries(speed):
            found[clip.sprite].append((words, clip))
    return found


SPRITES = sprites()
SAMPLE = random.Random(7).sample(sorted(SPRITES), 6)


@pytest.mark.parametrize(
    "names", [SAMPLE, pytest.param(sorted(SPRITES), marks=pytest.mark.proof)], ids=["some", "all"]
)
def test_every_clip_lies_inside_its_sprite_and_is_heard_unclipped(
    store: ClipStore, names: list[str]
) -> None:
    faults = []
    for name in names:
        samples = array("h", store.load(name))
        end = 0
        for words, clip in SPRITES[name]:
            part = samples[clip.start : clip.start + clip.length]
            apart = clip.start - end >= RATE // 20 and len(part) == clip.length
            end = clip.start + clip.length
            peak = max(map(abs, part))
            # 10 ** (-3 / 20) of the full scale is -3 dBFS.
            if not apart or not 0.1 < peak / FULL < 10 ** (-3 / 20) or clip.length < RATE // 10:
                faults.append((name, words, peak))
        if len(samples) - end < RATE // 20:
            faults.append((name, "end", len(samples)))
    assert faults == []


def test_no_sprite_is_without_a_clip_and_none_is_missing() -> None:
    assert {path.name for path in FOLDER.glob("*.ogg")} == set(SPRITES)


def test_between_two_clips_of_a_sprite_there_is_silence(store: ClipStore) -> None:
    """But for the codec's blur before a sharp sound, which the sound itself covers: 2.5 %."""
    for name in SAMPLE:
        samples = array("h", store.load(name))
        for _, clip in SPRITES[name]:
            before = samples[clip.start - RATE // 50 : clip.start]
            assert max(map(abs, before)) < FULL / 40, (name, clip)


def test_quick_numbers_are_quicker() -> None:
    plain, quick = (dict(CLIPS.entries(speed)) for speed in (PLAIN, QUICK))
    both = [words for words in quick if words in plain]
    assert len(both) > 1000
    seconds = [sum(table[words].length for words in both) for table in (plain, quick)]
    assert seconds[1] < 0.9 * seconds[0]


def test_samples_are_the_clips_with_the_gap_between(store: ClipStore) -> None:
    seven, forty = (CLIPS.find(words) for words in ("seven", "forty"))
    assert seven and forty
    joined = store.samples((seven, forty), 0.25)
    assert len(silence(0.25)) == SAMPLE_BYTES * RATE // 4
    assert joined == store.cut(seven) + silence(0.25) + store.cut(forty)
    assert store.samples((), 0.25) == b""


def test_few_sprites_stay_decoded(store: ClipStore, monkeypatch: pytest.MonkeyPatch) -> None:
    small, names = ClipStore(FOLDER, most=2), sorted(SPRITES)[:3]
    first, *_ = [small.load(name) for name in names]
    opened = []
    sound = pygame.mixer.Sound

    def counting(path: str) -> pygame.mixer.Sound:
        opened.append(path)
        return sound(path)

    monkeypatch.setattr(pygame.mixer, "Sound", counting)
    small.load(names[2])
    assert opened == []
    assert small.load(names[0]) == first
    assert len(opened) == 1


def test_a_sprite_that_is_not_there_is_an_error(store: ClipStore) -> None:
    with pytest.raises(FileNotFoundError):
        store.load("none.ogg")


@pytest.fixture
def voice() -> Iterator[Voice]:
    pygame.mixer.quit()
    yield Voice(ASSETS / "sounds", FOLDER)
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)


def test_a_line_is_spoken_as_long_as_its_clips_and_pauses(voice: Voice) -> None:
    yes, number = (CLIPS.find(words) for words in ("yes", "seventy-seven"))
    assert yes and number
    seconds = voice.say("Yes. Seventy-seven.")
    assert seconds * RATE > yes.length + number.length
    assert seconds < (yes.length + number.length) / RATE + 1
    assert pygame.mixer.Channel(0).get_busy()
    voice.hush()
    assert not pygame.mixer.Channel(0).get_busy()


def test_a_new_line_ends_the_one_before(voice: Voice) -> None:
    voice.say("Not yet.")
    first = pygame.mixer.Channel(0).get_sound()
    voice.say("Yes.")
    assert pygame.mixer.Channel(0).get_sound() is not first


def test_nothing_is_spoken_when_sound_is_off(voice: Voice) -> None:
    voice.set_volume("off")
    assert voice.say("Yes.") == 0.0
    assert voice.play_call(bytes(4800)) == 0.0
    assert not pygame.mixer.get_busy()


@pytest.mark.parametrize(("volume", "level"), [("quiet", 0.25), ("normal", 0.6)])
def test_speech_follows_the_volume_and_is_never_loud(
    voice: Voice, volume: str, level: float
) -> None:
    voice.set_volume(volume)
    voice.say("Yes.")
    sound = pygame.mixer.Channel(0).get_sound()
    assert sound is not None
    assert sound.get_volume() == pytest.approx(level, abs=1 / 64)
    voice.set_volume("quiet")
    assert sound.get_volume() == pytest.approx(0.25, abs=1 / 64)


def test_a_call_silences_speech_and_can_be_held_and_ended(voice: Voice) -> None:
    voice.say("Not yet.")
    assert voice.play_call(bytes(2 * SAMPLE_BYTES * RATE)) == 2.0
    assert not pygame.mixer.Channel(0).get_busy()
    voice.pause_call()
    assert pygame.mixer.Channel(1).get_busy()
    voice.resume_call()
    voice.stop_call()
    assert not pygame.mixer.Channel(1).get_busy()


def test_clicks_do_not_end_speech(voice: Voice) -> None:
    voice.say("Look at the tens rod.")
    for _ in range(20):
        voice.play("click")
    assert pygame.mixer.Channel(0).get_busy()


UNKNOWN = "The quokka waits under the pontoon."
HAS_ENGINE = find_spec("hibari") is not None


@pytest.mark.skipif(HAS_ENGINE, reason="the extra voice is installed")
def test_without_the_engine_a_line_nobody_recorded_is_not_spoken(voice: Voice) -> None:
    assert voice.say(UNKNOWN) == 0.0
    assert not pygame.mixer.get_busy()


@pytest.mark.skipif(not HAS_ENGINE, reason="needs the extra voice")
def test_with_the_engine_it_is_spoken_from_a_thread(voice: Voice) -> None:
    before = set(threading.enumerate())
    assert voice.say(UNKNOWN) > 1.0
    assert not pygame.mixer.get_busy()
    for thread in set(threading.enumerate()) - before:
        thread.join(timeout=60)
    assert pygame.mixer.Channel(0).get_busy()


@pytest.mark.skipif(not HAS_ENGINE, reason="needs the extra voice")
def test_a_line_rendered_too_late_is_not_spoken(voice: Voice) -> None:
    before = set(threading.enumerate())
    voice.say(UNKNOWN)
    voice.hush()
    for thread in set(threading.enumerate()) - before:
        thread.join(timeout=60)
    assert not pygame.mixer.get_busy()


def test_the_silent_twin_says_nothing() -> None:
    silent = Silence()
    assert silent.say("Yes.") == silent.play_call(bytes(10)) == 0.0
