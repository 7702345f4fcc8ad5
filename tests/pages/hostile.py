"""Texts that want to be more than text, and a record with one of them in every place that a person can fill."""

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "'-alert(1)-'",
    "</style><svg onload=alert(1)>",
    "{{ 7*7 }}{% raw %}",
    '=HYPERLINK("http://example.invalid","x")',
    "@SUM(1+1)*cmd|' /C calc'!A0",
    "-2+3",
    "\t=1+1",
    "\x1b[31mred\x07\x00\u202e\u200b\ufeff",
    "[link](javascript:alert(1)) ![i](http://example.invalid/x.png) `code` | cell |",
    "trainer-seal:" + "a" * 64,
    "line\r\nbreak\u2028more",
    "x" * 10_000,
    "é\ud800lone",
)

# Places whose words are the trainer's own: other code depends on them.
_OWN = {
    "area", "kind", "verdict", "format", "at", "day", "last", "from", "to", "digest", "head", "withdrawals_head", "id",
    "last_flown", "areas", "unit", "local", "trainer", "engine", "drills",
}  # fmt: skip


def filled(value, text, key=""):
    """Return the record ``value`` with ``text`` in every place that a person or a deck can fill."""
    if isinstance(value, dict):
        return {name: filled(entry, text, name) for name, entry in value.items()}
    if isinstance(value, list):
        return [filled(entry, text, key) for entry in value]
    return text if isinstance(value, str) and key not in _OWN else value
