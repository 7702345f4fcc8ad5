"""The list of all checks as a page to read: ``python -m tests.authorities.table`` writes ``checks.md``."""

from tests.authorities.published import FOLDER, rows
from trainer.engine.quantities import QUANTITIES

PAGE = FOLDER / "checks.md"
HEAD = """# What each quantity is checked against

Written by `python -m tests.authorities.table`; do not edit. *Refuted* marks a known misprint or trap that the
engine must not give.

"""
BY_HAND = """## Worked by hand, no outside value

For these no page, table or library was found that prints a value; their checks are sums of our own, and in the
engine they are arithmetic of one or two lines:

"""
OUTSIDE = ("published", "secondary")  # what somebody else printed; memory and common practice are our own words


def _cell(text):
    return str(text).replace("|", "\\|").replace("\n", " ")


def _source(source):
    """Return the source as one cell: text, section, status and, where it is an address, a link."""
    text = ", ".join(part for part in (source["text"], source.get("section", "")) if part)
    url = source.get("url", "")
    shown = f"[{text}]({url})" if url.startswith("http") and " " not in url else f"{text}; {url}" if url else text
    return _cell(f"{shown} ({source['status']})")


def _printed(outputs):
    """Return every printed value with its tolerance and, where it is not ours, its unit."""
    return "; ".join(
        f"{name} {values[0]} ± {values[1]:g}" + (f" {values[2]}" if len(values) == 3 else "")
        for name, values in outputs.items()
    )


def _line(row):
    kind = f"{row['kind']}, refuted" if row.get("refute") else row["kind"]
    method = f" by {row['method']}" if row.get("method") else ""
    return f"| {row['id']} | {_cell(kind)}{method} | {_cell(_printed(row['outputs']))} | {_source(row['source'])} |"


def by_hand():
    """Return the names of the quantities that no value from outside the project is checked against."""
    outside = {row["quantity"] for row in rows() if row["source"]["status"] in OUTSIDE and not row.get("refute")}
    return [name for name in QUANTITIES if name not in outside]


def page():
    """Return the whole page: a table of checks for each quantity, in the order of the table of quantities."""
    checks = {}
    for row in rows():
        checks.setdefault(row["quantity"], []).append(row)
    parts = [HEAD, BY_HAND, ", ".join(f"`{name}`" for name in by_hand()), ".\n\n"]
    for name, quantity in QUANTITIES.items():
        parts.append(f"## {name}\n\n{quantity.title}\n\n")
        parts.append("| check | kind | printed ± tolerance | source (status) |\n|---|---|---|---|\n")
        parts.append("".join(_line(row) + "\n" for row in checks.get(name, ())))
        parts.append("\n")
    return "".join(parts).rstrip("\n") + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
