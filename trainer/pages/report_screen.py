"""The report on one pilot on a screen, as a person reads it: no markup, no line wider than the screen.

The screen that is handed in says how wide it is (``width``) and wraps a text (``wrap``).
"""

from trainer.pages import report_outline

LEAST_FIXED = 44  # columns that a picture takes, however narrow the screen


def lines(report, look):
    """Return the lines of the record ``report`` for the screen ``look``; its seal is still open."""
    return [line for kind, found in report_outline.outline(report) for line in _FORMS[kind](found, look)]


def _title(found, look):
    return ["", *look.wrap(found[0].upper()), ""]


def _words(found, look):
    return [line for text in found for line in look.wrap(text)]


def _items(found, look):
    return [line for text in found for line in look.wrap(text, indent="  ", hanging="    ")]


def _numbered(found, look):
    return [line for at, text in enumerate(found, 1) for line in look.wrap(f"{at}. {text}", hanging="   ")]


def _table(rows, look):
    """Return a table: under its heads where the screen is wide enough, else each row in words."""
    wide = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    if sum(wide) + 2 * len(wide) < look.width:
        return ["  ".join(cell.ljust(width) for cell, width in zip(row, wide, strict=True)).rstrip() for row in rows]
    return [line for row in rows[1:] for line in _row(rows[0], row, look)]


def _row(heads, row, look):
    *told, remark = [(head, cell) for head, cell in zip(heads[1:], row[1:], strict=True) if cell != "–"]
    text = "; ".join(f"{head} {cell}" for head, cell in told)
    return [
        *look.wrap(f"{row[0]}: {remark[1]}", hanging="    "),
        *(look.wrap(text, indent="    ") if text else ()),
    ]


def _fixed(found, look):
    shown = []
    for line in found:
        fits = len(line) + 4 < max(look.width, LEAST_FIXED + 5) and (line.startswith(" ") or len(line) + 4 < look.width)
        shown += [f"    {line}"] if fits else look.wrap(line, indent="    ", hanging="      ")
    return [*shown, ""] if shown else []


def _drill(found, look):
    return look.wrap(found[0])


_FORMS = {
    report_outline.HEADING: _title,
    report_outline.SECTION: _title,
    report_outline.DRILL: _drill,
    report_outline.STRONG: lambda found, look: ["", *look.wrap(found[0])],
    report_outline.WORDS: _words,
    report_outline.ITEMS: _items,
    report_outline.NUMBERED: _numbered,
    report_outline.TABLE: _table,
    report_outline.FIXED: _fixed,
    report_outline.SEAL: lambda found, look: [],  # a screen is not sealed
}
