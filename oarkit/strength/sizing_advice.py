"""What sizing found, in sentences: the lightest loom, what decides, what stiffness costs, blade and hardwood."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from functools import partial

from oarkit.oar.build import Oar
from oarkit.oar.mass import mass
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.blade_sizing import CUSTOM_LIMITS, BladeLimits, BladeSize, size_blade, with_blade
from oarkit.strength.blade_state import CUSTOM_WISHES, BladeState, BladeWishes
from oarkit.strength.sizing import (
    CUSTOM,
    LoomSize,
    Missed,
    Wishes,
    drawn,
    lightest_loom,
    mass_against_index,
    rowing_ratio,
    with_loom,
)
from oarkit.strength.sizing_limits import LoomLimits, LoomRoom
from oarkit.working import BadDesign, Finding, Level, Quantity

STIFFER = 0.01  #: of the stiffness index, for which the cost is told [1]
SAME_MASS = 0.0005  #: masses closer than that are told as one [kg]
SAME_DROP = 0.00005  #: likewise drops [m]
SAME_RATIO = 0.01  #: share by which a ratio must change to be told [1]

_WISHES = {
    "index": "the wanted stiffness index",
    "ratio": "the wanted safety ratio",
    "bending": "the ratio in bending",
    "corner": "the ratio of the tip's corner",
    "plate": "the ratio of the blade as a plate",
}
_LIMITS = {
    "least_lock": "the least lock of {{{}}}",
    "grip": "the grip of {{{}}}, for the lock is no thinner",
    "most_lock": "the most of {{{}}} for the lock",
    "stock": "the stock of {{{}}}",
    "least_neck_thickness": "the least thickness of {{{}}} for the neck",
    "blade": "the blade's thickness of {{{}}}, for the neck is no thinner",
    "least_neck_width": "the least width of {{{}}} for the neck",
    "blade_width": "the blade's width of {{{}}}, for the neck is no wider",
    "least_neck_share": "the least width of the neck, {{{}}} of its thickness",
    "least_tip": "the least tip of {{{}}}",
    "most_tip": "the most of {{{}}} for the tip",
    "least_edge": "the least edge of {{{}}}",
    "least_edge_strip": "the least edge strip of {{{}}}",
    "least_face": "the least face of {{{}}}",
    "least_tip_piece": "the shortest tip piece of {{{}}}",
    "most_tip_piece": "the longest tip piece of {{{}}}",
    "most_edge_strip": "the edge strips, which at {{{}}} would meet at the neck",
    "neck": "the neck, {{{}}} thick",
}
_TAPER = "the taper, which never thickens toward the blade"
_BLADE_TAPER = "the edge, which never thickens toward the tip"
_HARDWOOD = {"edge": "edge strips", "face": "faces", "tip": "tip piece", "all": "any of them"}
_RATIOS = {"bending": "in bending", "corner": "under a knock on the tip's corner", "plate": "under the water"}


def sizing_findings(
    oar: Oar,
    wishes: Wishes,
    limits: LoomLimits = CUSTOM,
    *,
    blade: BladeWishes | None = CUSTOM_WISHES,
    blade_limits: BladeLimits = CUSTOM_LIMITS,
    loom: LoomSize | None = None,
    loom_at: Callable[[float], LoomSize] | None = None,
    abuse_of: Callable[[Oar], Mapping[str, float]] | None = None,
) -> list[Finding]:
    """Findings of sizing one oar (scalars): its loom, the price of stiffness, its blade and its hardwood.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    wishes : Wishes
        What the loom must do. [record]
    limits : LoomLimits, optional
        What stock, tools, hand and eye allow of the loom. [m]
    blade : BladeWishes or None, optional
        What the blade must bear; None to leave it out. [record]
    blade_limits : BladeLimits, optional
        What tools, eye and use leave of the blade. [m]
    loom : LoomSize, optional
        The lightest loom, where it was found already. [record]
    loom_at : callable, optional
        The lightest loom for a stiffness index, where the caller keeps those that were found. [1]
    abuse_of : callable, optional
        Least ratio of an oar under each kind of abuse, by its name; without it nothing is said of abuse. [1]

    Returns
    -------
    list of Finding
        Sentences with their quantities; one that says why, where the oar cannot be sized. [records]

    Notes
    -----
    Source: `oarkit.strength.sizing.lightest_loom` and `oarkit.strength.blade_sizing.size_blade` on the oar itself.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> [finding.code for finding in sizing_findings(oar, Wishes(index=0.05, ratio=1.5))]
    ['loom_size', 'loom_trade', 'blade_size', 'hardwood']
    """
    found: list[Finding] = []
    try:
        loom = loom or lightest_loom(oar, wishes, limits)
        found += [
            _loom(oar, loom, wishes, limits),
            *_trade(loom, wishes, loom_at or partial(_loom_at, oar, wishes, limits)),
            *_worse("loom", oar, with_loom(oar, loom), abuse_of, wishes.ratio),
        ]
    except BadDesign as error:
        found.append(_refused(error))
        if "measured from life" in error.text:
            return found
    if blade is not None:
        try:
            sized = size_blade(oar, blade, blade_limits)
            found += [
                _blade(oar, sized, blade, blade_limits),
                *_hardwood(sized),
                *_worse("blade", oar, with_blade(oar, sized), abuse_of, wishes.ratio),
            ]
        except BadDesign as error:
            found.append(_refused(error))
    return found


def _worse(
    what: str, before: Oar, after: Oar, abuse_of: Callable[[Oar], Mapping[str, float]] | None, wanted: float | None
) -> list[Finding]:
    """Abuse that the sized oar bears less well, to under what is wanted."""
    if abuse_of is None:
        return []
    now, then = abuse_of(before), abuse_of(after)
    asked = max(wanted or 1.0, 1.0)
    told = [
        name for name, ratio in then.items() if ratio < asked and ratio < now.get(name, math.inf) * (1 - SAME_RATIO)
    ]
    if not told:
        return []
    words: list[str] = []
    quantities: dict[str, Quantity] = {}
    for number, name in enumerate(sorted(told, key=lambda name: then[name])):
        words.append(f"{name} {{then_{number}}} where it is {{now_{number}}}")
        quantities |= {f"then_{number}": _one(then[name]), f"now_{number}": _one(now[name])}
    breaks = any(then[name] < 1 <= now[name] for name in told)
    text = f"That {what} would leave lower ratios under abuse: {'; '.join(words)}."
    return [_finding("caution" if breaks else "note", f"{what}_abuse", text, quantities)]


def _finding(level: Level, code: str, text: str, quantities: Mapping[str, Quantity]) -> Finding:
    used = {name: value for name, value in quantities.items() if f"{{{name}}}" in text}
    return Finding(level=level, code=code, text=text, quantities=used, source="worked on this oar's own stations")


def _refused(error: BadDesign) -> Finding:
    text = f"{error.text[0].upper()}{error.text[1:]}."
    return _finding("note", "not_sized", text, error.quantities)


def _m(value: float) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _one(value: float) -> Quantity:
    return Quantity(value=float(value), unit="1")


def _kg(value: float) -> Quantity:
    return Quantity(value=float(value), unit="kg")


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _named(names: Sequence[str], sizes: Mapping[str, float], taper: str) -> tuple[str, dict[str, Quantity]]:
    """Wishes and limits in words, with the sizes of the limits."""
    words, quantities = [], {}
    for name in names:
        if name in _LIMITS:
            gap = f"limit_{name}"
            words.append(_LIMITS[name].format(gap))
            quantities[gap] = _one(sizes[name]) if name.endswith("share") else _m(sizes[name])
        else:
            words.append(_WISHES.get(name, taper))
    return _listed(words), quantities


def _decided(names: Sequence[str], sizes: Mapping[str, float], taper: str) -> tuple[str, dict[str, Quantity]]:
    if not names:
        return "", {}
    words, quantities = _named(names, sizes, taper)
    return f" What keeps it from being lighter: {words}.", quantities


def _nearest(
    missed: Sequence[Missed], names: Sequence[str], sizes: Mapping[str, float], taper: str, else_: str
) -> tuple[str, dict[str, Quantity]]:
    """By how much the nearest misses, and what stands in the way."""
    told: list[str] = []
    quantities: dict[str, Quantity] = {}
    for one in missed:
        what = "an index" if one.wish == "index" else f"{'a' + _WISHES[one.wish].removeprefix('the')}"
        told.append(f"{what.replace('a wanted', 'a')} of {{near_{one.wish}}} where {{want_{one.wish}}} is wanted")
        quantities |= {f"near_{one.wish}": _one(one.nearest), f"want_{one.wish}": _one(one.wanted)}
    text = f" comes to {_listed(told)}."
    if not names:
        return text + else_, quantities
    words, more = _named(names, sizes, taper)
    return f"{text} In the way {'stands' if len(names) == 1 else 'stand'} {words}.", quantities | more


def _against(before: float, after: float, what: str) -> tuple[str, dict[str, Quantity]]:
    """How much lighter or heavier than what there is."""
    if abs(after - before) < SAME_MASS:
        return f"as heavy as {what}", {}
    return f"{{change}} {'lighter' if after < before else 'heavier'} than {what}", {"change": _kg(abs(after - before))}


def _loom(oar: Oar, loom: LoomSize, wishes: Wishes, limits: LoomLimits) -> Finding:
    room = LoomRoom.of(drawn(oar), limits).named
    sizes = "{lock} at the lock, its neck {thick} thick and {wide} wide"
    quantities = {
        "lock": _m(loom.lock), "thick": _m(loom.neck_thickness), "wide": _m(loom.neck_width), "mass": _kg(loom.mass),
        "index": _one(loom.index), "ratio": _one(loom.ratio), "force": Quantity(value=wishes.force, unit="N"),
    }  # fmt: skip
    if not loom.fits:
        quantities |= {"place": _m(loom.place)}
        cure = (
            f" No size of the loom would bring it nearer: the {loom.part} breaks first, {{place}} from the handle end."
        )
        text, more = _nearest(loom.missed, loom.in_the_way, room, _TAPER, cure)
        return _finding("caution", "loom_size", f"No loom does all that is wanted. The nearest, {sizes},{text}",
                        quantities | more)  # fmt: skip
    against, change = _against(float(mass(oar)), loom.mass, "this one")
    text = (
        f"The lightest loom that does what is wanted is {sizes}: the oar then weighs {{mass}}, {against}, with an "
        "index of {index} and a safety ratio of {ratio} in a hard start of {force} a hand"
        + (", its hole counted." if wishes.hole is not None else ".")
    )
    misses, own = _own_misses(oar, wishes)
    why, more = _decided(loom.decides, room, _TAPER)
    return _finding("note", "loom_size", text + misses + why, quantities | change | own | more)


def _own_misses(oar: Oar, wishes: Wishes) -> tuple[str, dict[str, Quantity]]:
    """What the oar as it is misses of the wishes."""
    index = float(stiffness_index(drop=bench_drop(oar), blade_arm=oar.blade_arm))
    ratio = float(rowing_ratio(oar, wishes))
    told: list[str] = []
    quantities: dict[str, Quantity] = {}
    if wishes.index is not None and index > wishes.index:
        told.append("an index of {own_index}, more limber than the {own_wanted_index} wanted")
        quantities |= {"own_index": _one(index), "own_wanted_index": _one(wishes.index)}
    if wishes.ratio is not None and ratio < wishes.ratio:
        told.append("a ratio of {own_ratio}, below the {own_wanted_ratio} wanted")
        quantities |= {"own_ratio": _one(ratio), "own_wanted_ratio": _one(wishes.ratio)}
    return (f" As it is the oar has {_listed(told)}." if told else ""), quantities


def _loom_at(oar: Oar, wishes: Wishes, limits: LoomLimits, index: float) -> LoomSize:
    return mass_against_index(oar, indexes=[index], wishes=wishes, limits=limits)[0]


def _trade(loom: LoomSize, wishes: Wishes, loom_at: Callable[[float], LoomSize]) -> list[Finding]:
    """What a stiffer oar costs and a more limber one saves."""
    if not loom.fits:
        return []
    held = wishes.index is not None and "index" in loom.decides  # else the index comes out as it will
    now = wishes.index if wishes.index is not None and held else loom.index
    stiffer, limber = (round(now + by, 9) for by in (-STIFFER, STIFFER))
    quantities = {"by": _one(STIFFER), "stiffer": _one(stiffer), "limber": _one(limber)}
    told = []
    if stiffer > 0:
        stiff = loom_at(stiffer)
        if stiff.fits:
            quantities |= {"costs": _kg(stiff.mass - loom.mass), "stiff_lock": _m(stiff.lock)}
            told.append("stiffer by {by}, an index of {stiffer}, costs {costs} an oar and {stiff_lock} at the lock")
        else:
            told.append("no loom within the limits is stiffer by {by}")
    if held:
        soft = loom_at(limber)
        if loom.mass - soft.mass < SAME_MASS:
            told.append("more limber by {by} saves nothing")
        else:
            quantities |= {"saves": _kg(loom.mass - soft.mass), "soft_lock": _m(soft.lock)}
            told.append("more limber by {by}, an index of {limber}, saves {saves}, with {soft_lock} at the lock")
    if not told:
        return []
    text = "; ".join(told)
    return [_finding("note", "loom_trade", f"{text[0].upper()}{text[1:]}.", quantities)]


def _blade(oar: Oar, sized: BladeSize, wishes: BladeWishes, limits: BladeLimits) -> Finding:
    known = {name: float(value) for name, value in asdict(limits).items()}
    shape = drawn(oar)
    known |= {"neck": float(shape.neck_thickness), "most_edge_strip": float(shape.neck_width) / 2,
              "most_tip_piece": min(limits.most_tip_piece, float(shape.blade_length) / 2)}  # fmt: skip
    sizes = "{tip} thick in the middle at the tip, its edges {root} at the root and {edge} at the tip"
    quantities = {"tip": _m(sized.tip_thickness), "root": _m(sized.edge_at_root), "edge": _m(sized.edge_at_tip)}
    for gap, words in (("edge_strip", "edge strips"), ("face", "faces"), ("tip_piece", "tip piece")):
        size = getattr(sized, gap)
        if size is not None:
            sizes, quantities[gap] = f"{sizes}, {words} of {{{gap}}}", _m(size)
    unknown = "".join(
        f" It is not sized for {_WISHES[name]}: the tables have no strength across the grain for a wood in it."
        for name in sized.not_checked
    )
    if not sized.fits:
        quantities |= {"place": _m(sized.state.place)}
        cure = f" No size of the blade would bring it nearer: its {sized.state.part} breaks first, {{place}} from the "
        text, more = _nearest(sized.missed, sized.in_the_way, known, _BLADE_TAPER, f"{cure}handle end.")
        said = f"No blade on this neck bears all that is wanted. The nearest, {sizes},{text}{unknown}"
        return _finding("caution", "blade_size", said, quantities | more)
    against, change = _against(sized.now.mass, sized.state.mass, "this one")
    quantities |= change | {"mass": _kg(sized.state.mass), "drop": _m(sized.state.drop), "drop_now": _m(sized.now.drop)}
    text = (
        f"The lightest blade on this neck that bears what is wanted is {sizes}: the oar then weighs {{mass}}, "
        f"{against}, "
        "and drops {drop} on the bench where it now drops {drop_now}."
    )
    ratios, told = _states(sized.state)
    misses, own = _blade_misses(sized, wishes)
    why, more = _decided(sized.decides, known, _BLADE_TAPER)
    return _finding(
        "note",
        "blade_size",
        f"{text} It has a ratio of {ratios}.{misses}{why}{unknown}",
        quantities | told | own | more,
    )


def _states(state: BladeState, prefix: str = "has") -> tuple[str, dict[str, Quantity]]:
    """The ratios of a blade in words."""
    known = {name: getattr(state, name) for name in _RATIOS if getattr(state, name) is not None}
    words = [f"{{{prefix}_{name}}} {how}" for name, how in _RATIOS.items() if name in known]
    return _listed(words), {f"{prefix}_{name}": _one(value) for name, value in known.items()}


def _blade_misses(sized: BladeSize, wishes: BladeWishes) -> tuple[str, dict[str, Quantity]]:
    """What the blade as it is misses of the wishes."""
    known = {name: (getattr(sized.now, name), getattr(wishes, name)) for name in _RATIOS}
    low = {name: pair for name, pair in known.items() if None not in pair and pair[0] < pair[1]}
    if not low:
        return "", {}
    words = [f"{{own_{name}}} {_RATIOS[name]} where {{wish_{name}}} is wanted" for name in low]
    quantities = {f"own_{name}": _one(pair[0]) for name, pair in low.items()}
    quantities |= {f"wish_{name}": _one(pair[1]) for name, pair in low.items()}
    return f" As it is the blade has a ratio of {_listed(words)}.", quantities


def _hardwood(sized: BladeSize) -> list[Finding]:
    """What each kind of hardwood weighs, stiffens and bears, on the blade as it was sized."""
    told: list[str] = []
    quantities: dict[str, Quantity] = {}
    for kind, bare in sized.bare.items():
        mass_gap, drop_gap = f"{kind}_mass", f"{kind}_drop"
        lighter, limper = sized.state.mass - bare.mass, bare.drop - sized.state.drop
        quantities |= {mass_gap: _kg(abs(lighter)), drop_gap: _m(abs(limper))}
        weighs = f"{{{mass_gap}}} {'less' if lighter >= 0 else 'more'}" if abs(lighter) >= SAME_MASS else "as much"
        words = f"without {'' if kind == 'all' else 'its '}{_HARDWOOD[kind]} it would weigh {weighs} and drop "
        words += "as far" if abs(limper) < SAME_DROP else f"{{{drop_gap}}} {'more' if limper >= 0 else 'less'}"
        for name in _RATIOS:
            with_it, without_it = getattr(sized.state, name), getattr(bare, name)
            if None in (with_it, without_it) or abs(without_it / with_it - 1) < SAME_RATIO:
                continue
            gap = f"{kind}_{name}"
            words += f", {_WISHES[name]} {{{gap}}} in place of {{{gap}_with}}"
            quantities |= {gap: _one(without_it), f"{gap}_with": _one(with_it)}
        told.append(words)
    if not told:
        return []
    return [_finding("note", "hardwood", f"Of the hardwood of that blade: {'; '.join(told)}.", quantities)]
