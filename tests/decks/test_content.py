"""The recall drills and flows of the shipped decks: enough of them, each with its source, in our own words."""

import re
from dataclasses import replace

import pytest

from trainer.decks import library
from trainer.decks.words import normalise
from trainer.drills import grading, questions, recitation
from trainer.drills.check_deck import check
from trainer.model import AREAS, FlowDrill, RecallDrill
from trainer.paths import shipped_decks

DECKS = [path for path in sorted(shipped_decks().glob("*.toml")) if not path.stem.endswith("-numbers")
         and re.search(r"^\[\[(?:recall|flow)\]\]", path.read_text(encoding="utf-8"), re.MULTILINE)]  # fmt: skip
FEWEST_FLOWS, FEWEST_RECALL = 31, 260
FEWEST_BY_AREA = {"flow": 2, "recall": 20}
LONGEST = {"ask": 130, "why": 130, "hint": 130, "do": 75, "skipped": 90, "choice": 70, "accept": 60}

# The first thing the pilot does, before anything is looked up or reckoned.
IMMEDIATE_ACTION = {
    "suspend-by-pilot": "say-no",
    "suspend-by-officer": "stay",
    "hangfire": "stay",
    "bingo": "report",
    "lost-communications-case-3": "squawk",
    "no-radio-pattern": "aviate",
    "brakes-failed-taxi": "emergency-brake",
    "soft-shot": "power",
    "engine-failure-stroke": "power",
    "blown-tyre-launch": "fly",
    "unsafe-gear": "fly",
    "hook-stays-up": "waveoff",
    "lost-lead": "instruments",
    "lost-communications-day": "aviate",
    "no-radio-day-ship": "squawk",
    "hot-start": "off",
    "waveoff-case-1": "power",
    "bolter-case-1": "power",
    "bolter-case-3": "power",
}

# Facts on which the sources differ: the fleet's is asked plainly, the question says of another whose rule it is.
CONTESTED = (
    "case-3-or", "clearing-turn-heading-training", "push-interval-amphibious",
    "penetration-rate-amphibious-most", "overhead-lowest-training", "overhead-lowest-fleet", "abeam-trainer",
    "abeam-fleet", "one-eighty-descent", "one-eighty-descent-fleet", "ninety-altitude", "ninety-altitude-fleet",
    "own-waveoff", "lens-field-angle", "lead-radials-third", "radius-30-bank", "sight-radio",
    "grade-underlined", "grade-pattern-waveoff",
    "break-speed-training", "break-wingman", "marshal-relative-to",
    "platform-ends-carrier", "platform-ends-amphibious",
)  # fmt: skip
NAMES_A_RULE = re.compile(
    r"training (text|command)|trainer pattern|fleet|controllers' manual|amphibious|from memory of the trade|narrative"
    r"|essay|web log|encyclopedia|figure|schoolroom|theory text|definition of platform|cv-1|one-third rule|quick rule"
    r"|bubble",
    re.IGNORECASE,
)

# Turns of phrase that our own short wording has no use for, and official text can't do without.
OFFICIALESE = re.compile(
    r"\b(shall|in accordance with|iaw|utili[sz]e|personnel|authori[sz]ed|commenced|prior to|aforementioned"
    r"|refer to|snas?|cnatra|natracom)\b",
    re.IGNORECASE,
)
# Aircraft and equipment designators and ships' names; approach CV-1 is a word of the trade.
DESIGNATOR = re.compile(r"\b(?:USS \w+|(?!CV-1\b)[A-Z]{1,4}/?[A-Z]?-\d{1,3}[A-Z]?)\b")


@pytest.fixture(scope="module")
def shipped():
    """Return the library of the decks that hold recall drills or flows, these drills alone."""
    loaded = library.load(files=DECKS)
    kept = {drill.id: drill for drill in loaded.drills.values() if isinstance(drill, FlowDrill | RecallDrill)}
    return replace(loaded, drills=kept)


@pytest.fixture(scope="module")
def faults():
    return [str(fault) for fault in check(DECKS, draws=0)]


@pytest.fixture(scope="module")
def flows(shipped):
    return [drill for drill in shipped.drills.values() if drill.kind == "flow"]


@pytest.fixture(scope="module")
def recalls(shipped):
    return [drill for drill in shipped.drills.values() if drill.kind == "recall"]


def texts_of(drill):
    """Yield (what it is, text) of everything in ``drill`` that a person reads, sources left out."""
    yield from ((key, getattr(drill, key)) for key in ("why", "hint") if getattr(drill, key))
    if drill.kind == "flow":
        yield from (("ask", drill.title), ("ask", drill.cue))
        for step in drill.steps:
            yield from (("do", step.do), ("skipped", step.skipped), ("ask", step.cue), ("ask", step.actor))
            yield from (("accept", short) for short in step.short)
    else:
        yield ("ask", drill.ask)
        yield from (("choice", choice) for choice in drill.choices)
        yield from (("accept", words) for words in (*drill.accept, *drill.refuse))


def sources_of(drill):
    """Yield the sources of ``drill`` and of its steps."""
    yield drill.source
    yield from (step.source for step in getattr(drill, "steps", ()) if step.source)


@pytest.mark.parametrize("deck", [path.name for path in DECKS])
def test_deck_has_no_fault(faults, deck):
    assert [fault for fault in faults if f"{deck}:" in fault] == []


def test_there_are_enough_flows_and_recall_drills(flows, recalls):
    assert len(flows) >= FEWEST_FLOWS
    assert len(recalls) >= FEWEST_RECALL


