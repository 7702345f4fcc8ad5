"""The stages over the drills of a library: what each holds, which one is chosen, in which order drills are met."""

from trainer import paths
from trainer.decks import stages
from trainer.frozen import frozen
from trainer.practice import curriculum

CHOSEN = "chosen stage"  # the setting that names it


@frozen
class Members:
    """The ids of a stage's drills, in the order in which they are met."""

    core: tuple[str, ...] = ()
    more: tuple[str, ...] = ()

    @property
    def all(self):
        """Return the ids of core and more."""
        return (*self.core, *self.more)


def chosen_name(store):
    """Return the name of the stage that the user chose; the first one before that."""
    name = store.setting(CHOSEN)
    return name if isinstance(name, str) and name else stages.FIRST


def chosen(store, library, home=None):
    """Return the ``Syllabus`` of the user's choice over ``library``."""
    return Syllabus(library, home, chosen_name(store))


class Syllabus:
    """The stages of ``home`` and the shipped ones over ``library``; ``name`` is the chosen one.

    ``stages`` are the sound ones by name, ``faults`` those of the files that are left out.  ``chosen`` is the
    ``decks.stages.Stage`` called ``name``, else the first there is, None where there is none at all.
    """

    def __init__(self, library, home=None, name=stages.FIRST):
        self.drills, self._decks = library.outlines, library.decks
        read = {one: stages.read(path) for one, path in stages.listing(home).items()}
        self.stages = {one: stage for one, (stage, _) in read.items() if stage is not None}
        self.faults = [fault for _, faults in read.values() for fault in faults]
        first = self.stages.get(stages.FIRST) or next(iter(self.stages.values()), None)
        self.chosen = self.stages.get(name) or first
        held_back = self.stages.get(stages.REFERENCE)
        self.reference = frozenset(self._members(held_back, frozenset()).all) if held_back else frozenset()

    def members(self, name=""):
        """Return the ``Members`` of the stage called ``name``, "" is the chosen one; raises ``KeyError``."""
        stage = self.stages[name] if name else self.chosen
        if stage is None:
            return Members(core=tuple(curriculum.order(list(self.drills.values()))))
        return self._members(stage, frozenset() if stage.name == stages.REFERENCE else self.reference)

    def _members(self, stage, left_out):
        named = {*stage.core, *stage.more}
        core = dict.fromkeys(self._expanded(stage.core, named, left_out))
        more = dict.fromkeys(self._expanded(stage.more, named, left_out))
        return Members(core=tuple(core), more=tuple(one for one in more if one not in core))

    def _expanded(self, entries, named, left_out):
        """Yield the ids that ``entries`` mean; of a whole deck or area those that no entry names."""
        for entry in entries:
            sort, _, name = entry.rpartition(":")
            if not sort:
                if entry in self.drills:
                    yield entry
                continue
            field = "deck" if f"{sort}:" == stages.DECK else "area"
            found = [drill for drill in self.drills.values() if getattr(drill, field) == name]
            yield from curriculum.order([drill for drill in found if drill.id not in named | left_out])

    def following(self, name=""):
        """Return the stages from ``name`` on ("": from the chosen one), each once, as they follow each other."""
        found, stage = {}, self.stages.get(name) if name else self.chosen
        while stage is not None and stage.name not in found:
            found[stage.name] = stage
            stage = self.stages.get(stage.next)
        return list(found.values())

    def order(self, last=frozenset()):
        """Return the ids of drills in the order in which they are met for the first time.

        The core of the chosen stage comes first (of it at the end what is in ``last``), then its ``more``, then the
        stages that follow.  Drills of the
        user's own that stand in no stage are met in turn with those: they were not put there for later.  What is
        in ``reference`` is left out, unless it is chosen.
        """
        if self.chosen is None:
            return self.members().all
        core = sorted(self.members().core, key=last.__contains__)
        rest = (one for stage in self.following() for one in self.members(stage.name).all)
        staged = dict.fromkeys((*core, *rest))
        return tuple(dict.fromkeys(_in_turn(list(staged), self.own())))

    def own(self):
        """Return the ids of the user's own drills that stand in no stage."""
        staged = {one for name in self.stages for one in self.members(name).all}
        own = {name for name, deck in self._decks.items() if deck.path.parent != paths.shipped_decks()}
        return curriculum.order([d for d in self.drills.values() if d.deck in own and d.id not in staged])


def _in_turn(one, other):
    paired = [name for pair in zip(one, other, strict=False) for name in pair]
    least = min(len(one), len(other))
    return [*paired, *one[least:], *other[least:]]
