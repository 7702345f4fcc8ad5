"""Reads rows out of a database file page by page, without SQLite, which refuses a file that is damaged.

The format is open and will not change: https://www.sqlite.org/fileformat.html.  Only the leaves of tables
are read; whatever does not decode is left out, and nothing that a page says is trusted to be in bounds.
"""

import contextlib
import mmap
import struct

_LEAF, _HEADER, _USUAL_PAGE = 0x0D, 100, 4096
_WAL_HEADER, _FRAME = struct.Struct(">8I"), struct.Struct(">6I")
_WAL_MAGIC = (0x377F0682, 0x377F0683)
_INTEGERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}  # bytes by type
MOST_VISITS = 4  # of one page of overflow, on average
LONGEST_ROW = 1_000_000  # bytes; a length that damage made up must not be believed


class Unreadable(Exception):
    """Bytes that are no row."""


@contextlib.contextmanager
def rows(path):
    """Yield an iterator of (rowid, tuple of values) over every row of a table that can be read in ``path``.

    Rows of all tables come mixed, in no order.  Raises ``OSError`` when the file can't be read at all.
    """
    with open(path, "rb") as file, contextlib.ExitStack() as stack:
        empty = file.seek(0, 2) == 0
        data = b"" if empty else stack.enter_context(mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ))
        yield _Pages(data, _log(path)).rows()


def _log(path):
    """Return the bytes of the log beside ``path``: the newest answers may be there only."""
    log = path.with_name(path.name + "-wal")
    return log.read_bytes() if log.is_file() else b""


class _Pages:
    def __init__(self, data, log):
        self.data, self.size = data, _page_size(data)
        self.usable = self.size - (data[20] if len(data) >= _HEADER and data[:6] == b"SQLite" else 0)
        self.newer = _newer_pages(log, self.size)
        self.numbers = sorted({*range(1, len(data) // self.size + 1), *self.newer})
        # A page of overflow belongs to one row: whoever asks for many times what there are was led astray.
        self.left = MOST_VISITS * len(self.numbers)

    def page(self, number):
        """Return the bytes of page ``number``, from 1."""
        if number in self.newer:
            return self.newer[number]
        page = self.data[(number - 1) * self.size : number * self.size] if number > 0 else b""
        if len(page) < self.size:
            raise Unreadable
        return page

    def rows(self):
        for number in self.numbers:
            try:
                page = self.page(number)
            except Unreadable:
                continue
            start = _HEADER if number == 1 else 0
            if page[start] == _LEAF:
                yield from self._cells(page, start)

    def _cells(self, page, start):
        (count,) = struct.unpack_from(">H", page, start + 3)
        for place in range(min(count, self.size // 2)):
            try:
                (at,) = struct.unpack_from(">H", page, start + 8 + 2 * place)
                yield self._cell(page, at)
            except (Unreadable, IndexError, struct.error, UnicodeDecodeError):
                continue

    def _cell(self, page, at):
        length, at = _varint(page, at)
        rowid, at = _varint(page, at)
        if length > LONGEST_ROW:
            raise Unreadable
        here = self._local(length)
        payload = page[at : at + here]
        if here < length:
            (overflow,) = struct.unpack_from(">I", page, at + here)
            payload += self._overflow(overflow, length - here)
        return rowid, _record(payload)

    def _local(self, length):
        """Return how many bytes of a row lie on its leaf (file format, section 1.6)."""
        most, least = self.usable - 35, (self.usable - 12) * 32 // 255 - 23
        if length <= most:
            return length
        share = least + (length - least) % (self.usable - 4)
        return share if share <= most else least

    def _overflow(self, number, length):
        pieces = []
        while length > 0:
            self.left -= 1
            if self.left < 0:
                raise Unreadable
            page = self.page(number)
            pieces.append(page[4 : min(self.usable, 4 + length)])
            length -= len(pieces[-1])
            (number,) = struct.unpack_from(">I", page)
        return b"".join(pieces)


def _page_size(data):
    size = struct.unpack_from(">H", data, 16)[0] if len(data) >= _HEADER else 0
    size = 65_536 if size == 1 else size
    return size if size >= 512 and size & (size - 1) == 0 else _USUAL_PAGE


def _newer_pages(log, size):
    """Return the pages of the transactions that were committed to the log, by number."""
    committed, open_pages = {}, {}
    if len(log) < _WAL_HEADER.size or _WAL_HEADER.unpack_from(log)[0] not in _WAL_MAGIC:
        return committed
    _, _, _, _, *salts, first, second = _WAL_HEADER.unpack_from(log)
    words, seen = ("<" if _WAL_HEADER.unpack_from(log)[0] == _WAL_MAGIC[0] else ">"), (first, second)
    for at in range(_WAL_HEADER.size, len(log) - size - _FRAME.size + 1, size + _FRAME.size):
        number, pages_after, *frame_salts, first, second = _FRAME.unpack_from(log, at)
        if frame_salts != salts:
            break  # from before the log was begun anew
        page = log[at + _FRAME.size : at + _FRAME.size + size]
        # Each checksum goes on from the one before, so that one damaged page costs itself alone.
        whole, seen = _checksum(log[at : at + 8] + page, words, seen) == (first, second), (first, second)
        if whole:
            open_pages[number] = page
        if pages_after:
            committed |= open_pages
            open_pages = {}
    return committed


def _checksum(data, order, start):
    """Return the checksum of a log (file format, section 4.2) over ``data``, going on from ``start``."""
    first, second = start
    words = struct.unpack(f"{order}{len(data) // 4}I", data)
    for one, two in zip(words[::2], words[1::2], strict=True):
        first = (first + one + second) & 0xFFFFFFFF
        second = (second + two + first) & 0xFFFFFFFF
    return first, second


def _varint(data, at):
    value = 0
    for place in range(9):
        byte = data[at + place]
        if place == 8:
            return (value << 8) | byte, at + 9
        value = (value << 7) | (byte & 0x7F)
        if byte < 0x80:
            return value, at + place + 1
    raise Unreadable


def _record(payload):
    """Return the values of a row (file format, section 2.1)."""
    end, at = _varint(payload, 0)
    if end > len(payload):
        raise Unreadable
    kinds = []
    while at < end:
        kind, at = _varint(payload, at)
        kinds.append(kind)
    values, at = [], end
    for kind in kinds:
        value, at = _value(payload, at, kind)
        values.append(value)
    return tuple(values)


def _value(payload, at, kind):
    if kind in (0, 8, 9):
        return {0: None, 8: 0, 9: 1}[kind], at
    size = _INTEGERS.get(kind) or (8 if kind == 7 else (kind - 12) // 2)
    if kind in (10, 11) or at + size > len(payload):
        raise Unreadable
    piece = payload[at : at + size]
    if kind < 7:
        return int.from_bytes(piece, "big", signed=True), at + size
    if kind == 7:
        return struct.unpack(">d", piece)[0], at + size
    return piece if kind % 2 == 0 else piece.decode("utf-8"), at + size
