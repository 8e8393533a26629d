"""The sizes of a rower that the station is drawn around: measured where they were, else estimated with their spread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

import numpy as np

from oarkit.rower.body import Regression, Size, body_size
from oarkit.working import Finding, Number, Quantity, formula

BUTTOCK_TO_HIP = (
    0.120  #: back of the buttock to the hip joint, from memory; the posture's hip lies as far from the edge
)
KNEE_JOINT = 0.060  #: knee joint to the top or front of the knee, an allowance of this project [m]
SITTING_UNSURE = 0.020  #: shoulder height is derived from a standing posture, so +-20 mm more [m]
ADULTS = (1.425, 1.970)  #: 5 % of women less 100 mm to 95 % of men and 100 mm, ANSUR II; choice of this project [m]
GRIP_SHARE = 0.197  #: best handle diameter over hand length, Kong & Lowe 2005
GRIP_RANGE = (0.029, 0.035)  #: 1 1/8 to 1 3/8 in, common practice [m]
GRIP_OFF = 0.004  #: a grip that differs by more from its best diameter is spoken of, a choice of this project [m]

#: Each size from the survey's dimensions that make it up, and what is taken off their sum [m].
_MADE_OF: Mapping[str, tuple[tuple[str, ...], float]] = {
    "thigh_thickness": (("thighclearance",), 0.0),
    "hand_length": (("handlength",), 0.0),
    "shoulder_height": (("acromialheightsitting_derived",), 0.0),
    "arm_length": (("acromionradialelength", "forearmcenterofgriplength"), 0.0),
    "thigh_length": (("buttockkneelength",), BUTTOCK_TO_HIP + KNEE_JOINT),
    "shank_length": (("kneeheightsitting",), KNEE_JOINT),
    "elbow_height": (("elbowrestheight",), 0.0),
    "foot_length": (("footlength",), 0.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Sizes of a rower [m]; None where neither measured nor to be estimated.

    ``shoulder_height`` is acromion above seat, ``arm_length`` acromion to grip centre, ``thigh_length`` hip joint to
    knee joint, ``shank_length`` knee joint to sole, ``elbow_height`` underside of the elbow above seat.
    """

    thigh_thickness: Size | None = None
    hand_length: Size | None = None
    shoulder_height: Size | None = None
    arm_length: Size | None = None
    thigh_length: Size | None = None
    shank_length: Size | None = None
    elbow_height: Size | None = None
    foot_length: Size | None = None

    def known(self) -> dict[str, Size]:
        """Sizes that are known, by name."""
        sizes = {size.name: getattr(self, size.name) for size in fields(self)}
        return {name: size for name, size in sizes.items() if size is not None}


def body_sizes(
    *,
    measured: Mapping[str, Number | None],
    table: Mapping[str, Regression] | None,
    stature: Number | None,
    mass: Number,
) -> Body:
    """Every size of a rower: as measured, else estimated from stature and mass.

    Parameters
    ----------
    measured : mapping
        Sizes taken on the rower, by their name in `Body`; None or absent where not taken. [m]
    table : mapping or None
        Regressions of the body table by the survey's name; None where it is not known which table serves.
        [m, 1, m/kg]
    stature : float, array or None
        Standing height. [m]
    mass : float or array
        Body mass. [kg]

    Returns
    -------
    Body
        Sizes with the half-widths of their 5-95 % bands. [m]

    Notes
    -----
    Source: ANSUR II, NATICK/TR-15/007 (2014). An arm is upper arm (acromion to elbow) and elbow to grip centre;
    their bands are added as if they erred together. A thigh is buttock to knee less 120 mm to the hip joint and
    60 mm before the knee joint, a shank is knee height less 60 mm: allowances of this project.

    Examples
    --------
    >>> from oarkit.tables import body_table
    >>> men = {name: row for (body, name), row in body_table().items() if body == "male"}
    >>> body = body_sizes(measured={"arm_length": 0.66}, table=men, stature=1.755, mass=84.6)
    >>> body.arm_length.value, round(body.thigh_thickness.value, 3), round(body.thigh_thickness.spread, 3)
    (0.66, 0.18, 0.014)
    """
    sizes = {}
    for size in fields(Body):
        taken = measured.get(size.name)
        if taken is not None:
            sizes[size.name] = Size(value=taken, spread=0.0, measured=True)
        elif table is not None and stature is not None:
            sizes[size.name] = _estimated(size.name, table, stature, mass)
    return Body(**sizes)


