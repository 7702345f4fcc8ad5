"""Tonight's card as one printed page, A5 or half-letter, with the wind on the deck and the stack as pictures."""

from trainer.errors import DomainError
from trainer.pages import night_plots, seal
from trainer.pages.render import page
from trainer.practice.night.card import Card
from trainer.practice.night.card_rows import SIGN
from trainer.practice.night.evening.night import Night
from trainer.practice.night.heading import Heading


def card(made: Card, night: Night, *, heading: Heading, paper: str, caution: str) -> str:
    """Return the sealed HTML of the card ``made`` from ``night``; ``paper`` is "a5" or "half-letter"."""
    return seal.close(page(
        "card.html.j2", style=("card.css", f"card-{paper}.css"), title="Tonight's card", made=made, sign=SIGN,
        heading=heading.pairs, caution=caution, rose=_rose(night), stack=_stack(made), seal=seal.OPEN,
    ))  # fmt: skip


def _rose(night):
    """Return the rose, "" where the wind over deck can't be had."""
    try:
        relative = night["relative_wind"]
        side = "to port" if relative < 0 else "to starboard"
        angle = f"{abs(relative):.0f}° {side}" if relative else "down the bow"
        labels = (night.text("wind_over_deck"), angle, night.text("angle_wind"), night.text("angle_crosswind"))
        return night_plots.wind_rose(
            relative_deg=relative, deck_angle_deg=night.scenario.ship.deck_angle_deg, labels=labels
        )
    except DomainError:
        return ""


def _stack(made):
    if not made.stack:
        return ""
    own = next(place for place, level in enumerate(made.stack) if level.first)
    levels = [(level.angels, level.fix, level.push) for level in made.stack]
    return night_plots.stack(levels, own=own)
