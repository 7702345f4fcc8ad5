"""New drills wait while many are open; judged from answers alone."""

from trainer.practice.unsettled import ENOUGH_RIGHT, FEWEST_REVIEWS, Unsettled


def test_a_drill_that_was_missed_is_settled_by_two_right_answers_on_later_days():
    begun = Unsettled([("a", 1.0, 1.0), ("b", 0.0, 1.0)], minutes=5)
    assert begun.open == {"b"}, "what is right at first sight needs no room"
    begun.answered("b", 1.0, 1.01)
    begun.answered("b", 1.0, 2.0)
    assert begun.open == {"b"}, "right in the same sitting tells little"
    begun.answered("b", 1.0, 3.0)
    assert begun.open == set()
    begun.answered("a", 0.0, 9.0)
    assert begun.open == {"a"}, "a lapse opens it again"


def test_the_room_is_what_the_open_drills_leave():
    many = Unsettled([(f"d{n}", 0.0, 1.0) for n in range(9)], minutes=10)
    assert many.room() == many.limit - 9 > 0
    for n in range(9, many.limit + 1):
        many.answered(f"d{n}", 0.0, 1.0)
    assert many.room() == 0
    assert Unsettled([], minutes=0.1).room() == 6


def test_nothing_new_while_reviews_go_wrong():
    def after(right, wrong):
        first = [(f"d{n}", 1.0, 1.0) for n in range(right + wrong)]
        return Unsettled([*first, *((f"d{n}", float(n < right), 2.0) for n in range(right + wrong))], minutes=10)

    assert after(FEWEST_REVIEWS, 1).room() > 0
    enough = int(ENOUGH_RIGHT * FEWEST_REVIEWS)
    assert after(enough, FEWEST_REVIEWS - enough).room() > 0
    assert after(enough - 1, FEWEST_REVIEWS - enough + 1).room() == 0
    assert after(0, FEWEST_REVIEWS - 1).room() > 0, "too few to tell"


def test_who_is_mostly_right_may_have_twice_as_much_open():
    first = [(f"d{n}", 1.0, 1.0) for n in range(20)]
    right, missed = [(f"d{n}", 1.0, 2.0) for n in range(20)], [("d0", 0.0, 3.0)]
    good = Unsettled([*first, *right, *missed], minutes=5)
    assert good.room() == 2 * good.limit - 1
    assert good.room(generous=False) == good.limit - 1, "but not beyond the core, which would fade meanwhile"
    fair = Unsettled([*first, *right[:9], *((f"d{n}", 0.0, 2.0) for n in range(9, 11))], minutes=5)
    assert fair.room() == fair.limit - 2
