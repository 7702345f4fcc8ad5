"""Pages made from templates: one self-contained HTML file each.  The only module that imports jinja2.

Everything that goes into a page is escaped, nothing is loaded from anywhere, and no script runs: the page says
so itself in its content security policy, which allows the one style block by its digest.
"""

import base64
import hashlib
from pathlib import Path

from trainer.files import write_whole
from trainer.pages.text import clean

TEMPLATES = Path(__file__).with_name("templates")
STYLE = "page.css"


def page(template, *, style=(), **context):
    """Return the HTML of ``template``; ``style`` names style sheets besides the common one."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    css = "\n".join((TEMPLATES / name).read_text(encoding="utf-8").strip() for name in (STYLE, *style))
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_harmless,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= {"percent": percent, "minutes": minutes, "counted": counted}
    return environment.get_template(template).render(css=css, policy=policy(css), **context)


def policy(css):
    """Return the content security policy of a page whose one style block is ``css``."""
    digest = base64.b64encode(hashlib.sha256(css.encode("utf-8")).digest()).decode("ascii")
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def _harmless(value):
    """Return what goes into the page: a text without control characters; markup made by ``plots`` as it is."""
    return clean(value) if type(value) is str else value


def percent(share):
    """Return a share as a whole per cent, a dash for None."""
    return "–" if share is None else f"{share:.0%}".replace("%", "\u202f%")


def minutes(value):
    """Return a duration in minutes as people say it; None is more than there is time for."""
    if value is None:
        return "out of reach"
    if value < 90:
        return f"{value:.0f} min" if value >= 1 else "–" if value == 0 else "1 min"
    return f"{value / 60:.1f} h"


def counted(number, noun):
    """Return ``number`` with its ``noun``, which gets an s for all but one."""
    return f"{number:,} {noun}{'' if number == 1 else 's'}"


def write(path, html):
    """Write ``html`` to ``path``; raises ``StorageError`` where it can't be written."""
    write_whole(path, html, hint="choose another file with --out")
