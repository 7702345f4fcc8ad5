"""Magnetic variation from the World Magnetic Model, and true against magnetic directions.

Convention: variation is positive to the EAST; true = magnetic + variation.  Sources: NOAA NCEI, World
Magnetic Model 2025 (and its predecessors for a scene set in earlier years) and WMM High Resolution 2025.
"""

from functools import cache

import numpy as np

from trainer.engine.angles import wrap_360
from trainer.engine.domain import inside, require

STANDARD, HIGH_RESOLUTION = 12, 133  # degree of the model's expansion
FIRST_YEAR, LAST_YEAR = 2010.0, 2030.0
FILES = {2010: "WMM_2010.COF", 2015: "WMM_2015v2.COF", 2020: "WMM_2020.COF", 2025: "WMM_2025.COF"}
MODELS = {STANDARD: "standard", HIGH_RESOLUTION: "high resolution"}
UNRELIABLE_NT = 2_000.0  # horizontal field below which the model's authors warn against the compass


def field(year, latitude_deg, longitude_deg, height_km, model):
    """Return (variation deg, dip deg, total field nT, horizontal field nT) at a place and time.

    ``year`` is a decimal year, 2010.0 to 2030.0 (2025.0 and later for the high resolution); latitude north
    and longitude east are positive, longitude -360 to 360; ``height_km`` is above the WGS 84 ellipsoid,
    -1 to 850; ``model`` is 12 (standard) or 133 (high resolution).  Floats or arrays.
    """
    inside("year", year, FIRST_YEAR, LAST_YEAR, why="the models cover these years")
    inside("latitude", latitude_deg, -90, 90)
    inside("longitude", longitude_deg, -360, 360)
    inside("height", height_km, -1, 850)
    require(np.isin(np.asarray(model, dtype=float), tuple(MODELS)), "the model is standard or high resolution")
    require(
        (np.asarray(model) == STANDARD) | (np.asarray(year) >= 2025),
        "the high-resolution model begins with 2025.0",
        hint="take the standard model for earlier years",
    )
    values = np.vectorize(_field, otypes=[float] * 4)(year, latitude_deg, longitude_deg, height_km, model)
    return tuple(value[()] for value in values)


def _field(year, latitude_deg, longitude_deg, height_km, model):
    high_resolution = model == HIGH_RESOLUTION
    epoch = min(2025, 5 * int(year // 5))
    longitude_deg = (longitude_deg + 180) % 360 - 180
    result = _model(epoch, high_resolution).calculate(
        glat=float(latitude_deg), glon=float(longitude_deg), alt=float(height_km), time=float(year)
    )
    return result.d, result.i, result.f, result.h


@cache
def _model(epoch, high_resolution):
    from pygeomag import GeoMag

    name = "WMMHR_2025.COF" if high_resolution else FILES[epoch]
    return GeoMag(coefficients_file=f"wmm/{name}", high_resolution=high_resolution)


def magnetic_from_true_deg(true_deg, variation_deg):
    """Return the magnetic direction of a true one; variation east is positive (float or array).

    >>> float(magnetic_from_true_deg(240, -15))
    255.0
    """
    inside("true direction", true_deg, 0, 360)
    inside("variation", variation_deg, -180, 180)
    return wrap_360(np.asarray(true_deg, dtype=float) - variation_deg)


def true_from_magnetic_deg(magnetic_deg, variation_deg):
    """Return the true direction of a magnetic one; variation east is positive (float or array)."""
    inside("magnetic direction", magnetic_deg, 0, 360)
    inside("variation", variation_deg, -180, 180)
    return wrap_360(np.asarray(magnetic_deg, dtype=float) + variation_deg)
