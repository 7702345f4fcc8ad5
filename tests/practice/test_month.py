"""A month of daily practice under a frozen clock: nothing reads the time behind the clock's back."""

import random
from datetime import UTC, datetime, timedelta

import freezegun

from tests.practice.conftest import SMALL
from tests.practice.test_session import right_answer
from trainer.clock import SystemClock
from trainer.decks import library
from trainer.practice.knowledge import after_review
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.store import Store


def test_a_month_of_practice_is_remembered_and_can_be_rebuilt(home):
    person = random.Random(4)
    chances, met = [], set()
    with freezegun.freeze_time("2030-03-01 19:00:00", real_asyncio=True) as frozen:
        for day in range(30):
            with Store.open(home, clock=SystemClock()) as store:
                session = Session(
                    store=store,
                    clock=SystemClock(),
                    wish=Wish(questions=4, decks=(SMALL,)),
                    load_library=lambda: library.load(files=(SMALL,)),
                    signature="small",
                )
                while (question := session.next()) is not None:
                    frozen.tick(timedelta(seconds=6))
                    if question.drill_id in met and person.random() < 0.6 + 0.01 * day:
                        session.submit(right_answer(session, question), 6.0)
                    else:
                        session.give_up(6.0)
                    met.add(question.drill_id)
                session.finish()
                chances.append(float(session._choosing.beliefs.chances(session._day() + 21).mean()))
            frozen.move_to(datetime(2030, 3, 1, 19, tzinfo=UTC) + timedelta(days=day + 1))
        with Store.open(home, clock=SystemClock()) as store:
            assert store.count() == 120
            assert store.verify(after_review) == []
            days = {review.at.date() for review in store.reviews()}
    assert len(days) == 30
    assert chances[-1] > chances[0] + 0.1
