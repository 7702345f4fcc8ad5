"""What can't be meant in a file of numbers: an airframe among the ships, less fuel than a pass burns."""

from collections.abc import Iterator, Mapping

# kind -> (a value that no other kind has, what it is called, where it lies)
TELLS = {
    "airframe": ("basic_weight_lb", "an airframe", "it belongs into the folder airframes"),
    "ship": ("deck_angle_deg", "a ship", "it belongs into the folder ships"),
    "airwing": ("push_interval_min", "an air wing", "it is called airwing.toml and belongs beside the decks"),
}
# The first is less than the second in any aircraft: a nought too few or too many is seen.
LESS = (
    ("basic_weight_lb", "max_trap_weight_lb"), ("basic_weight_lb", "max_gross_weight_lb"),
    ("fuel_capacity_lb", "max_gross_weight_lb"), ("pass_fuel_lb", "fuel_capacity_lb"),
    ("approach_burn_lb", "fuel_capacity_lb"), ("crew_lb", "basic_weight_lb"),
)  # fmt: skip


def other_kind(kind: str, values: Mapping[str, float]) -> str:
    """Return where a file of ``kind`` ("" for none) with these ``values`` belongs, "" for nowhere else."""
    found = next((name for name, (tell, _, _) in TELLS.items() if tell in values), kind)
    if kind not in TELLS or found == kind or TELLS[kind][0] in values:
        return ""
    _, what, where = TELLS[found]
    return f"this is {what}, not {TELLS[kind][1]}; {where}"


def wrong_sizes(values: Mapping[str, float]) -> Iterator[tuple[str, str]]:
    """Yield (name, what is wrong) for each of ``values`` that can't be, beside another one."""
    for small, large in LESS:
        if small in values and large in values and values[small] >= values[large]:
            yield large, f"{values[large]:,g} is not more than {small} = {values[small]:,g}"
