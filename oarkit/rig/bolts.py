"""What each bolt of a lock bracket carries, and the stress in bolt, rail and bracket root."""

from __future__ import annotations

import numpy as np

from oarkit.working import BadDesign, Finding, Number, Quantity, formula

THREAD_SHARE = 0.78  #: stress area of the thread over the area of the shank, from memory
BOLT_PROOF = 210e6  #: 0.2 % proof stress of stainless A2-50, ISO 3506-1, from memory [Pa]
SHEAR_SHARE = 0.6  #: shear strength over proof stress, common practice
EDGE, LOADED_EDGE, APART, END = 1.5, 4.0, 4.0, 7.0  #: distances in bolt diameters, NDS, from memory
LARGEST_HOLE = 0.5  #: share of the rail that a hole may take, a choice of this project

_STATICS = "statics"


@formula(
    "V_M = M r_max/Σr² = 6 M/(n (n + 1) p)", unit="N", source=_STATICS,
    where={"moment": "M [N m]", "bolts": "n [1]", "spacing": "p [m]"},
)  # fmt: skip
def couple_share(*, moment: Number, bolts: int, spacing: Number) -> Number:
    """Force on the most loaded bolt of one row that holds a moment.

    Parameters
    ----------
    moment : float or array
        About the middle of the row. [N m]
    bolts : int
        In the row, evenly spaced. [1]
    spacing : float or array
        Between neighbours. [m]

    Returns
    -------
    float or array
        Force on an end bolt; M/p for two bolts. [N]

    Raises
    ------
    BadDesign
        One bolt holds no moment.

    Notes
    -----
    Source: statics; rigid bracket on alike bolts, each pulling in the measure of its distance from the middle.

    Examples
    --------
    >>> round(couple_share(moment=60.0, bolts=2, spacing=0.15), 6)
    400.0
    """
    if bolts < 2:
        raise BadDesign("one bolt cannot keep a bracket from twisting; give it two or more in a row")
    return 6 * moment / (bolts * (bolts + 1) * spacing)


@formula(
    "V = √(V_M² + (F_p/n)²)", unit="N", source=_STATICS,
    where={"couple": "V_M [N]", "pin_force": "F_p [N]", "bolts": "n [1]"},
)  # fmt: skip
def bolt_shear(*, couple: Number, pin_force: Number, bolts: int) -> Number:
    """Shear of the most loaded bolt.

    Parameters
    ----------
    couple : float or array
        Its share of the moment about its own axis. [N]
    pin_force : float or array
        Fore and aft at the pin. [N]
    bolts : int
        In the row. [1]

    Returns
    -------
    float or array
        Force square to the bolt. [N]

    Notes
    -----
    Source: statics. The vertical force itself is left to the friction of the tightened foot.

    Examples
    --------
    >>> float(bolt_shear(couple=400, pin_force=600, bolts=2))
    500.0
    """
    return np.hypot(couple, np.divide(pin_force, bolts))


@formula(
    "T = T_M + M_x/(n q′)", unit="N", source=_STATICS,
    where={"couple": "T_M [N]", "roll": "M_x [N m]", "bolts": "n [1]", "lever": "q′ [m]"},
)  # fmt: skip
def bolt_tension(*, couple: Number, roll: Number, bolts: int, lever: Number) -> Number:
    """Pull of the most loaded bolt.

    Parameters
    ----------
    couple : float or array
        Its share of the moment that pulls the row unevenly. [N]
    roll : float or array
        Roll moment, which pulls all bolts alike. [N m]
    bolts : int
        In the row. [1]
    lever : float or array
        Bolts to the middle of the pressure of the foot on the rail. [m]

    Returns
    -------
    float or array
        Pull along the bolt. [N]

    Notes
    -----
    Source: statics; the pull of tightening is not counted.

    Examples
    --------
    >>> bolt_tension(couple=300.0, roll=10.0, bolts=2, lever=0.0125)
    700.0
    """
    return couple + roll / (bolts * lever)


