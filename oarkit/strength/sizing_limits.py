"""What a loom that is sized must do, and what stock, tools, hand, eye and blade leave room for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from oarkit.oar.build import Oar
from oarkit.oar.shape import OarShape
from oarkit.strength.sizing_search import SAME
from oarkit.strength.told import HoleInputs
from oarkit.working import Array, BadDesign, Number, Quantity

SHARE_STEP = 0.05  #: by which the least share of the neck is eased, a choice of this project [1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a loom must do: no more limber than the index, no weaker than the ratio in a hard start [N]; None for no
    wish. The ratio is that at the hole too, and in fatigue at the ``cruise`` [N], where their share is told [1]."""

    index: float | None = None
    ratio: float | None = None
    force: float = 400.0
    cruise: float = 150.0
    hole: HoleInputs | None = None
    fatigue: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomLimits:
    """What a builder's stock, tools, hand and eye allow [m]: sizes go by the step, and lie between least and most.

    ``grip`` is the grip that fits the hand, that of the oar where None: the lock is no thinner. ``stock`` is the
    thickest there is: no size is thicker, the inboard among them.
    """

    step: float = 0.0005
    least_lock: float = 0.034
    most_lock: float = 0.060
    least_neck_thickness: float = 0.020
    least_neck_width: float = 0.018
    least_neck_share: float = 0.8  #: of width to thickness in the neck: a thin edge up and down bruises and twists [1]
    grip: float | None = None
    stock: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A wish that no design meets: what is wanted, and what the nearest design comes to."""

    wish: str
    wanted: float
    nearest: float


def drawn(oar: Oar) -> OarShape:
    """The sizes that an oar was drawn from, refused where it was measured.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    OarShape
        Its sizes. [m]

    Raises
    ------
    BadDesign
        It has none.

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> drawn(oar) is oar.shape
    True
    """
    if not isinstance(oar.shape, OarShape):
        raise BadDesign(
            "an oar measured from life is as it is and cannot be sized; give loom, blade and leather sizes in place of "
            "its stations to have a new one sized"
        )
    return oar.shape


def inboard_beside(shape: OarShape, lock: Number) -> Number:
    """Size of the inboard beside another lock: a square one keeps its difference to it, a round one its share.

    Parameters
    ----------
    shape : OarShape
        The sizes as they are. [m]
    lock : float or array
        Another lock. [m]

    Returns
    -------
    float or array
        The inboard. [m]

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> shape = design(example_project("quillet").inputs).oars["port"].shape
    >>> round(float(inboard_beside(shape, 0.044)), 6)
    0.046
    """
    if shape.square_inboard:
        return shape.inboard_size + (lock - shape.lock_diameter)
    return shape.inboard_size * np.divide(lock, shape.lock_diameter)


_LEAST = {
    "least_lock": "the least lock",
    "grip": "the grip",
    "least_neck_thickness": "the least neck thickness",
    "blade": "the thickness of the blade",
    "least_neck_width": "the least neck width",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomRoom:
    """Every limit on lock, neck thickness and neck width by its name [m], and what they leave.

    To those of `LoomLimits` come ``blade``, which is never thicker than the neck, ``blade_width``, and ``taper``, by
    how much the neck may be thicker than the lock: not at all.
    """

    shape: OarShape
    step: float
    named: Mapping[str, float]

    @staticmethod
    def of(shape: OarShape, limits: LoomLimits) -> LoomRoom:
        """The limits of a builder and of the oar's other sizes; refused where they leave nothing."""
        named = {
            "least_lock": limits.least_lock,
            "grip": float(np.max(shape.grip_diameter)) if limits.grip is None else limits.grip,
            "most_lock": limits.most_lock,
            "stock": np.inf if limits.stock is None else limits.stock,
            "least_neck_thickness": limits.least_neck_thickness,
            "blade": float(np.max(np.maximum(shape.tip_thickness, shape.edge_at_root))),
            "least_neck_width": limits.least_neck_width,
            "blade_width": float(np.min(shape.blade_width)),
            "taper": 0.0,
            "least_neck_share": limits.least_neck_share,
        }
        room = LoomRoom(shape=shape, step=limits.step, named=named)
        room._refuse()
        return room

    @property
    def ends(self) -> tuple[Array, Array]:
        """Least and most of the three sizes."""
        named, shape = self.named, self.shape
        most = min(named["most_lock"], named["stock"])
        over = float(np.max(np.subtract(shape.inboard_size, shape.lock_diameter)))
        times = float(np.max(np.divide(shape.inboard_size, shape.lock_diameter)))
        inboard = named["stock"] - over if shape.square_inboard else named["stock"] / times
        low = [
            max(named["least_lock"], named["grip"]),
            max(named["least_neck_thickness"], named["blade"]),
            named["least_neck_width"],
        ]
        return np.array(low), np.array([min(most, inboard), most, min(most, named["blade_width"])])

    def holds(self, sizes: Array) -> Array:
        """How far designs keep the share of the neck and the taper, negative where they do not."""
        lock, thickness, width = sizes.T
        share, taper = self.named["least_neck_share"], lock + self.named["taper"]
        return np.stack([width - share * thickness, taper - thickness, taper - width], axis=-1)

    def eased(self, sizes: Array) -> dict[str, LoomRoom]:
        """The room with one of the limits that are near to a design a step less strict."""
        lock, thickness, width = (float(size) for size in sizes)
        named, rooms = self.named, {}
        largest = max(lock, thickness, width)
        spare = {
            "least_lock": lock - named["least_lock"],
            "grip": lock - named["grip"],
            "most_lock": named["most_lock"] - largest,
            "stock": named["stock"] - max(largest, float(np.max(inboard_beside(self.shape, lock)))),
            "least_neck_thickness": thickness - named["least_neck_thickness"],
            "blade": thickness - named["blade"],
            "least_neck_width": width - named["least_neck_width"],
            "blade_width": named["blade_width"] - width,
            "taper": lock - max(thickness, width),
            "least_neck_share": width - named["least_neck_share"] * thickness,
        }
        for name, left in spare.items():
            if left < 2 * self.step:
                by = SHARE_STEP if name == "least_neck_share" else self.step
                rooms[name] = replace(self, named={**named, name: named[name] + (-by if name in _LOWER else by)})
        return rooms

    def _refuse(self) -> None:
        """Refuse limits that leave no loom, with what fights."""
        if not self.step > 0:
            raise BadDesign("the limits leave no loom: the step of the sizes must be a length above nought")
        low, high = self.ends
        lows = (("least_lock", "grip"), ("least_neck_thickness", "blade"), ("least_neck_width",))
        for size, names, least, most in zip(("lock", "neck", "neck's width"), lows, low, high, strict=True):
            if np.ceil(least / self.step - SAME) > np.floor(most / self.step + SAME):
                cause = _LEAST[max(names, key=lambda name: self.named[name])]
                self._told(
                    f"{cause} wants a {size} of {{least}} at least, and stock and other limits allow {{most}} at most, "
                    "on steps of {step}",
                    least=least, most=most, step=self.step,
                )  # fmt: skip
        if max(low[1], low[2]) > high[0] or self.named["least_neck_share"] * low[1] > min(high[2], high[0]):
            self._told(
                "a neck at least {thick} thick and {wide} wide does not go with a lock of {lock} and a neck's width of "
                "{most} at most",
                thick=low[1], wide=max(low[2], self.named["least_neck_share"] * low[1]), lock=high[0], most=high[2],
            )  # fmt: skip

    @staticmethod
    def _told(text: str, **sizes: float) -> None:
        quantities = {name: Quantity(value=float(size), unit="m") for name, size in sizes.items()}
        raise BadDesign(f"the limits leave no loom: {text}", quantities)


_LOWER = (*_LEAST, "least_neck_share")  #: limits that are eased downward
