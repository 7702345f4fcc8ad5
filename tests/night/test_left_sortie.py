"""A sortie can be left and taken up again; what was missed is asked first; weak drills come up more often."""

import io
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from tests.night.keys import right, wrong
from trainer.clock import StillClock
from trainer.practice import asked_first
from trainer.practice.night import left_sortie
from trainer.practice.night.debrief import OFF, Told, Walk
from trainer.practice.night.prepare import make_again, make_ready
from trainer.practice.night.rehearsal import Rehearsal
from trainer.practice.night.sortie.log import PHASES, Log
from trainer.store.store import Store
from trainer.terminal import rehearsal as loop
from trainer.terminal.look import Look
from trainer.terminal.plain import PlainPrompt


class Ticking(StillClock):
    """A clock on which every look at the seconds takes ten of them."""

    measures = True
    passed = 0.0

    def seconds(self):
        self.passed += 10.0
        return self.passed


def _fly(rehearsal, flown, clock, lines):
    out = io.StringIO()
    typed = io.StringIO("".join(f"{line}\n" for line in lines))
    return loop.run(rehearsal, flown, PlainPrompt(Look(width=80), clock=clock, stream=typed, out=out)), out.getvalue()


def _typed(flown, library, *, missing=()):
    asked = [event.question for event in flown.events if event.question]
    return [(wrong if at in missing else right)(question, library) for at, question in enumerate(asked)]


def test_it_goes_on_where_it_was_left_and_nothing_is_stored_twice(library, standard, store, clock, home):
    flown = make_ready(library, standard, seed="7", case=3, first="marshal", last="marshal")
    typed = _typed(flown, library, missing=(1,))
    _fly(Rehearsal(flown=flown, library=library, store=store, clock=clock), flown, clock, [*typed[:4], "q"])
    found = left_sortie.last(home)
    assert len(found.answers) == 4 == store.count() and found.questions == flown.questions
    again = make_again(library, standard, found.order)
    assert found.fits(again)
    resumed = Rehearsal(flown=again, library=library, store=store, clock=clock, left=found)
    sheet, text = _fly(resumed, again, clock, typed[4:])
    assert f"Taken up again: seed 7, Case III as briefed, marshal; {flown.questions - 4} of" in " ".join(text.split())
    assert sheet.complete and [answer.clean for answer in sheet.answers].count(False) == 1
    assert store.count() == flown.questions and left_sortie.last(home) is None


def test_its_clock_stands_while_it_is_left(library, standard, home):
    clock = Ticking(datetime(2026, 12, 4, 19, tzinfo=UTC))
    with Store.open(home, clock=clock) as store:
        flown = make_ready(library, standard, seed="7", case=3, first="marshal", last="marshal")
        typed = _typed(flown, library)
        sheet, _ = _fly(Rehearsal(flown=flown, library=library, store=store, clock=clock), flown, clock, typed[:3])
        found = left_sortie.last(home)
        assert found.seconds == sheet.seconds > 0
        clock.passed += 100_000.0
        again = Rehearsal(flown=flown, library=library, store=store, clock=clock, left=found)
        whole, _ = _fly(again, flown, clock, typed[3:])
        assert found.seconds < whole.seconds < 50_000
        assert [answer.seconds for answer in whole.answers[:3]] == [answer.seconds for answer in sheet.answers]


def test_another_sortie_does_not_take_the_left_one_away(library, standard, store, clock, home):
    left = make_ready(library, standard, seed="7", case=3, first="marshal", last="marshal")
    _fly(Rehearsal(flown=left, library=library, store=store, clock=clock), left, clock, ["s", "q"])
    other = make_ready(library, standard, seed="8", case=3, first="brief", last="brief")
    for lines in ([], _typed(other, library)):
        _fly(Rehearsal(flown=other, library=library, store=store, clock=clock), other, clock, lines)
        assert left_sortie.last(home).order.seed == "7"
    _fly(Rehearsal(flown=other, library=library, store=store, clock=clock), other, clock, ["s", "q"])
    assert left_sortie.last(home).order.seed == "8"


