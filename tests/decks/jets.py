"""Two invented jets, a light one and a heavy one: their trim is told in another way than that of the shipped jet."""

from pathlib import Path

LIGHT, HEAVY = "sandling", "drosk"
# name -> (trim unit, values, trim rows, half-flap rows, bingo rows, on-speed rows); every number is made up
_JETS = {
    LIGHT: (
        "units nose down",
        dict(
            basic_weight_lb=9400, crew_lb=200, fuel_capacity_lb=3900, retained_stores_lb=150, launch_stores_lb=600,
            max_gross_weight_lb=14800, max_trap_weight_lb=12400, board_tolerance_lb=200, min_end_airspeed_kn=104,
            excess_kn=10, pattern_airspeed_kn=107, idle_flow_lb_h=320, hold_flow_lb_h=1050, cruise_flow_lb_h=1500,
            endurance_flow_lb_h=900, approach_burn_lb=260, pass_fuel_lb=180, taxi_fuel_lb=120, dump_rate_lb_min=300,
        ),
        (9500, [[11200, 5.3], [12600, 4.1], [13800, 3.2], [14800, 2.4]]),
        [[9500, 5], [12000, 3], [14800, 1.5]],
        [[30, 450], [50, 560], [100, 820], [150, 1080], [200, 1340], [250, 1600]],
        [[9500, 91], [11000, 98], [12500, 104]],
    ),
    HEAVY: (
        "units nose up",
        dict(
            basic_weight_lb=41000, crew_lb=800, fuel_capacity_lb=22000, retained_stores_lb=2400, launch_stores_lb=7000,
            max_gross_weight_lb=76000, max_trap_weight_lb=54500, board_tolerance_lb=1000, min_end_airspeed_kn=138,
            excess_kn=15, pattern_airspeed_kn=146, idle_flow_lb_h=2200, hold_flow_lb_h=6400, cruise_flow_lb_h=8800,
            endurance_flow_lb_h=5600, approach_burn_lb=1600, pass_fuel_lb=1100, taxi_fuel_lb=900, dump_rate_lb_min=2500,
        ),
        (42000, [[55000, 6], [63000, 7.5], [70000, 9], [76000, 11]]),
        [[42000, 3], [58000, 5.5], [76000, 9]],
        [[30, 3200], [50, 3700], [100, 4900], [150, 6100], [200, 7300], [250, 8500]],
        [[42000, 128], [48000, 137], [55000, 146]],
    ),
}  # fmt: skip


def _table(name, kind, rows, unit):
    return (
        f'[table.{name}]\n{kind}\nrows = {rows}\nunit = "{unit}"\nsource = "made up for a test"\nstatus = "invented"\n'
    )


def text(name: str) -> str:
    """Return the airframe file of the jet ``name`` as TOML."""
    unit, values, (low, steps), half, bingo, speed = _JETS[name]
    head = f'format = 1\nname = "{name}"\ntitle = "{name.title()}"\ninvented = "A jet of the tests."\nwings = "jet"\n'
    lines = "\n".join(f"{key} = {value}" for key, value in values.items())
    tables = (
        _table("trim_steps", f'kind = "step"\nlow = {low}', steps, unit),
        _table("trim", 'kind = "interpolated"', half, unit),
        _table("bingo", 'kind = "interpolated"', bingo, "lb"),
        _table("approach_speed", 'kind = "interpolated"', speed, "kn"),
    )
    return f"{head}\n[values]\n{lines}\n\n" + "\n".join(tables)


def put(name: str, home: Path) -> Path:
    """Write the jet ``name`` into the airframes of ``home`` and return the file; the only one there is the one used."""
    folder = home / "decks" / "airframes"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.toml"
    path.write_text(text(name), encoding="utf-8", newline="\n")
    return path
