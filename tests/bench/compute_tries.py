"""Lines as pilots type them after ``trainer compute``: ``python -m tests.bench.compute_tries``.

Each line stands with the number that it must give (and the name of the result, where that is not the first), reckoned
beside it, or with ``ASKED`` where it may mean two things and must be asked back or refused.  Prints the share that
gives the number at once and every line that does not, and leaves with 1 below nine in ten, or where one line gives a
wrong number silently.
"""

import json
import shlex
import subprocess
import sys
import tempfile
from dataclasses import dataclass

ASKED = None
SHARE = 0.9

# What a reviewer typed who had not seen the program before.
REVIEWED = (
    ("trim 33500", 23.5),  # the invented jet's table, up to 33,500
    ("bingo 90", 2200),  # 1,700 + 40/50 x 600 = 2,180, up
    ("wind over deck --wind 330/20 --brc 330 --ship-speed 10", 30),
    ("clearing turn 217 --catapult 3", 197),  # waist, left, twenty
    ("case --ceiling 2000 --visibility 7", 2),
    ("sunset --date 2026-12-04 --utc-offset -3", 1016, "sunset_clock"),  # 24.5 N 41 W: 16:56
    ("top of descent 20000 1200", 59),  # 18,800 ft at 318 a mile
    ("dew point 20 12", 3200),  # spread 8 x 400
    ("holding drift 340 345", 145),  # 5 right inbound; 160 - 15
    ("specific gravity 3000 L 0.8 kg/L", 5291),  # 2,400 kg
    ("pressure_altitude --elevation 500 --altimeter 1019 hPa", 343),  # 5.75 hPa above standard, 27.3 ft each
    ("time_to_lose --push :24 --now 22:10", ASKED),  # minutes and seconds, or ten past ten
    ("time_to_lose --push :24 --now :10", 840),
    ("wind_over_deck --brc 340 --wind 330/10 --ship-speed 15", 24.9),
    ("arc_time --arc 30 --dme 10 --groundspeed 300", 63, "arc_time_s"),  # 30 x 10 / 60 = 5 nm, by pi 5.24 at 5 a minute
    ("lead_radials outbound --arc 10 --groundspeed 300 --method rule", 18),  # 60/10 x 3
    ("final bearing 217", 208),
    ("marshal radial 340", 160),
    ("fix 12", 27),
    ("platform angels 12 groundspeed 300", 18.25),  # 27 - 7,000/4,000 x 5
    ("true airspeed 250 kt 15000 ft -15 c", 311),
    ("mach 0.8 oat -50", 466),  # 0.8 x 38.97 x the root of 223
    ("crosswind runway 100 wind 130/20", 10),
    ("gross weight 9.1 2600", 34700),
    ("max trap stores 1100", 4500),
    ("sink rate 120", 740),  # six times is the rule; 743 at 3.5 degrees
    ("closure 135 25", 110),
    ("inhg to hpa 29.92", 1013.2),
    ("--time 1:45 distance_covered --groundspeed 300", ASKED),
    ("fuel_burn --flow 3.0 --time 20", ASKED),
    ("density_altitude --pressure-altitude 10.000 --oat 5", ASKED),
    ("final_bearing --brc 427", ASKED),
)
# And thirty more.
OWN = (
    ("final_bearing 5", 356),
    ("final bearing 005 angle 11", 354),
    ("brc from final bearing 340", 349),
    ("push time :48 3", 50),  # third from the bottom, a minute apart
    ("trim 27.5", 21),
    ("on speed 27000", 123),
    ("marshal fix angels 8", 23),
    ("gross weight --fuel 9100 --stores 2.6", 34700),
    ("gross weight --fuel 4128 kg --stores 1179 kg", 34700),
    ("fuel burn 20 min 4200", 1400),
    ("endurance 6000 groundspeed 400", 86),  # 70 a minute
    ("joker 2100", 2500),  # five minutes of 70
    ("tanking 3000 2000", 4900),  # 1.67 min of 50: 83
    ("landing weight 3000", 27100),
    ("moonrise 18:30 5", 1360),  # 250 min after sunset: 22:40
    ("lit 2026-12-09", ASKED),
    ("nm to km 30", 55.6),
    ("f to c 59", 15),
    ("kg to lb 1000", 2204.6),
    ("isa temperature 20000", -24.6),
    ("tacan partner 11", 74),
    ("needed endspeed 25", 110),
    ("recovery course 330/12", 349),  # what the card takes
    ("downwind 349", 169),
    ("groove 110", 0.46),  # 15 s
    ("glide slope 3.5", 3.2),  # from 1,200 ft
    ("compass heading 120 6", 114),
    ("cloud base 20 12", 3200),
    ("passes left 3900 2100", 3),
    ("hold 12 min", 2),  # patterns
    ("arrival 21:10 45 nm 300 kt", 1279),  # nine minutes
    ("sun sets", ASKED),
    ("wind 270/20", ASKED),
    ("45", ASKED),
)


@dataclass(frozen=True, kw_only=True)
class Tried:
    """What one line gave: the first stated value, None where it was asked back; ``told`` is what was printed."""

    line: str
    wanted: float | None
    given: float | None
    told: str

    @property
    def verdict(self) -> str:
        """Return "right", "asked" (a number was there to give) or "wrong"."""
        if self.given is None:
            return "right" if self.wanted is None else "asked"
        close = self.wanted is not None and abs(self.given - self.wanted) <= max(0.015 * abs(self.wanted), 0.05)
        return "right" if close else "wrong"


def told(line, wanted, result, code, out, err):
    """Return the ``Tried`` of a line from how ``compute --json`` ended and what it printed."""
    record = json.loads(out) if code == 0 and out.strip() else {}
    if not isinstance(record, dict) or not record.get("results"):
        return Tried(line=line, wanted=wanted, given=None, told=(err or out[:100]).strip())
    first = record["results"][result or next(iter(record["results"]))]
    return Tried(line=line, wanted=wanted, given=first["stated"], told=f"{record['quantity']} {first['text']}")


def tried(home, line, wanted, result=""):
    """Return the ``Tried`` of one line in a process of its own, as the shell would start it."""
    command = [sys.executable, "-m", "trainer", "--home", home, "compute", *shlex.split(line), "--json"]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False)
    return told(line, wanted, result, done.returncode, done.stdout, done.stderr)


def main():
    """Try every line; return 1 where too few give the number, or one is wrong."""
    with tempfile.TemporaryDirectory() as home:
        every = [tried(home, *entry) for entry in (*REVIEWED, *OWN)]
    for one in every:
        if one.verdict != "right":
            print(f"{one.verdict:6} {one.line!r}: wanted {one.wanted}, {one.told}")
    right = sum(one.verdict == "right" for one in every)
    wrong = [one for one in every if one.verdict == "wrong"]
    print(f"{len(every)} lines: {right} as they must be ({right / len(every):.0%}), {len(wrong)} wrong silently")
    return 1 if wrong or right < SHARE * len(every) else 0


if __name__ == "__main__":
    sys.exit(main())
