"""Writes trainer/reading/language/related_words.txt: everyday words that stand near a word of the decks, from WordNet.

Run by hand with the folder of WordNet's files (index.sense, data.noun ...), which are not part of the project:
``python -m tests.reading.related_words FOLDER``.  Read the difference before it is committed.
"""

import re
import sys
from collections import Counter, defaultdict
from pathlib import Path

from trainer.decks import library
from trainer.model import RecallDrill
from trainer.reading.language import everyday_words, opposites, synonyms
from trainer.reading.language.word_forms import canonical_words, plain_form, stems

TARGET = Path(__file__).parents[2] / "trainer" / "reading" / "language" / "related_words.txt"
SENSES = 5  # of a word of the decks, the most frequent first
COMMON = 1  # how often WordNet's marked texts hold a word at least
KINDS = {"n": "noun", "v": "verb", "a": "adj", "s": "adj", "r": "adv"}
NEAR = {"~": "v", "@": "v", "&": "a", "+": "nv"}  # pointer: the parts of speech where it leads to something near


def words_of_decks():
    """Return every word of the wordings of steps and of recall answers."""
    drills = library.load().drills.values()
    texts = [text for one in drills if one.kind == "flow" for step in one.steps for text in (step.do, *step.short)]
    texts += [text for one in drills if isinstance(one, RecallDrill) for text in (*one.accept, *one.choices)]
    return {word for text in texts for word in re.findall(r"[a-z]{3,}", text.lower())} - everyday_words.STOP


def read_wordnet(folder):
    """Return (synsets {(kind, offset): (lemmas, pointers)}, senses {lemma: [(kind, offset, count)]})."""
    synsets, senses = {}, defaultdict(list)
    for kind in ("noun", "verb", "adj", "adv"):
        for line in (folder / f"data.{kind}").read_text(encoding="utf-8").splitlines():
            if not line.startswith(" "):
                parts = line.split(" | ")[0].split()
                count = int(parts[3], 16)
                lemmas = [re.sub(r"\(\w+\)", "", word).lower() for word in parts[4 : 4 + 2 * count : 2]]
                at = 4 + 2 * count
                pointers = [tuple(parts[at + 1 + 4 * n : at + 5 + 4 * n]) for n in range(int(parts[at]))]
                synsets[kind, int(parts[0])] = (lemmas, pointers)
    for line in (folder / "index.sense").read_text(encoding="utf-8").splitlines():
        key, offset, number, count = line.split()
        lemma, kind = key.split("%")
        senses[lemma].append(
            (int(number), {"1": "noun", "2": "verb", "4": "adv"}.get(kind[0], "adj"), int(offset), int(count))
        )
    return synsets, senses


def near(lemma, synsets, senses):
    """Return the words that stand near ``lemma`` in its frequent senses, without its antonyms."""
    found, against = set(), set()
    for number, kind, offset, count in sorted(senses.get(lemma, ())):
        if number > SENSES and not count:
            continue
        lemmas, pointers = synsets[kind, offset]
        found.update(lemmas)
        for sign, target, of, _ in pointers:
            other = synsets.get((KINDS[of], int(target)), ([], []))[0]
            if sign == "!":
                against.update(other)
            elif of.replace("s", "a") in NEAR.get(sign, "") and (number <= 3 or count > 1):
                found.update(other)
    return {word for word in found - against if word.isalpha() and word != lemma}


def main(folder):
    synsets, senses = read_wordnet(folder)
    counts = Counter({lemma: sum(one[3] for one in several) for lemma, several in senses.items()})
    own = words_of_decks()
    known = {plain_form(word) for word in own} | _spoken_for()
    table = defaultdict(set)
    for word in own:
        lemma = next((form for form in stems(everyday_words.IRREGULAR.get(word, word)) if form in senses), word)
        plain = canonical_words().get(plain_form(word), plain_form(word))
        for other in near(lemma, synsets, senses):
            if (
                counts[other] >= COMMON
                and len(other) > 2
                and plain_form(other) not in known
                and plain_form(other) != plain
            ):
                table[other].add(plain)
    for word in own:
        table.setdefault(word, set())  # known as a word, so that it is no slip for another
    notice = [
        line[4:] for line in (folder / "data.noun").read_text(encoding="utf-8").splitlines() if line.startswith("  ")
    ]
    head = "# Everyday words and the words of the decks they stand near.  Written by tests/reading/related_words.py.\n"
    head += "".join(f"# {line}".rstrip() + "\n" for line in notice)
    lines = [f"{other} {' '.join(sorted(plains))}" for other, plains in sorted(table.items())]
    TARGET.write_text(head + "\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def _spoken_for():
    """Return the words of which the lexicon itself says what they mean."""
    words = set(opposites.NEGATIONS) | set(opposites.DOUBTFUL) | set(everyday_words.STOP) | set(everyday_words.LIGHT)
    words |= {word for ends in opposites.AXES.values() for end in ends for word in end.split()}
    words |= set(synonyms.SYNONYMS) | {word for several in synonyms.SYNONYMS.values() for word in several}
    return {plain_form(word) for word in words}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
