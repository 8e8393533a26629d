"""The hard start: forces, moment at the lock, stress along the oar, and how far that is from breaking."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.oar.build import Oar
from oarkit.strength.bend import unit_moment
from oarkit.working import Array, Finding, Number, Quantity, formula

CUSTOMARY_FORCE = 400.0  #: at each hand [N], common practice
HEAVY_ROWER_FORCE = 450.0  #: same, for a rower of 80 kg and over, a choice of this project [N]
HEAVY_ROWER = 80.0  #: [kg]
LIGHT_ROWER = 60.0  #: below it 400 N is more than is likely, a choice of this project [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check of one piece of wood at its worst place. Stresses in Pa, place from the handle end in m.

    ``kind`` tells a customary load from abuse, ``what`` how the wood would fail; ``breaks`` is False for wood that
    would only be dented. ``asked`` is the ratio that is asked for, ``mean_ratio`` that of average wood.
    """

    case: str
    part: str
    wood: str
    place: Number
    stress: Number
    strength: Number
    ratio: Number
    ok: bool | np.ndarray
    what: str = "bending"
    kind: Literal["customary", "abuse"] = "customary"
    plane: Literal["stroke", "lateral"] = "stroke"
    breaks: bool = True
    asked: Number = 1.5
    mean_ratio: Number | None = None

    @property
    def level(self) -> Literal["ok", "caution", "fails"]:
        """What to say of it: abuse may come nearer to breaking than rowing may."""
        if bool(np.all(self.ratio >= self.asked)):
            return "ok"
        return "caution" if self.kind == "abuse" and bool(np.all(self.ratio >= 1)) else "fails"


def hand_force(*, rower_mass: Number) -> Number:
    """Customary force at each hand in a hard start.

    Parameters
    ----------
    rower_mass : float or array
        Mass of the rower. [kg]

    Returns
    -------
    float or array
        400 N, or 450 N from 80 kg. [N]

    Notes
    -----
    Source: common practice for 400 N; 450 N from 80 kg is a choice of this project. No measurement in small
    fixed-seat boats is published, so change it where you know better.

    Examples
    --------
    >>> float(hand_force(rower_mass=85.0))
    450.0
    """
    return np.where(np.asarray(rower_mass) >= HEAVY_ROWER, HEAVY_ROWER_FORCE, CUSTOMARY_FORCE)[()]


def force_findings(*, rower_mass: float, force: float, told: bool) -> list[Finding]:
    """Whether the customary hard start is more than a light rower is likely to pull.

    Parameters
    ----------
    rower_mass : float
        Mass of the rower. [kg]
    force : float
        Hard start, each hand. [N]
    told : bool
        Whether the force was told rather than taken from custom. [flag]

    Returns
    -------
    list of Finding
        A note, or nothing. [records]

    Notes
    -----
    Source: choice of this project; 400 N is common practice, and does not go by the rower.

    Examples
    --------
    >>> [f.code for f in force_findings(rower_mass=50.0, force=400.0, told=False)]
    ['light_rower']
    """
    if told or rower_mass >= LIGHT_ROWER:
        return []
    text = (
        "The hard start of {force} a hand is the customary one and not cut down for a rower of {mass}: every ratio of "
        "strength errs on the safe side. Give hard_start under [loads] where another is known."
    )
    sizes = {"force": Quantity(value=force, unit="N"), "mass": Quantity(value=rower_mass, unit="kg")}
    return [Finding(level="note", code="light_rower", text=text, quantities=sizes, source="common practice")]


@formula(
    "F_b = F_h l_h/l_b", unit="N", source="lever; Dudhia, Basic Physics of Rowing, sec. 7",
    where={"force": "F_h [N]", "hand_arm": "l_h [m]", "blade_arm": "l_b [m]"},
)  # fmt: skip
def blade_force(*, force: Number, hand_arm: Number, blade_arm: Number) -> Number:
    """Force of the water on the blade that balances the hand.

    Parameters
    ----------
    force : float or array
        At the grip centre. [N]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]

    Returns
    -------
    float or array
        At mid-blade. [N]

    Notes
    -----
    Source: A. Dudhia, Basic Physics of Rowing, sec. 7, eqs 7.1-7.3.

    Examples
    --------
    >>> round(float(blade_force(force=400, hand_arm=0.6, blade_arm=1.5)), 6)
    160.0
    """
    return force * hand_arm / blade_arm


@formula("M = F_h l_h", unit="N m", source="statics", where={"force": "F_h [N]", "hand_arm": "l_h [m]"})
def lock_moment(*, force: Number, hand_arm: Number) -> Number:
    """Bending moment at the pin line.

    Parameters
    ----------
    force : float or array
        At the grip centre. [N]
    hand_arm : float or array
        Pin line to grip centre. [m]

    Returns
    -------
    float or array
        The largest moment along the oar. [N m]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> lock_moment(force=400, hand_arm=0.6)
    240.0
    """
    return force * hand_arm


