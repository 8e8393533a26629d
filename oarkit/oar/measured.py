"""An oar measured from life: sizes taken at places along it, and fair curves through them.

Between stations of one form each size follows a monotone piecewise cubic curve, which passes through every measured
value and never overshoots. Where the form changes between two stations, sizes and form go over straight from one to the
other; where a place stands twice in the table, the section jumps there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np

from oarkit.oar.shape import EASED_AREA, Stations
from oarkit.section.profile import Profile, corner_of_area_share
from oarkit.working import Array, BadDesign, Number, Quantity

Form = Literal["round", "ellipse", "square", "eight", "blade"]
EIGHT_AREA = 2 * (np.sqrt(2) - 1)  #: area of a regular octagon over the square of its size across flats
OUT_OF_ROUND = 0.001  #: two diameters of one place that differ by more are no round [m]
SAME_LENGTH = 0.002  #: by which the rig may differ from the length as measured [m]
NODES = 13  #: stations between two breaks, odd for Simpson's rule


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """Sizes of an oar at one place, as calipers give them [m]; floats.

    ``thickness`` is the size square to the blade face, ``width`` the size in its plane (None where both are one);
    ``edge`` is the thickness of a blade's edges; ``corner`` the radius of a square's eased corners, None for the
    customary ones. An eight-sided section is counted as a square with corners so eased that its area is the
    octagon's; its stiffness comes out 0.15 % low.
    """

    s: float
    thickness: float
    form: Form
    width: float | None = None
    edge: float | None = None
    corner: float | None = None

    @property
    def wide(self) -> float:
        """Size in the plane of the blade face."""
        return self.thickness if self.width is None else self.width


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredShape:
    """A station table, rising from the handle end to the tip, with lock, hand and leather: all that fixes the outline.

    Faults of the table are told all at once. Inboard, grip centre and leather may be arrays of designs. [m]
    """

    stations: tuple[Station, ...]
    inboard: Number
    grip_centre: Number
    leather_start: Number
    leather_length: Number

    def __post_init__(self) -> None:
        faults = [*_faults(self.stations)]
        if not faults:
            faults = [*_misplaced(self)]
        if faults:
            raise _all_of(faults)

    @property
    def length(self) -> float:
        """Place of the tip."""
        return self.stations[-1].s

    @property
    def blade_root(self) -> float:
        """Place of the first station of the blade."""
        return next(station.s for station in self.stations if station.form == "blade")

    @property
    def blade_length(self) -> float:
        """Blade root to tip."""
        return self.length - self.blade_root

    @property
    def mid_blade(self) -> float:
        """Place of the middle of the blade's length."""
        return self.length - self.blade_length / 2

    @property
    def blade_width(self) -> float:
        """Greatest width measured on the blade."""
        return max(station.wide for station in self.stations if station.form == "blade")

    @property
    def lock_diameter(self) -> Number:
        """Thickness at the pin line."""
        pin = np.asarray(self.inboard, dtype=float)
        return self.profile(Stations(s=pin, weight=pin, middle=pin)).thickness

    @property
    def _neck(self) -> Station:
        """Last station before the blade."""
        return [station for station in self.stations if station.form != "blade"][-1]

    @property
    def neck_thickness(self) -> float:
        """Thickness at the last station before the blade."""
        return self._neck.thickness

    @property
    def neck_width(self) -> float:
        """Width at the last station before the blade."""
        return self._neck.wide

    @property
    def tip_thickness(self) -> float:
        """Thickness of the blade on its centre line at the tip."""
        return self.stations[-1].thickness

    @property
    def numbers(self) -> Mapping[str, Number]:
        """Places that may be arrays of designs."""
        return {name: getattr(self, name) for name in ("inboard", "grip_centre", "leather_start", "leather_length")}

    @property
    def leather_end(self) -> Number:
        """Outboard end of the leather."""
        return self.leather_start + self.leather_length

    @property
    def leather_inboard(self) -> Number:
        """How far the leather reaches inboard of the pin line."""
        return self.inboard - self.leather_start

    def laid(self, further_breaks: Sequence[Number] = (), *, count: int | None = None) -> Stations:
        """Stations of the quadrature: on every measured place, at lock, hand, leather and mid-blade, and between.

        There are about as many as ``count`` says, three a segment at the least.
        """
        breaks = [
            *(station.s for station in self.stations),
            self.grip_centre, self.leather_start, self.inboard, self.leather_start + self.leather_length / 2,
            self.leather_end, self.mid_blade, *further_breaks,
        ]  # fmt: skip
        nodes = NODES if count is None else max(count // (len(breaks) - 1) // 2 * 2 + 1, 3)
        return stations_between(breaks, nodes)

    def profile(self, laid: Stations) -> Profile:
        """Sections at stations; the middle of its segment tells a station at a jump which side it belongs to."""
        knots, curves = _curves(self.stations)
        piece = np.clip(np.searchsorted(knots, laid.middle, side="right") - 1, 0, len(knots) - 2)
        step = (laid.s - knots[piece])[..., None]
        cubic = curves[:, piece]
        sizes = ((cubic[0] * step + cubic[1]) * step + cubic[2]) * step + cubic[3]
        return Profile(
            thickness=sizes[..., 0],
            width=sizes[..., 1],
            edge=sizes[..., 2],
            corner=sizes[..., 3],
            blade_share=sizes[..., 4],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredSizes:
    """A station table before the rig has fixed where the pin stands; its length is that of the oar. [m]"""

    stations: tuple[Station, ...]
    grip_centre: Number
    leather_length: Number
    leather_inboard: Number

    @property
    def length(self) -> float:
        """Place of the tip."""
        return self.stations[-1].s

    @property
    def grip_diameter(self) -> float:
        """Thickness at the handle end."""
        return self.stations[0].thickness

    @property
    def blade_length(self) -> float:
        """First station of the blade to the tip."""
        return self.length - next(station.s for station in self.stations if station.form == "blade")

    @property
    def blade_width(self) -> float:
        """Greatest width measured on the blade."""
        return max(station.wide for station in self.stations if station.form == "blade")

    def at(self, *, length: Number, inboard: Number) -> MeasuredShape:
        """The whole shape, once the rig has fixed the inboard; the length must be the measured one."""
        if np.any(np.abs(np.subtract(length, self.length)) > SAME_LENGTH):
            raise BadDesign(
                "the rig asks for an oar {asked} long, and the measured one is {measured}; give that as its length",
                {
                    "asked": Quantity(value=float(np.max(length)), unit="m"),
                    "measured": Quantity(value=self.length, unit="m"),
                },
            )
        return MeasuredShape(
            stations=self.stations, inboard=inboard, grip_centre=self.grip_centre,
            leather_start=np.subtract(inboard, self.leather_inboard), leather_length=self.leather_length,
        )  # fmt: skip


def stations_between(breaks: Sequence[Number], nodes: int = NODES) -> Stations:
    """Stations spread evenly between breaks, every break standing twice.

    Parameters
    ----------
    breaks : sequence of float or array
        Places in any order, the two ends of the oar among them. [m]
    nodes : int, optional
        Odd number of stations in each segment. [count]

    Returns
    -------
    Stations
        An integral along the oar is the sum of weight times value. [m]

    Notes
    -----
    Source: Simpson's rule.

    Examples
    --------
    >>> laid = stations_between([2.0, 0.0, 0.5], 3)
    >>> laid.s.tolist(), round(float(np.sum(laid.weight * laid.s**3)), 9)
    ([0.0, 0.25, 0.5, 0.5, 1.25, 2.0], 4.0)
    """
    at = np.sort(np.stack(np.broadcast_arrays(*(np.asarray(b, dtype=float) for b in breaks)), axis=-1), axis=-1)
    first, step = at[..., :-1, None], np.diff(at, axis=-1)[..., None]
    simpson = np.full(nodes, 2.0)
    simpson[1::2] = 4.0
    simpson[[0, -1]] = 1.0
    flat = (*at.shape[:-1], -1)
    return Stations(
        s=(first + step * np.linspace(0, 1, nodes)).reshape(flat),
        weight=(step * simpson / simpson.sum()).reshape(flat),
        middle=(first + step * np.full(nodes, 0.5)).reshape(flat),
    )


def _corner(station: Station) -> float:
    """Corner of the section as a share of its side; an ellipse is all corner."""
    if station.form == "square":
        if station.corner is not None:
            return station.corner / min(station.thickness, station.wide)
        return float(corner_of_area_share(EASED_AREA))
    return float(corner_of_area_share(EIGHT_AREA)) if station.form == "eight" else 0.5


def _sizes(station: Station) -> tuple[float, ...]:
    """Thickness, width, edge, corner share and blade share, as a profile holds them."""
    on_blade = station.form == "blade" and station.edge is not None
    edge = station.edge if on_blade and station.edge is not None else station.thickness
    return station.thickness, station.wide, edge, _corner(station), float(on_blade)


def _kind(station: Station) -> str:
    """A round is an ellipse of equal axes, and one curve runs through both."""
    return "ellipse" if station.form == "round" else station.form


def _curves(stations: Sequence[Station]) -> tuple[Array, Array]:
    """Places where curves meet, and the coefficients of the cubics between them, highest power first."""
    from scipy.interpolate import PchipInterpolator

    at = np.array([station.s for station in stations])
    sizes = np.array([_sizes(station) for station in stations])
    last = len(stations) - 1
    ends = [
        i for i in range(last) if at[i] == at[i + 1] or _kind(stations[i]) != _kind(stations[i + 1])
    ]  # of runs of one form
    pieces = []
    for first, end in zip([0, *(i + 1 for i in ends)], [*ends, last], strict=True):
        if end > first:
            pieces.append(PchipInterpolator(at[first : end + 1], sizes[first : end + 1]).c)
        if end < last and at[end + 1] > at[end]:
            slope = (sizes[end + 1] - sizes[end]) / (at[end + 1] - at[end])
            pieces.append(np.stack([0 * slope, 0 * slope, slope, sizes[end]])[:, None])
    return np.unique(at), np.concatenate(pieces, axis=1)


# Faults of a table, told all at once

_Fault = tuple[str, dict[str, float]]


def _all_of(faults: Sequence[_Fault]) -> BadDesign:
    """One refusal that tells every fault, its gaps numbered so that they stay apart."""
    texts, quantities = [], {}
    for index, (text, sizes) in enumerate(faults):
        for name, size in sizes.items():
            text = text.replace(f"{{{name}}}", f"{{{name}_{index}}}")
            quantities[f"{name}_{index}"] = Quantity(value=size, unit="m")
        texts.append(text)
    return BadDesign("; ".join(texts), quantities)


def _faults(stations: Sequence[Station]) -> list[_Fault]:
    """What is wrong in the table itself."""
    if len(stations) < 2:
        return [("an oar needs at least two stations, at its handle end and at its tip", {})]
    faults = [fault for number, station in enumerate(stations, 1) for fault in _station_faults(number, station)]
    if faults:
        return faults
    if stations[0].s != 0:
        faults.append(
            ("the first station stands at {first}; measure one at the handle end, at 0", {"first": stations[0].s})
        )
    for number in range(1, len(stations)):
        here, before = stations[number].s, stations[number - 1].s
        if here < before:
            sizes = {"here": here, "before": before}
            faults.append((f"station {number + 1} stands at {{here}}, behind station {number} at {{before}}", sizes))
        elif number > 1 and here == stations[number - 2].s:
            faults.append(
                (f"stations {number - 1} to {number + 1} all stand at {{here}}; two make a jump", {"here": here})
            )
    if stations[-1].s == stations[-2].s or stations[0].s == stations[1].s:
        faults.append(("the section cannot jump at an end of the oar", {}))
    blade = [station.form == "blade" for station in stations]
    if sum(blade) < 2 or all(blade) or blade != sorted(blade):
        faults.append(
            ("the last two stations or more must be of the blade, and the loom before them of other forms", {})
        )
    return faults


def _station_faults(number: int, station: Station) -> list[_Fault]:
    """What is wrong with the sizes of one station."""
    name = f"station {number} at {{place}}"
    at = {"place": station.s}
    if not np.isfinite(station.s):
        return [(f"station {number} has no place along the oar", {})]
    if station.form not in get_args(Form):
        return [(f"{name} is {station.form}; its form must be one of {', '.join(get_args(Form))}", at)]
    given = {"thickness": station.thickness, "width": station.width, "edge": station.edge}
    for size, value in given.items():
        if value is not None and not (np.isfinite(value) and value > 0):
            return [(f"the {size} of {name} must be above nought", at)]
    faults: list[_Fault] = []
    if station.form in ("ellipse", "blade") and station.width is None:
        kind = "an ellipse" if station.form == "ellipse" else "of the blade"
        faults.append((f"{name} is {kind} and needs its width", at))
    if station.form == "round" and abs(station.wide - station.thickness) > OUT_OF_ROUND:
        sizes = {**at, "thick": station.thickness, "wide": station.wide}
        faults.append((f"{name} is {{thick}} thick and {{wide}} wide, which is not round; call it an ellipse", sizes))
    if station.form == "blade" and station.edge is None:
        faults.append((f"{name} is of the blade and needs the thickness of its edge", at))
    if station.form != "blade" and station.edge is not None:
        faults.append((f"{name} is not of the blade and has no edge to measure", at))
    if station.edge is not None and station.edge > station.thickness:
        sizes = {**at, "thick": station.thickness, "edge": station.edge}
        faults.append((f"the edge of {name} is {{edge}} thick, thicker than its centre at {{thick}}", sizes))
    if station.corner is not None and station.form != "square":
        faults.append((f"{name} is not square and has no eased corners to measure", at))
    elif station.corner is not None and not 0 <= station.corner <= min(station.thickness, station.wide) / 2:
        sizes = {**at, "corner": station.corner}
        faults.append(
            (f"the corners of {name}, eased to {{corner}}, must have a radius from 0 to half its side", sizes)
        )
    return faults


def _misplaced(shape: MeasuredShape) -> list[_Fault]:
    """What is wrong with the places of lock, hand and leather on the oar."""
    faults: list[_Fault] = []
    places = (shape.grip_centre, shape.inboard, shape.leather_start, shape.leather_length)
    if not all(np.all(np.isfinite(place)) for place in places):
        return [("the places of lock, grip centre and leather must be numbers", {})]
    if np.any(np.asarray(shape.grip_centre) <= 0) or np.any(np.asarray(shape.grip_centre) >= shape.inboard):
        faults.append(("the grip centre must lie between the handle end and the pin line", {}))
    if np.any(np.asarray(shape.inboard) >= shape.blade_root):
        inboard = float(np.max(shape.inboard))
        faults.append(
            (
                "the pin line at {inboard} lies on the blade, which begins at {root}",
                {"inboard": inboard, "root": shape.blade_root},
            )
        )
    starts = np.asarray(shape.leather_start)
    ends = np.asarray(shape.leather_end)
    if (
        np.any(starts < 0)
        or np.any(starts > shape.inboard)
        or np.any(ends < shape.inboard)
        or np.any(ends > shape.blade_root)
    ):
        faults.append(("the leather must lie in the lock, between the handle end and the blade", {}))
    return faults
