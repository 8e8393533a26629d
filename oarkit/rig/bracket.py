"""A lock bracket bolted on the rail: the pin's forces, the moments at the bolts, what each bolt carries."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.rig import bolts as bolt
from oarkit.wood.board import Board
from oarkit.working import Line, Number, Working, formula

VERTICAL_SHARE = 0.3  #: vertical over fore-and-aft force at the pin, upper end of the customary 0.2 to 0.3
WASHER_DIAMETERS = 3.0  #: washer over bolt diameter where no washer is given, common practice
PRESSURE_LEVER = 2 / 3  #: middle of a pressure that rises evenly from the bolts to the edge of the foot

_STATICS = "statics"


@dataclass(frozen=True, slots=True, kw_only=True)
class RailInputs:
    """The rail: thickness athwartships, depth up and down [m], and its wood."""

    thickness: Number
    depth: Number
    board: Board


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketInputs:
    """One row of bolts, and what is known of washers and of the arm's root. Lengths in m, strengths in Pa.

    The root's width is fore and aft, its thickness up and down. The count of bolts is one for all designs.
    """

    bolts: int
    bolt_diameter: Number
    bolt_spacing: Number
    bolt_axis: Literal["athwart", "vertical"]
    washer_diameter: Number | None = None
    root_width: Number | None = None
    root_thickness: Number | None = None
    root_strength: Number | None = None
    bolt_strength: Number = bolt.BOLT_PROOF

    @property
    def washer(self) -> Number:
        """Diameter of the washers, the customary one where none is given. [m]"""
        return WASHER_DIAMETERS * self.bolt_diameter if self.washer_diameter is None else self.washer_diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketLoads:
    """Forces [N] and moments [N m] of one bracket; what a bolt carries is None for a single bolt."""

    pin_force: Number
    vertical_force: Number
    arm: Number
    height: Number
    yaw: Number
    pitch: Number
    roll: Number
    bolt_shear: Number | None
    bolt_tension: Number | None
    working: tuple[Line, ...]


@formula(
    "F_p = F_h (1 + l_h/l_b)", unit="N", source="lever; Dudhia, Basic Physics of Rowing, sec. 7",
    where={"force": "F_h [N]", "hand_arm": "l_h [m]", "blade_arm": "l_b [m]"},
)  # fmt: skip
def pin_force(*, force: Number, hand_arm: Number, blade_arm: Number) -> Number:
    """Fore-and-aft force of the oar on its pin: what the hand pulls and the blade pushes, together.

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
        At the pin. [N]

    Notes
    -----
    Source: lever; A. Dudhia, Basic Physics of Rowing, sec. 7.

    Examples
    --------
    >>> round(pin_force(force=400, hand_arm=0.6, blade_arm=1.5), 6)
    560.0
    """
    return force * (1 + hand_arm / blade_arm)


@formula(
    "F_v = r F_p", unit="N", source="common practice, 0.2 to 0.3", where={"pin_force": "F_p [N]", "share": "r [1]"}
)  # fmt: skip
def vertical_force(*, pin_force: Number, share: Number = VERTICAL_SHARE) -> Number:
    """Vertical force at the pin: the hand's pressing and part of the oar's weight.

    Parameters
    ----------
    pin_force : float or array
        Fore and aft at the pin. [N]
    share : float or array, optional
        Of the fore-and-aft force. [1]

    Returns
    -------
    float or array
        At the pin. [N]

    Notes
    -----
    Source: common practice, 0.2 to 0.3; the upper end where nothing is said.

    Examples
    --------
    >>> round(vertical_force(pin_force=500.0), 6)
    150.0
    """
    return share * pin_force


@formula(
    "a = |o + b|", unit="m", source="plane geometry", where={"lock_overhang": "o [m]", "bolt_line": "b [m]"}
)  # fmt: skip
def bracket_arm(*, lock_overhang: Number, bolt_line: Number) -> Number:
    """Arm from the bolts to the pin, athwartships.

    Parameters
    ----------
    lock_overhang : float or array
        Pin outside (+) or inside (-) the rail's outer face. [m]
    bolt_line : float or array
        Bolts inside the outer face: nil for athwartship bolts, half the rail's thickness for vertical ones. [m]

    Returns
    -------
    float or array
        Arm of yaw and roll. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(bracket_arm(lock_overhang=0.12, bolt_line=0.01)), 6)
    0.13
    """
    return np.abs(np.add(lock_overhang, bolt_line))


@formula(
    "h_z = |h + b|", unit="m", source="plane geometry", where={"lock_above_rail": "h [m]", "bolt_depth": "b [m]"}
)  # fmt: skip
def pin_height(*, lock_above_rail: Number, bolt_depth: Number) -> Number:
    """Height of the oar's force over the bolts.

    Parameters
    ----------
    lock_above_rail : float or array
        Loom axis above the top of the rail. [m]
    bolt_depth : float or array
        Bolts below the top of the rail: half its depth for athwartship bolts, nil for vertical ones. [m]

    Returns
    -------
    float or array
        Arm of pitch. [m]

    Notes
    -----
    Source: plane geometry; athwartship bolts at the middle of the rail's depth.

    Examples
    --------
    >>> round(float(pin_height(lock_above_rail=0.045, bolt_depth=0.02)), 6)
    0.065
    """
    return np.abs(np.add(lock_above_rail, bolt_depth))


@formula("M_z = F_p a", unit="N m", source=_STATICS, where={"pin_force": "F_p [N]", "arm": "a [m]"})
def yaw_moment(*, pin_force: Number, arm: Number) -> Number:
    """Moment that swings the bracket fore and aft, about the vertical.

    Parameters
    ----------
    pin_force : float or array
        Fore and aft at the pin. [N]
    arm : float or array
        Bolts to pin, athwartships. [m]

    Returns
    -------
    float or array
        Yaw moment. [N m]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> yaw_moment(pin_force=500, arm=0.12)
    60.0
    """
    return pin_force * arm


@formula("M_y = F_p h_z", unit="N m", source=_STATICS, where={"pin_force": "F_p [N]", "height": "h_z [m]"})
def pitch_moment(*, pin_force: Number, height: Number) -> Number:
    """Moment that tips the bracket fore and aft, about the athwartship axis.

    Parameters
    ----------
    pin_force : float or array
        Fore and aft at the pin. [N]
    height : float or array
        Loom axis above the bolts. [m]

    Returns
    -------
    float or array
        Pitch moment. [N m]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> pitch_moment(pin_force=500, height=0.06)
    30.0
    """
    return pin_force * height


@formula("M_x = F_v a", unit="N m", source=_STATICS, where={"vertical_force": "F_v [N]", "arm": "a [m]"})
def roll_moment(*, vertical_force: Number, arm: Number) -> Number:
    """Moment that rolls the bracket outward, about the rail.

    Parameters
    ----------
    vertical_force : float or array
        At the pin. [N]
    arm : float or array
        Bolts to pin, athwartships. [m]

    Returns
    -------
    float or array
        Roll moment. [N m]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> roll_moment(vertical_force=150, arm=0.12)
    18.0
    """
    return vertical_force * arm


def bracket_loads(
    bracket: BracketInputs,
    rail: RailInputs,
    *,
    hand_force: Number,
    hand_arm: Number,
    blade_arm: Number,
    lock_overhang: Number,
    lock_above_rail: Number,
    vertical_share: Number = VERTICAL_SHARE,
) -> BracketLoads:
    """Forces and moments of a bracket, and what its most loaded bolt carries.

    Parameters
    ----------
    bracket : BracketInputs
        Bolts. [record]
    rail : RailInputs
        Rail. [record]
    hand_force : float or array
        Hard start at the grip centre. [N]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    lock_overhang : float or array
        Pin outside (+) or inside (-) the rail's outer face. [m]
    lock_above_rail : float or array
        Loom axis above the top of the rail. [m]
    vertical_share : float or array, optional
        Vertical over fore-and-aft force at the pin. [1]

    Returns
    -------
    BracketLoads
        Forces and moments. [N, N m]

    Notes
    -----
    Source: statics. Vertical bolts stand at the middle of the rail's thickness and take the yaw in shear, the
    pitch in tension; athwartship bolts, at the middle of its depth, the other way about. The roll pulls all bolts
    alike against the pressure of the foot: lever half the rail's thickness for vertical bolts; for athwartship
    bolts two thirds of the half depth below them, where a pressure that rises evenly to the lower edge has its
    middle (a choice of this project).

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> loads = bracket_loads(
    ...     BracketInputs(bolts=2, bolt_diameter=0.008, bolt_spacing=0.15, bolt_axis="athwart"),
    ...     RailInputs(thickness=0.019, depth=0.038, board=Board(species=species_table()[0])),
    ...     hand_force=400.0, hand_arm=0.6, blade_arm=1.5, lock_overhang=0.12, lock_above_rail=0.045)
    >>> round(float(loads.yaw), 6), round(float(loads.pitch), 6), round(float(loads.roll), 6)
    (67.2, 35.84, 20.16)
    """
    work, athwart = Working(), bracket.bolt_axis == "athwart"
    half_thickness, half_depth = rail.thickness / 2, rail.depth / 2
    force = work("rig.pin_force", pin_force, force=hand_force, hand_arm=hand_arm, blade_arm=blade_arm)
    vertical = work("rig.vertical_force", vertical_force, pin_force=force, share=vertical_share)
    arm = work(
        "rig.bracket_arm", bracket_arm, lock_overhang=lock_overhang, bolt_line=0.0 if athwart else half_thickness
    )
    height = work(
        "rig.pin_height", pin_height, lock_above_rail=lock_above_rail, bolt_depth=half_depth if athwart else 0.0
    )
    yaw = work("rig.bracket_yaw_moment", yaw_moment, pin_force=force, arm=arm)
    pitch = work("rig.bracket_pitch_moment", pitch_moment, pin_force=force, height=height)
    roll = work("rig.bracket_roll_moment", roll_moment, vertical_force=vertical, arm=arm)
    shear = tension = None
    if bracket.bolts >= 2:
        n, p = bracket.bolts, bracket.bolt_spacing
        shears, pulls = (pitch, yaw) if athwart else (yaw, pitch)
        shear_couple = work("rig.bolt_shear_couple", bolt.couple_share, moment=shears, bolts=n, spacing=p)
        pull_couple = work("rig.bolt_pull_couple", bolt.couple_share, moment=pulls, bolts=n, spacing=p)
        lever = PRESSURE_LEVER * (half_depth if athwart else half_thickness)
        shear = work("rig.bolt_shear", bolt.bolt_shear, couple=shear_couple, pin_force=force, bolts=n)
        tension = work("rig.bolt_tension", bolt.bolt_tension, couple=pull_couple, roll=roll, bolts=n, lever=lever)
    return BracketLoads(
        pin_force=force,
        vertical_force=vertical,
        arm=arm,
        height=height,
        yaw=yaw,
        pitch=pitch,
        roll=roll,
        bolt_shear=shear,
        bolt_tension=tension,
        working=tuple(work.lines),
    )
