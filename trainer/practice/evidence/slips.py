"""The slips that cost most, over all drills: what there is to talk about."""

from collections import Counter

import numpy as np

from trainer.practice.evidence import retold
from trainer.practice.evidence.areas import RECENT_DAYS

MOST, FEWEST = 8, 2


def common(history, store, drills):
    """Return records of the named slips of the last weeks of practice, the most frequent first.

    A slip of one name in several drills of one area is one slip.
    """
    if not len(history):
        return []
    mine = history.recent(RECENT_DAYS) & ~history.slips.is_("")
    found = Counter()
    homes = {}
    for slip, place in zip(history.slips.rows[mine], history.drills.rows[mine], strict=True):
        drill = drills.get(history.drills.names[place])
        if drill is not None:
            key = (history.slips.names[slip], drill.area)
            found[key] += 1
            homes.setdefault(key, Counter())[place] += 1
    ranked = sorted(found.items(), key=lambda one: (-one[1], one[0]))
    return [_slip(*key, count, homes[key], history, store, drills) for key, count in ranked if count >= FEWEST][:MOST]


def _slip(name, area, count, places, history, store, drills):
    recent = history.recent(RECENT_DAYS)
    wrong = int((np.isin(history.drills.rows, list(places)) & recent & ~history.right).sum())
    ids = [history.drills.names[place] for place, _ in places.most_common()]
    drill = drills[ids[0]]
    example = next(one for one in store.reviews(drill=drill.id, newest_first=True) if one.slip == name)
    return {
        "name": name,
        "area": area,
        "words": retold.slip_words(name, example, drill),
        "title": retold.title_of(drill) or example.question,
        "count": count,
        "of": wrong,
        "drills": ids[:10],
    }
