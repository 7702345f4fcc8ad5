"""A study sheet as a page: two columns, on A4 and on Letter."""

from trainer.pages.render import page
from trainer.pages.worked_picture import svg_of
from trainer.practice.study_sheet import Sheet


def html(sheet: Sheet, *, caution: str) -> str:
    """Return the page of ``sheet``."""
    drawn = [svg_of(f"drawn{at}", one.picture) if one.picture else "" for at, one in enumerate(sheet.rules)]
    return page(
        "study.html.j2", style=("drawn.css", "study.css"), title=sheet.title, sheet=sheet, drawn=drawn, caution=caution
    )
