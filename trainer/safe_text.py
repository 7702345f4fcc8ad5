"""Text from people, decks and files made harmless: no sign of it steers a screen, turns text round or breaks a line.

Refused are control, format (the bidirectional overrides among them), surrogate, private and unassigned characters and
the two separators that break a line or a paragraph: what Python calls not printable, less the spaces.
"""

SPACES = frozenset("\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000")
BREAKS = frozenset("\n\r\t\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029")


def is_unsafe(character: str) -> bool:
    r"""Return whether ``character`` may not reach a screen or a page.

    >>> [is_unsafe(sign) for sign in ("a", "é", " ", "\u202f", "\x1b", "\u202e")]
    [False, False, False, False, True, True]
    """
    return not character.isprintable() and character not in SPACES


def printable(text: str, *, instead: str = "") -> str:
    r"""Return ``text`` on one line: a space for what breaks a line, ``instead`` for all else that is unsafe.

    >>> printable("one\ntwo\x1b[31m")
    'one two[31m'
    """
    if text.isprintable():
        return text
    return "".join(" " if sign in BREAKS else instead if is_unsafe(sign) else sign for sign in text)


def coded(text: str) -> str:
    r"""Return ``text`` with every unsafe character written as its code point, to tell an author what stands there.

    >>> coded("tab\there")
    'tab<U+0009>here'
    """
    return "".join(f"<U+{ord(sign):04X}>" if is_unsafe(sign) else sign for sign in text)