@formula(
    "σ = F/(0.78 π d²/4)", unit="Pa", source="statics; thread area 0.78 of the shank, from memory",
    where={"force": "F [N]", "diameter": "d [m]"},
)  # fmt: skip
def bolt_stress(*, force: Number, diameter: Number) -> Number:
    """Stress in the thread of a bolt, pulled or sheared.

    Parameters
    ----------
    force : float or array
        Along the bolt, or square to it. [N]
    diameter : float or array
        Of the shank. [m]

    Returns
    -------
    float or array
        Force over the stress area. [Pa]

    Notes
    -----
    Source: statics; the share of 0.78 is from memory, about right from 6 to 12 mm.

    Examples
    --------
    >>> round(float(bolt_stress(force=np.pi * 0.78, diameter=0.002)) / 1e6, 6)
    1.0
    """
    return force / (THREAD_SHARE * np.pi / 4 * np.square(diameter))


@formula(
    "σ = (M_z/2)/(q t²/6)", unit="Pa", source=_STATICS,
    where={"yaw": "M_z [N m]", "thickness": "t [m]", "depth": "q [m]"},
)  # fmt: skip
def rail_bending(*, yaw: Number, thickness: Number, depth: Number) -> Number:
    """Bending stress of the rail about its thin way, where the bracket twists it.

    Parameters
    ----------
    yaw : float or array
        Moment that the bracket hands on. [N m]
    thickness : float or array
        Of the rail, athwartships. [m]
    depth : float or array
        Of the rail, up and down. [m]

    Returns
    -------
    float or array
        Stress along the rail. [Pa]

    Notes
    -----
    Source: statics; the rail runs on both ways and each side takes half. Bolt holes are not taken off.

    Examples
    --------
    >>> round(rail_bending(yaw=60, thickness=0.020, depth=0.045) / 1e6, 6)
    10.0
    """
    return yaw / 2 / (depth * thickness**2 / 6)


@formula(
    "σ = M_z/(b h²/6)", unit="Pa", source=_STATICS,
    where={"yaw": "M_z [N m]", "width": "h [m]", "thickness": "b [m]"},
)  # fmt: skip
def root_bending(*, yaw: Number, width: Number, thickness: Number) -> Number:
    """Bending stress where the arm of the bracket leaves its foot.

    Parameters
    ----------
    yaw : float or array
        Pin force times overhang. [N m]
    width : float or array
        Of the arm at its root, fore and aft. [m]
    thickness : float or array
        Of the arm at its root, up and down. [m]

    Returns
    -------
    float or array
        Bending stress. [Pa]

    Notes
    -----
    Source: statics; solid rectangle, no allowance for a weld or a sharp corner, the usual places of breakage.

    Examples
    --------
    >>> round(root_bending(yaw=60, width=0.030, thickness=0.008) / 1e6, 6)
    50.0
    """
    return yaw / (thickness * width**2 / 6)


@formula(
    "S = n M_z/F", unit="m3", source=_STATICS,
    where={"yaw": "M_z [N m]", "strength": "F [Pa]", "safety": "n [1]"},
)  # fmt: skip
def needed_section_modulus(*, yaw: Number, strength: Number, safety: Number) -> Number:
    """Section modulus that the root of the bracket must have.

    Parameters
    ----------
    yaw : float or array
        Pin force times overhang. [N m]
    strength : float or array
        Of the bracket's material. [Pa]
    safety : float or array
        Ratio that is wanted. [1]

    Returns
    -------
    float or array
        Width squared times thickness over six, for a flat bar. [m3]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> round(needed_section_modulus(yaw=60, strength=200e6, safety=1.5) * 1e9, 6)
    450.0
    """
    return safety * yaw / strength


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def bolt_findings(
    *, bolts: int, diameter: Number, spacing: Number, face: Number, athwart: bool, washer: Number | None = None
) -> list[Finding]:
    """Findings on how bolts sit in a rail (scalars).

    Parameters
    ----------
    bolts : int
        In the row. [1]
    diameter : float
        Of a bolt. [m]
    spacing : float
        Between neighbours. [m]
    face : float
        Size of the rail across the holes: depth for athwartship bolts, thickness for vertical ones. [m]
    athwart : bool
        Whether the bolts run athwartships. [text]
    washer : float, optional
        Diameter of the washers. [m]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: customary distances of 1.5, 4 and 7 diameters, National Design Specification, from memory.

    Examples
    --------
    >>> [f.code for f in bolt_findings(bolts=1, diameter=0.008, spacing=0.15, face=0.070, athwart=True)]
    ['one_bolt']
    """
    found = [*_row(bolts, diameter, spacing, athwart), *_hole(float(diameter), float(face), athwart)]
    if washer is not None and float(washer) > float(face) + 1e-9:
        text = (
            "A washer of {washer} hangs over the edge of the rail, which is {face} there; only {face} of it is "
            "counted. A plate along the rail, under all the bolts, holds more than wider washers."
        )
        sizes = {"washer": _m(washer), "face": _m(face)}
        found.append(Finding(level="note", code="washer_wide", text=text, quantities=sizes, source=_STATICS))
    return found