@formula(
    "σ = M z E/(E I)",
    unit="Pa",
    source="transformed section, ANC-18 (1944), sec. 3.1330",
    where={"moment": "M [N m]", "fibre": "z [m]", "modulus": "E [Pa]", "bending_stiffness": "E I [N m2]"},
)
def bending_stress(*, moment: Number, fibre: Number, modulus: Number, bending_stiffness: Number) -> Number:
    """Bending stress at the worst fibre of a piece.

    Parameters
    ----------
    moment : float or array
        Bending moment. [N m]
    fibre : float or array
        Distance of the fibre from the neutral axis. [m]
    modulus : float or array
        Modulus of that piece. [Pa]
    bending_stiffness : float or array
        E I of the whole section. [N m2]

    Returns
    -------
    float or array
        Stress along the oar. [Pa]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330 and 3.1331.

    Examples
    --------
    >>> round(bending_stress(moment=200, fibre=0.02, modulus=10e9, bending_stiffness=2000) / 1e6, 6)
    20.0
    """
    return modulus * moment * fibre / bending_stiffness


@formula(
    "n = F/σ",
    unit="1",
    source="adjusted lower 5 % strength over stress",
    where={"strength": "F [Pa]", "stress": "σ [Pa]"},
)
def safety_ratio(*, strength: Number, stress: Number) -> Number:
    """Adjusted lower 5 % strength over stress.

    Parameters
    ----------
    strength : float or array
        Adjusted lower 5 % strength. [Pa]
    stress : float or array
        Bending stress. [Pa]

    Returns
    -------
    float or array
        Safety ratio, infinite where there is no stress. [1]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> float(safety_ratio(strength=40e6, stress=20e6))
    2.0
    """
    with np.errstate(divide="ignore"):
        ratio: Number = np.where(np.asarray(stress) == 0, np.inf, np.divide(strength, stress))[()]
    return ratio


def moment_along(oar: Oar, *, force: Number) -> Array:
    """Bending moment at every station under a force at the grip centre.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        At the grip centre. [N]

    Returns
    -------
    array
        Moment at the stations. [N m]

    Notes
    -----
    Source: statics; grip, lock and mid-blade carry the three forces.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(moment_along(oar, force=400.0).max() / (400 * oar.hand_arm)), 9)
    1.0
    """
    at_blade = blade_force(force=force, hand_arm=oar.hand_arm, blade_arm=oar.blade_arm)
    return np.asarray(at_blade)[..., None] * unit_moment(oar)


def stress_along(oar: Oar, *, force: Number) -> tuple[Array, ...]:
    """Bending stress at the worst fibre of each piece, at every station.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        At the grip centre. [N]

    Returns
    -------
    tuple of array
        One array a piece, nil where the piece is absent. [Pa]

    Notes
    -----
    Source: transformed section, ANC-18 (1944), sec. 3.1330.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> len(stress_along(oar, force=400.0)) == len(oar.pieces)
    True
    """
    moment = moment_along(oar, force=force)
    return tuple(
        np.asarray(
            bending_stress(
                moment=moment,
                fibre=fibre,
                modulus=np.asarray(piece.wood.modulus)[..., None],
                bending_stiffness=oar.laminate.bending_stiffness,
            )
        )
        for piece, fibre in zip(oar.pieces, oar.laminate.fibre, strict=True)
    )


def checks(oar: Oar, *, force: Number, wanted: Number) -> tuple[Check, ...]:
    """Each stressed piece at its worst place in a hard start, least ratio first.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array
        At the grip centre. [N]
    wanted : float or array
        Safety ratio that is wanted. [1]

    Returns
    -------
    tuple of Check
        One a piece that is stressed anywhere. [Pa]

    Notes
    -----
    Source: adjusted lower 5 % strength (`oarkit.wood.adjust.adjusted_strength`) over bending stress.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> checks(oar, force=400.0, wanted=1.5)[0].part
    'loom'
    """
    made = []
    for piece, stress in zip(oar.pieces, stress_along(oar, force=force), strict=True):
        at = np.argmax(stress, axis=-1, keepdims=True)
        most = np.take_along_axis(stress, at, -1)[..., 0][()]
        if np.all(most == 0):
            continue
        ratio = safety_ratio(strength=piece.wood.strength, stress=most)
        made.append(
            Check(
                case="hard start",
                part=piece.kind,
                wood=piece.wood.name,
                place=np.take_along_axis(np.broadcast_to(oar.s, stress.shape), at, -1)[..., 0][()],
                stress=most,
                strength=piece.wood.strength,
                ratio=ratio,
                ok=ratio >= wanted,
                asked=wanted,
            )
        )
    return tuple(sorted(made, key=lambda check: float(np.min(check.ratio))))
