"""What a person would type: the right answer to a question, and a wrong one."""


def right(question, library):
    """Return the right answer as one would type it."""
    if question.form == "order":
        drill = library.drills[question.drill_id]
        place = {text: number for number, text in enumerate(question.choices, start=1)}
        by_id = {step: place[_shown(drill, step)] for step in question.truth}
        return " ".join(str(by_id[step]) for step in question.truth)
    if question.form == "recite":
        return question.truth_text
    if question.kind == "flow":
        return question.truth_text.split(" – or: ")[0].removesuffix(")").split(" (")[0]
    return question.truth_text


def _shown(drill, step_id):
    from trainer.drills.flow import shown_step

    return shown_step(next(step for step in drill.steps if step.id == step_id))


def wrong(question, library):
    """Return an answer that can be read and is not right."""
    if question.form == "order":
        return " ".join(reversed(right(question, library).split()))
    if question.choices:
        return next(choice for choice in question.choices if choice != question.truth)
    if question.form == "listen":
        return "; ".join("x" * len(question.truth))
    if question.form == "call":
        return "tower, good evening"
    if isinstance(question.truth, float):
        return _other_number(question)
    return "a completely different thing"


def _other_number(question):
    if question.unit == "word":
        return {"Case I": "2", "Case II": "3", "Case III": "1", "right": "left", "left": "right", "accept": "up",
                "up": "accept", "down": "accept", "divert": "continue", "continue": "divert", "gradual": "turn 30",
                "turn 30": "gradual"}[question.truth_text]  # fmt: skip
    if question.unit == "heading":
        return f"{(question.truth + 40) % 360 or 360:03.0f}"
    if question.unit == "minute":
        return f":{(question.truth + 7) % 60:02.0f}"
    if question.unit == "clock":
        later = int(question.truth + 7) % 1440
        return f"{later // 60:02d}:{later % 60:02d}"
    return f"{question.truth + 555:g}"