def _estimated(name: str, table: Mapping[str, Regression], stature: Number, mass: Number) -> Size:
    dimensions, less = _MADE_OF[name]
    parts = [body_size(measured=None, regression=table[d], stature=stature, mass=mass) for d in dimensions]
    value, spread = sum(part.value for part in parts) - less, sum(part.spread for part in parts)
    if name == "shoulder_height":
        spread = np.hypot(spread, SITTING_UNSURE)
    return Size(value=value, spread=spread, measured=False)


@formula(
    "d = 0.197 hand length", unit="m", source="Kong & Lowe, Int. J. Ind. Ergon. 35(6) (2005)",
    where={"hand_length": "hand length [m]"},
)  # fmt: skip
def grip_diameter(*, hand_length: Number) -> Number:
    """Diameter of a round grip that suits a hand.

    Parameters
    ----------
    hand_length : float or array
        Wrist crease to the tip of the middle finger. [m]

    Returns
    -------
    float or array
        Diameter of the grip. [m]

    Notes
    -----
    Source: Y.-K. Kong & B. D. Lowe, Int. J. Ind. Ergon. 35(6) 495-507 (2005): 19.7 % of hand length, rated by comfort.
    Oar makers go thinner, 29 to 35 mm (common practice), for a grip is held for hours.

    Examples
    --------
    >>> round(grip_diameter(hand_length=0.193), 4)
    0.038
    """
    return GRIP_SHARE * hand_length


def body_findings(body: Body, *, grip: Number, stature: Number | None = None) -> list[Finding]:
    """What the body says of the grip, and whether the estimates reach as far as this rower.

    Parameters
    ----------
    body : Body
        Sizes of the rower. [m]
    grip : float
        Diameter of the grip as designed. [m]
    stature : float, optional
        Standing height, where sizes were estimated from it. [m]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: Kong & Lowe (2005) for the grip; ANSUR II for the bands.

    Examples
    --------
    >>> body_findings(Body(), grip=0.034)
    []
    """
    found = []
    estimated = any(not size.measured for size in body.known().values())
    if stature is not None and estimated and not ADULTS[0] <= float(stature) <= ADULTS[1]:
        found.append(
            Finding(
                level="caution",
                code="body_extrapolated",
                text="The body table holds adults of about {low} to {high}; for a stature of {stature} its sizes "
                "are drawn "
                "on beyond that and may be far off. Measure shoulder height, arm, thigh and shank.",
                quantities={
                    "low": Quantity(value=ADULTS[0], unit="m"),
                    "high": Quantity(value=ADULTS[1], unit="m"),
                    "stature": Quantity(value=stature, unit="m"),
                },
                source="ANSUR II, NATICK/TR-15/007 (2014)",
            )
        )
    hand = body.hand_length
    if hand is not None:
        best = float(grip_diameter(hand_length=hand.value))
        low, high = GRIP_RANGE
        if not min(low, best) - GRIP_OFF <= float(grip) <= max(high, best) + GRIP_OFF:
            thin = float(grip) < best
            found.append(
                Finding(
                    level="note",
                    code="grip",
                    text=f"A grip of {{grip}} is {'thin' if thin else 'thick'} for a hand of {{hand}}: {{best}} was "
                    "rated best by comfort, and oar makers use {low} to {high}.",
                    quantities={
                        name: Quantity(value=value, unit="m")
                        for name, value in zip(
                            ("grip", "hand", "best", "low", "high"), (grip, hand.value, best, low, high), strict=True
                        )
                    },
                    source="Kong & Lowe (2005); common practice",
                )
            )
    return found
