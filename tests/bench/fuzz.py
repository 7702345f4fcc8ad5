"""Throws damaged and made-up input at everything that reads what a stranger may have written.

``python -m tests.bench.fuzz [TARGET …] [--minutes M | --inputs N] [--seed N]`` mutates sound samples for ``M`` minutes
per target, or ``N`` times, and prints what was tried and found; ``shapes line --inputs 20000`` is what is promised.
With ``--guided`` it is guided by coverage, which needs atheris (``pip install atheris``; Linux); ``--guided`` takes one
target and goes on until it finds something or time is up.
A finding is an exception that is none of the answers we give, a control character on the screen, or an input
that takes longer than ``LONGEST_S``.  What was found once is kept as a test under tests/faults.
"""

import argparse
import random
import sys
import time
import traceback
from collections import Counter

from tests.bench import fuzzing, fuzzing_commands, fuzzing_home
from tests.bench.fuzzing import FOLDER

TARGETS = fuzzing.TARGETS | fuzzing_home.TARGETS | fuzzing_commands.TARGETS
LONGEST_S = 5.0
MOST = 20_000  # bytes of an input
PIECES = [
    b'"', b"\\u001b", b"\x1b[2J", b"[", b"{", b"}", b"\n", b"=", b"-1", b"1e999", b"nan", b"99999999999999999999",
    b"true", b"null", b"\xe2\x80\xae", b"\x00", b"../", b"__class__", b"<script>", b"0", b".5", b"\xef\xbb\xbf",
]  # fmt: skip


def mutated(samples, rng):
    """Return one of ``samples`` with a few pieces cut, doubled, changed, or taken from another sample."""
    data = bytearray(rng.choice(samples))
    for _ in range(rng.choice((0, 1, 1, 2, 4, 9))):
        at, length = rng.randint(0, len(data)), rng.choice((0, 1, 1, 2, 5, 20, 80))
        other = rng.choice(samples)
        start = rng.randint(0, len(other))
        new = rng.choice(
            (
                rng.choice(PIECES),
                bytes(data[at : at + length]) * 2,
                other[start : start + length],
                rng.randbytes(length),
                b"",
            )
        )
        data[at : at + length] = new
    if rng.random() < 0.3:
        lines = bytes(data).split(b"\n")
        rng.shuffle(lines) if rng.random() < 0.2 else lines.insert(rng.randint(0, len(lines)), rng.choice(lines))
        data = b"\n".join(lines)
    return bytes(data)[: MOST if len(samples) != 1 or len(samples[0]) < MOST else None]


def run(target, minutes, rng, inputs=None):
    """Mutate ``inputs`` times, or for ``minutes``; return (tried, slowest seconds, {what was found: first input})."""
    act, make_samples = TARGETS[target]
    samples, found, tried, slowest = make_samples(), {}, 0, 0.0
    act(samples[0])  # imports and caches are not what is timed
    end = time.monotonic() + 60 * minutes
    while time.monotonic() < end if inputs is None else tried < inputs:
        data = mutated(samples, rng)
        started = time.process_time()
        try:
            act(data)
        except (Exception, RecursionError, MemoryError) as error:
            place = traceback.extract_tb(error.__traceback__)[-1]
            found.setdefault(f"{type(error).__name__} at {place.filename}:{place.lineno}: {str(error)[:200]}", data)
        spent = time.process_time() - started
        slowest = max(slowest, spent)
        if spent > LONGEST_S:
            found.setdefault(f"took {spent:.1f} s", data)
        tried += 1
    return tried, slowest, found


def guided(target, minutes):
    """Let atheris choose the inputs by what they reach."""
    import atheris

    with atheris.instrument_imports(include=["trainer"]):
        import trainer.cli  # noqa: F401

        act, make_samples = TARGETS[target]
        samples = make_samples()
        act(samples[0])
    corpus = FOLDER / f"corpus-{target}"
    corpus.mkdir(parents=True, exist_ok=True)
    for number, sample in enumerate(samples):
        (corpus / f"sample-{number}").write_bytes(sample[:MOST])
    options = [
        sys.argv[0],
        str(corpus),
        f"-max_total_time={int(60 * minutes)}",
        f"-max_len={MOST}",
        "-timeout=20",
        "-rss_limit_mb=3000",
        "-print_final_stats=1",
        f"-artifact_prefix={FOLDER}/found-{target}-",
    ]
    atheris.Setup(options, act)
    atheris.Fuzz()


def main():
    """Fuzz the targets and print what was found."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("targets", nargs="*", choices=[[], *TARGETS], help="all of them by default")
    parser.add_argument("--minutes", type=float, default=1.0, help="for each target")
    parser.add_argument("--inputs", type=int, help="for each target, instead of minutes")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--guided", action="store_true")
    options = parser.parse_args()
    if options.guided:
        return guided(options.targets[0], options.minutes)
    failed = Counter()
    for target in options.targets or TARGETS:
        tried, slowest, found = run(target, options.minutes, random.Random(options.seed), options.inputs)
        print(f"{target:10} {tried:9,} inputs, slowest {slowest:.2f} s, {len(found)} found", flush=True)
        for what, data in found.items():
            print(f"    {what}\n        {data[:300]!r}", flush=True)
        failed[target] += len(found)
    sys.exit(1 if any(failed.values()) else 0)


if __name__ == "__main__":
    main()