def test_changed_decks_are_noticed(library, standard, store, clock, home):
    flown = make_ready(library, standard, seed="7", case=3, first="marshal", last="marshal")
    _fly(Rehearsal(flown=flown, library=library, store=store, clock=clock), flown, clock, ["s", "q"])
    drills = {one: drill for one, drill in library.drills.items() if one != "push-easy"}
    changed = make_again(replace(library, drills=drills), standard, left_sortie.last(home).order)
    assert not left_sortie.last(home).fits(changed)


WHOLE = {
    "order": {"seed": "1"}, "standard": "night-board", "answers": [{"typed": "233", "seconds": 3.0}], "seconds": 3.0,
    "questions": 17, "digest": "x",
}  # fmt: skip


@pytest.mark.parametrize(
    "damaged",
    [
        3, {}, {"order": {}}, {"order": {"seed": "1"}, "answers": 4},
        *({**WHOLE, name: value} for name, value in (
            ("order", {"seed": 1}), ("order", {"seed": "1", "case": 7}),
            ("order", {"seed": "1", "given": {"fuel": "x"}}),
            ("order", {"seed": "1", "sead": 2}), ("order", {"seed": "1", "weakness": [1]}), ("answers", [{"typed": 4}]),
            ("answers", [{"typed": "4", "seconds": "soon"}]), ("seconds", "3"), ("questions", None),
        )),
    ],
)  # fmt: skip
def test_what_is_damaged_is_no_left_sortie(store, home, damaged):
    store.set_setting(left_sortie.SETTING, WHOLE)
    assert left_sortie.last(home).order.seed == "1"
    store.set_setting(left_sortie.SETTING, damaged)
    assert left_sortie.last(home) is None


def test_what_was_missed_is_asked_first(library, standard, store, clock):
    flown = make_ready(library, standard, seed="7", case=3, first="marshal", last="marshal")
    typed = _typed(flown, library, missing=(0, 3))
    _fly(Rehearsal(flown=flown, library=library, store=store, clock=clock), flown, clock, typed)
    asked = [event.question.drill_id for event in flown.events if event.question]
    listed = asked_first.listed(store)
    assert set(listed) == {asked[0], asked[3]}
    assert all(reason.startswith("missed in the rehearsal of ") for reason in listed.values())


def test_what_went_wrong_in_the_air_is_asked_first(library, store, clock):
    walk = Walk(library=library, store=store, clock=clock, case=3, flown="2026-12-04")
    phase, items = next(iter(walk.phases().items()))
    walk.tell(phase, (Told(item=items[0], how=OFF), Told(item=items[1], how="right")))
    walk.finish()
    assert asked_first.listed(store) == {items[0].drill_id: "off in the air on 2026-12-04"}


def test_weak_drills_come_up_more_often_where_there_is_a_choice(library):
    pool = ("wand-wipe-out", "wand-flaps-down", "lost-director", "second-director")

    def counted(weakness):
        found = Counter()
        for seed in range(400):
            log = Log(library, seed, weakness)
            log.some(1, *pool)
            found[log.events[0].question.drill_id] += 1
        return found

    even, weak = counted(None), counted(lambda drill_id: float(drill_id == "lost-director"))
    assert max(even.values()) < 150 and weak["lost-director"] > 2 * even["lost-director"]


def test_without_weakness_a_seed_is_the_same_for_everybody(library, standard):
    one = make_ready(library, standard, seed="7", case=3)
    assert one.order.weakness == {}
    weighed = make_ready(library, standard, seed="7", case=3, weakness=lambda drill_id: 0.5)
    assert weighed.order.weakness and make_again(library, standard, weighed.order).events == weighed.events


@pytest.mark.parametrize("phase", [phase for phase in PHASES if phase != "divert"])
def test_a_phase_alone_takes_minutes(library, standard, phase):
    flown = make_ready(library, standard, seed="2", case=3, first=phase, last=phase)
    assert flown.phases == phase and 1 <= flown.minutes <= 7
