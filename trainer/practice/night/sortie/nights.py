"""The evening as it stands at each moment of the sortie: as briefed, and after each thing that goes wrong."""

from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.scenario import KINDS


class Nights:
    """``once("level")`` is the night after everything up to that disturbance went wrong that does tonight."""

    def __init__(self, scenario, library):
        self.scenario = scenario
        self.briefed = Night(scenario, library)
        self._by_scenario = {scenario: self.briefed}
        self._library = library

    def once(self, kind):
        """Return the ``Night`` once ``kind`` went wrong, and whatever comes before it."""
        scenario = self.scenario.once(kind)
        if scenario not in self._by_scenario:
            self._by_scenario[scenario] = Night(scenario, self._library)
        return self._by_scenario[scenario]

    @property
    def last(self):
        """Return the ``Night`` after everything that goes wrong."""
        return self.once(KINDS[-1])

    def has(self, kind):
        """Return whether this goes wrong tonight."""
        return self.scenario.disturbance(kind) is not None

    def all(self):
        """Return every different ``Night``, in order."""
        return tuple(dict.fromkeys((self.briefed, *(self.once(kind) for kind in KINDS))))
