"""The table of quantities: everything that the trainer can compute, by name.

``trainer compute``, computed drills, the card and the rehearsal all read this one table.  A new quantity is one
function in a module of the engine, one entry in a module of this folder, its name here, and its published check under
``tests/authorities/``.
"""

from collections.abc import Iterator, Mapping
from importlib import import_module

from trainer.engine.quantity import Quantity

# module of this folder -> names of its quantities: a module is loaded when one of them is asked for
NAMES = {
    "loading": (
        "gross_weight weight_board_check takeoff_trim_step takeoff_trim_interpolated hand_signal_fuel "
        "hand_signal_fingers"
    ),
    "launch": (
        "case_from_weather case_by_clock case_pair_legal needed_endspeed airspeed_off_bow launch_excess "
        "clearing_turn_side"
    ),
    "departure": (
        "clearing_turn climb_point_time beacon_climb_point beacon_reading gate_climb_rate departure_band "
        "departure_radials_conflict rendezvous_radial"
    ),
    "marshal": (
        "marshal_fix_distance marshal_angels final_bearing marshal_radial marshal_inbound_course push_time "
        "case_2_altitude_legal time_to_lose"
    ),
    "holding": "hold_split last_leg_change speed_to_fix next_outbound_leg standard_inbound_leg hold_legs_in_wind",
    "approach": (
        "platform_distance level_off_distance penetration_altitude level_off_lead final_bearing_correction "
        "approach_minima closure sink_rate ramp_interval"
    ),
    "slope": (
        "glide_slope_height glide_slope_intercept descent_gradient descent_rate gradient_rate "
        "off_slope_height"
    ),
    "pattern": (
        "break_spacing last_break_time downwind_heading pattern_check_altitude groove_distance groove_time "
        "on_speed"
    ),
    "grades": "grade_point_average boarding_rate qualified stage_grade",
    "fuel": (
        "fuel_flow_per_minute fuel_burn fuel_rounded_up max_trap_fuel fuel_ladder ball_fuel dump_time "
        "divert_reserve"
    ),
    "bingo": "minutes_to_bingo passes_left fuel_for_passes bingo_fuel bingo_decision cq_launch_fuel",
    "reach": "landing_weight tanking joker fuel_on_arrival endurance arrival_time",
    "calls": "state_spoken angels_spoken position_radial eat_on_the_clock eat_22_52 time_hack charlie_time",
    "atmosphere": (
        "isa isa_geometric geopotential_altitude isa_temperature isa_deviation pressure_altitude "
        "density_altitude field_density_altitude"
    ),
    "airspeed": (
        "true_airspeed calibrated_airspeed mach_from_cas cas_from_mach mach_from_tas tas_from_mach "
        "airspeeds_from_tas airspeeds_from_cas tas_from_ias tas_five_per_thousand tas_two_percent"
    ),
    "sun": "sun_times twilight case_night case_night_at sun_position",
    "moon": "moon_times moon_light moonrise_by_rule",
    "earth": "magnetic_variation magnetic_from_true true_from_magnetic geodesic geodesic_destination pigeons",
    "beacon": "tacan_frequencies tacan_partner tacan_vhf tacan_channel_of_vhf",
    "balance": "weight_and_balance fuel_weight",
    "conversion": (
        "nm_to_ft ft_to_nm nm_to_yd yd_to_nm nm_to_km km_to_nm nm_to_sm sm_to_nm sm_to_km km_to_sm ft_to_m "
        "m_to_ft kn_to_mph mph_to_kn kn_to_km_h km_h_to_kn kn_to_m_s m_s_to_kn kn_to_ft_s ft_s_to_kn "
        "kn_to_nm_min nm_min_to_kn lb_to_kg kg_to_lb inhg_to_hpa hpa_to_inhg c_to_f f_to_c"
    ),
    "wind": "wind_over_deck wind_down_the_bow angle_crosswind true_wind runway_wind",
    "wind_course": "wanted_wind recovery_course",
    "triangle": "heading_for_course track_made_good airspeed_for_schedule wind_found crab",
    "turns": "turn bank_for_rate turn_time turn_lead section_after_turn clearing_turn_offset",
    "arcs": "arc_turn_point lead_radials arc_direction arc_time",
    "over_ship": "arc_turn_over_ship arc_lead_over_ship arc_time_over_ship",
    "navigation": (
        "fix_to_fix time_to_go distance_covered groundspeed_needed groundspeed_check time_to_station "
        "off_course radial_spacing"
    ),
    "steering": (
        "correction_to_destination compass_heading holding_outbound_heading brc_from_final_bearing ship_later "
        "groundspeed_from_ias"
    ),
    "descent": "top_of_descent crossing_rate cloud_base cold_error qfe",
    "ranges": "ground_range slant_range radio_horizon visible_horizon",
    "encounter": "closest_approach plotted_approach target_motion",
    "meeting": "intercept closing",
}  # fmt: skip


class Quantities(Mapping):
    """The quantities by name, in the order of ``NAMES``, each loaded with its module when it is first asked for."""

    def __init__(self):
        self._module_of = {name: module for module, names in NAMES.items() for name in names.split()}
        self._loaded: dict[str, Quantity] = {}

    def __getitem__(self, name: str) -> Quantity:
        if name not in self._loaded:
            module = import_module(f"{__name__}.{self._module_of[name]}")
            self._loaded |= {quantity.name: quantity for quantity in module.QUANTITIES}
        return self._loaded[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._module_of)

    def __len__(self) -> int:
        return len(self._module_of)

    def __contains__(self, name: object) -> bool:
        return name in self._module_of


QUANTITIES = Quantities()

ENGINE_VERSION = "1"  # raised when a truth changes, so that stored reviews can be graded again