def _row(bolts: int, diameter: Number, spacing: Number, athwart: bool) -> list[Finding]:
    if bolts < 2:
        text = (
            "One bolt cannot keep the bracket from twisting: the pull on the pin swings it about the bolt. Give it "
            "two or more in a row."
        )
        return [Finding(level="fails", code="one_bolt", text=text, source=_STATICS)]
    bears = "on the lower edge of the rail" if athwart else "on the outer edge of the rail"
    which = "Both" if bolts == 2 else f"All {bolts}"
    text = (
        f"{which} bolts stand on one line, which by itself cannot keep the bracket from rolling: the foot must "
        f"bear {bears}, or have a third fastening inboard."
    )
    found = [Finding(level="note", code="one_line", text=text, source="common practice; statics")]
    if float(spacing) < APART * float(diameter):
        text = "The bolts stand {apart} apart, less than the customary {least} (four diameters): the rail may split."
        sizes = {"apart": _m(spacing), "least": _m(APART * float(diameter))}
        found.append(
            Finding(
                level="caution",
                code="bolts_close",
                text=text,
                quantities=sizes,
                source="National Design Specification, from memory",
            )
        )
    return found


def _hole(diameter: float, face: float, athwart: bool) -> list[Finding]:
    edge, way = face / 2, "athwartship" if athwart else "vertical"
    sizes = {"bolt": _m(diameter), "face": _m(face), "edge": _m(edge), "left": _m(max(face - diameter, 0.0) / 2)}
    sizes |= {"end": _m(END * diameter), "share": Quantity(value=diameter / face, unit="%")}
    source = "National Design Specification, from memory"
    if diameter > LARGEST_HOLE * face:
        other = "athwartships, through the depth" if not athwart else "with a thinner shank"
        text = (
            f"The hole of {way} bolts of {{bolt}} takes {{share}} of the {{face}} of the rail and leaves {{left}} on "
            f"each side: the rail will split there. Put the bolts {other}, or thicken the rail with a block."
        )
        return [Finding(level="fails", code="hole", text=text, quantities=sizes, source="choice of this project")]
    if edge < EDGE * diameter:
        text = (
            f"The middle of the {way} bolts of {{bolt}} lies {{edge}} from the edge of the rail, less than the "
            "customary {least} (1.5 diameters); thinner bolts, up to {largest}, would keep it."
        )
        sizes |= {"least": _m(EDGE * diameter), "largest": _m(edge / EDGE)}
        return [Finding(level="caution", code="edge", text=text, quantities=sizes, source=source)]
    if edge < LOADED_EDGE * diameter:
        text = (
            f"The {way} bolts push toward an edge of the rail {{edge}} away; {{least}} (4 diameters) is customary "
            "under full load. Keep them {end} (7 diameters) from a scarf or the end of the rail."
        )
        sizes |= {"least": _m(LOADED_EDGE * diameter)}
        return [Finding(level="note", code="edge", text=text, quantities=sizes, source=source)]
    return []
