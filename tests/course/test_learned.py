"""What was new in a lesson is seen once more at its end."""

from each import each_row
from shipped import lesson_of, the_course

from frame.course.learned import Learned
from frame.practice.exercises import plan_for
from frame.practice.rungs import Rung
from frame.technique.conventions import USUAL

SHOWN = [one.id for one in the_course().lessons if Learned.of(lesson_of(one.id), USUAL)]


@each_row("lesson", SHOWN)
def test_it_is_played_bead_by_bead_to_its_end(lesson):
    script = lesson_of(lesson)
    learned = Learned.of(script, USUAL)
    assert script.new and len(learned.frame.digits) == script.rods
    for _ in range(16):
        stroke, before = learned.next_stroke, learned.frame
        learned.play()
        assert learned.frame == (before.apply_all(stroke) if stroke else before)
    assert not learned.next_stroke
    assert learned.frame == plan_for(learned.exercise.at(Rung.ALONE), USUAL).end
    assert learned.exercise.facts & set(script.new)


def test_most_lessons_with_something_new_to_move_show_it():
    new = [one.id for one in the_course().lessons if one.new and one.unit != "read"]
    assert len(SHOWN) >= 0.6 * len(new)
