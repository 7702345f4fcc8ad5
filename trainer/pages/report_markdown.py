"""The report on one pilot as Markdown (CommonMark with tables), in the order of the page."""

from trainer.pages import report_outline
from trainer.pages.text import markdown as safe

FENCE = "~~~~~~"


def write(report):
    """Return the Markdown of the record ``report``; its seal is still open."""
    lines = [line for kind, found in report_outline.outline(report) for line in _FORMS[kind](found)]
    return "\n".join(lines).strip("\n") + "\n"


def _table(rows):
    heads, *others = [[safe(cell) for cell in row] for row in rows]
    return [
        "| " + " | ".join(heads) + " |",
        "|" + " --- |" * len(heads),
        *("| " + " | ".join(row) + " |" for row in others),
        "",
    ]


def _fixed(lines):
    return [f"{FENCE}text", *[line.replace(FENCE, "") for line in lines], FENCE, ""] if lines else []


def _each(before, after=""):
    """Return the form of lines that each stand between ``before`` and ``after``, with a blank line behind them."""
    return lambda lines: [*[f"{before}{safe(line)}{after}" for line in lines], ""] if lines else []


_FORMS = {
    report_outline.HEADING: _each("# "),
    report_outline.SECTION: _each("## "),
    report_outline.DRILL: _each("### "),
    report_outline.STRONG: _each("**", "**"),
    report_outline.WORDS: _each(""),
    report_outline.ITEMS: _each("- "),
    report_outline.NUMBERED: lambda lines: [*[f"{at}. {safe(line)}" for at, line in enumerate(lines, 1)], ""],
    report_outline.TABLE: _table,
    report_outline.FIXED: _fixed,
    report_outline.SEAL: lambda lines: [f"`{line}`" for line in lines],  # the one sign that is meant as it is
}