@pytest.mark.parametrize("area", AREAS)
@pytest.mark.parametrize("kind", FEWEST_BY_AREA)
def test_every_area_has_its_share(shipped, area, kind):
    here = [drill.id for drill in shipped.drills.values() if (drill.area, drill.kind) == (area, kind)]
    assert len(here) >= FEWEST_BY_AREA[kind]


def test_every_fact_has_a_source_and_what_is_published_can_be_looked_up(shipped):
    for drill in shipped.drills.values():
        for source in sources_of(drill):
            assert source.text and source.status, drill.id
            if source.status in ("published", "secondary"):
                assert source.url.startswith("http"), (drill.id, source)
                assert "memory" not in source.text, (drill.id, source)


def test_a_fact_without_a_document_does_not_claim_to_be_published(shipped):
    for drill in shipped.drills.values():
        for source in sources_of(drill):
            if not source.url:
                assert source.status in ("common practice", "memory", "invented"), (drill.id, source)


@pytest.mark.parametrize("flow, first", IMMEDIATE_ACTION.items())
def test_the_immediate_action_is_the_first_step_and_waits_for_nothing(shipped, flow, first):
    step = shipped.drills[flow].steps[0]
    assert (step.id, step.after, step.actor) == (first, (), "pilot")


def test_every_emergency_flow_is_held_to_its_immediate_action(flows):
    assert {flow.id for flow in flows if flow.area == "emergency"} <= set(IMMEDIATE_ACTION)


def test_no_emergency_drill_asks_for_a_number_to_be_reckoned(recalls):
    assert [drill.id for drill in recalls if drill.area == "emergency" and drill.value is not None] == []


def test_every_flow_says_why_and_every_step_what_goes_wrong(flows):
    for flow in flows:
        assert flow.why, flow.id
        for step in flow.steps:
            assert step.skipped, (flow.id, step.id)
            assert 2 <= len(step.short) <= 15, (flow.id, step.id)  # as people really say it


def test_dependencies_are_more_than_chains(flows):
    """A chain forbids orders that do no harm; lists of items on the radio are chains by nature."""
    chains = [flow.id for flow in flows if all(len(step.after) == 1 for step in flow.steps[1:])
              and [step.after[0] for step in flow.steps[1:]] == [step.id for step in flow.steps[:-1]]]  # fmt: skip
    assert len(chains) <= len(flows) // 3, chains


def test_most_recall_drills_say_why(recalls):
    assert sum(bool(drill.why) for drill in recalls) > len(recalls) * 0.6


def test_no_two_drills_ask_the_same(recalls):
    asked = [normalise(drill.ask) for drill in recalls]
    assert sorted({ask for ask in asked if asked.count(ask) > 1}) == []


@pytest.mark.parametrize("drill_id", CONTESTED)
def test_where_sources_differ_the_question_names_whose_rule_it_asks(shipped, drill_id):
    assert NAMES_A_RULE.search(shipped.drills[drill_id].ask)


def test_texts_are_short_enough_to_be_our_own_and_to_be_read_aloud(shipped):
    long = [(drill.id, text) for drill in shipped.drills.values() for kind, text in texts_of(drill)
            if len(text) > LONGEST[kind]]  # fmt: skip
    assert long == []


def test_no_turn_of_phrase_of_official_text(shipped):
    found = [(drill.id, text) for drill in shipped.drills.values() for _, text in texts_of(drill)
             if OFFICIALESE.search(text)]  # fmt: skip
    assert found == []


def test_no_aircraft_type_equipment_or_ship_is_named(shipped):
    found = [(drill.id, text) for drill in shipped.drills.values() for _, text in texts_of(drill)
             if DESIGNATOR.search(text)]  # fmt: skip
    assert found == []


def test_questions_are_whole_sentences(recalls):
    assert [drill.id for drill in recalls if not drill.ask.endswith(("?", "."))] == []


def test_wrong_choices_are_plausible_beside_the_right_one(recalls):
    """The right choice must not be given away by its length."""
    for drill in recalls:
        wrong = [choice for choice in drill.choices if choice != drill.accept[0]]
        assert not wrong or len(drill.accept[0]) <= 25 + max(map(len, wrong)), drill.id


def test_accepted_words_are_right_and_refused_words_wrong_when_typed(shipped, recalls):
    for drill in recalls:
        question = questions.make(drill, shipped, "1")
        expected = [(words, 1.0) for words in drill.accept] + [(words, 0.0) for words in drill.refuse]
        expected += [(choice, 0.0) for choice in drill.choices if choice != drill.accept[0]]
        for typed, score in expected:
            grade = grading.grade(question, drill, shipped, typed, 1.0)
            assert grade.score == score, (drill.id, typed)


def test_every_short_form_is_read_as_its_own_step(flows):
    for flow in flows:
        for step in flow.steps:
            for typed in (step.do, *step.short):
                assert recitation.read_line(typed, flow) == step.id, (flow.id, typed)


# Letter, hyphen or slash, number: how aircraft types are written (T-45C, F/A-18).  Publications are P-1265, CV-1.
TYPE = re.compile(r"\b(?:[ABCEFSTUV]|F/A|EA|SH|AV)-\d{1,3}[A-F]?\b")


def test_no_source_on_screen_prints_an_aircraft_type():
    from trainer.decks import library
    from trainer.engine.quantities import QUANTITIES

    shown = {drill.source.text for drill in library.load().drills.values()}
    shown |= {quantity.source.text for quantity in QUANTITIES.values()}
    assert [text for text in sorted(shown) if TYPE.search(text)] == []
    assert TYPE.search("CNATRA P-869 (T-6A Navigation)") and not TYPE.search("CNATRA P-1265, RIFP-02")
