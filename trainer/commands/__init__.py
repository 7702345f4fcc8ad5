"""The commands, one module each: arguments, wiring, and an example."""

# name -> what the overview says of it; the module is trainer.commands.NAME
COMMANDS = {
    "practice": "today's five minutes (also without a command)",
    "stage": "what you work towards: the stages, how far each is, what comes next",
    "cram": "towards a qualification night: set it, see the plan, run today's share",
    "outlook": "what to expect per area, now and on a date",
    "rehearse": "one whole sortie, judged as on the night",
    "brief": "tonight's numbers on one card",
    "debrief": "after a flight: what went wrong and right in the air",
    "compute": "the engine as a calculator, with the worked solution",
    "deck": "check, list and show decks",
    "logbook": "what was practised, flown and learned: days, weeks, areas",
    "report": "the report for your instructor",
    "roster": "an instructor's page over many pilots' reports",
    "data": "your own data: where it lies, and whether it is sound",
    "completion": "completion of commands and quantities in your shell",
    "help": "what a command is for and what it takes",
}
