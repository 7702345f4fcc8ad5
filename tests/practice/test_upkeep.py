"""New drills wait while keeping alive what was begun takes the minutes; judged from answers alone."""

from trainer.practice.upkeep import EVERY_DAYS, Upkeep


def taken(*answers, seconds=12.0):
    """Return the seconds a day that ``answers`` ask for, a question taking ``seconds``."""
    return Upkeep(answers).seconds_a_day(lambda name: seconds)


def test_what_was_missed_is_due_every_few_days_and_what_is_right_less_and_less_often():
    row, asked = [], []
    for count in range(len(EVERY_DAYS) + 1):
        asked.append(("a", float(count > 0), 1.0 + 3 * count))
        row.append(12.0 / taken(*asked))
    assert row == [*EVERY_DAYS, EVERY_DAYS[-1]]
    assert taken(*asked, ("a", 0.0, 99.0)) == 12.0 / EVERY_DAYS[0], "a lapse begins it anew"


def test_right_in_the_same_sitting_tells_little():
    later = (("a", 1.0, 2.0), ("a", 1.0, 3.0))
    assert taken(("a", 0.0, 1.0), ("a", 1.0, 1.01), *later) == taken(("a", 0.0, 1.0), *later) < 12.0 / EVERY_DAYS[1]


def test_the_drills_of_all_answers_add_up_as_they_come():
    begun = Upkeep([("a", 0.0, 1.0), ("b", 0.0, 1.0)])
    assert begun.seconds_a_day(lambda name: 10.0) == 20.0 / EVERY_DAYS[0]
    begun.answered("c", 0.0, 1.0)
    assert begun.seconds_a_day({"c": 6.0}.get) == 26.0 / EVERY_DAYS[0], "what a question takes is asked once"
