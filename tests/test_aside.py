"""What is done beside the window's thread: in its order, on one thread, with its errors."""

from threading import Event, get_ident

import pytest

from frame.aside import Aside

SOON = 10.0


def test_things_are_done_one_after_the_other_while_the_caller_goes_on():
    aside, gate, done = Aside(), Event(), []

    def first():
        assert gate.wait(SOON)
        done.append("first")
        return get_ident()

    one, other = aside.do(first), aside.do(lambda: done.append("second") or get_ident())
    assert not one.done() and not other.done() and done == []
    gate.set()
    assert one.result(SOON) == other.result(SOON) != get_ident()
    assert done == ["first", "second"]


def test_an_error_is_raised_where_the_answer_is_asked_and_the_next_thing_is_done():
    aside = Aside()
    failed, done = aside.do(lambda: 1 // 0), aside.do(lambda: 7)
    with pytest.raises(ZeroDivisionError):
        failed.result(SOON)
    assert done.result(SOON) == 7


def test_what_is_called_off_before_its_turn_is_not_done():
    aside, gate, done = Aside(), Event(), []
    first = aside.do(lambda: gate.wait(SOON))
    second, third = aside.do(lambda: done.append("second")), aside.do(lambda: done.append("third"))
    assert second.cancel()
    gate.set()
    assert first.result(SOON) and third.result(SOON) is None
    assert done == ["third"]
