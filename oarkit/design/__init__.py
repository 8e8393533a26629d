"""The spine: station -> rig -> stroke -> oars -> checks, on plain records; reads no file."""

from oarkit.design.records import (
    RESULT_UNITS,
    Design,
    FixtureInputs,
    Inputs,
    PieceInputs,
    RowerInputs,
    Side,
    StationInputs,
    Value,
)
from oarkit.design.whole import design

__all__ = [
    "RESULT_UNITS", "Design", "FixtureInputs", "Inputs", "PieceInputs", "RowerInputs", "Side", "StationInputs", "Value",
    "design",
]  # fmt: skip
