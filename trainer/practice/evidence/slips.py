"""The slips that cost most, over all drills: what there is to talk about."""

from collections import Counter

import numpy as np

from trainer.practice.evidence import retold
from trainer.practice.evidence.areas import RECENT_DAYS

MOST, FEWEST = 8, 2


def common(history, store, library, *, answers=True):
    """Return records of the named slips of the last weeks of practice, the most frequent first.

    A slip of one name in several drills of one area is one slip.  Without ``answers`` those are left out that tell
    what was typed because their drill hardly varies.
    """
    drills = library.drills
    if not len(history):
        return []
    mine = history.recent(RECENT_DAYS) & ~history.slips.is_("")
    found = Counter()
    homes = {}
    for slip, place in zip(history.slips.rows[mine], history.drills.rows[mine], strict=True):
        drill = drills.get(history.drills.names[place])
        if drill is not None and (answers or retold.varies(drill, library)):
            key = (history.slips.names[slip], drill.area)
            found[key] += 1
            homes.setdefault(key, Counter())[place] += 1
    ranked = sorted(found.items(), key=lambda one: (-one[1], one[0]))
    return [
        _slip(name, area, count, homes[name, area], history, store, library, answers)
        for (name, area), count in ranked
        if count >= FEWEST
    ][:MOST]


def _slip(name, area, count, places, history, store, library, answers):
    recent = history.recent(RECENT_DAYS)
    wrong = int((np.isin(history.drills.rows, list(places)) & recent & ~history.right).sum())
    ids = [history.drills.names[place] for place, _ in places.most_common()]
    drill = library.drills[ids[0]]
    slipped = next(one for one in store.reviews(drill=drill.id, newest_first=True) if one.slip == name)
    question = retold.example(slipped, drill, library, answers=answers)
    return {
        "name": name,
        "area": area,
        "words": retold.slip_words(name, question, drill),
        "title": retold.title_of(drill) or (question.text if question else drill.id),
        "count": count,
        "of": wrong,
        "drills": ids[:10],
    }
