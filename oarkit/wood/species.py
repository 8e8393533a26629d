"""The species table: one record a species and origin, found under the names people use."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from oarkit.working import BadDesign


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearValue:
    """Mean of one property at 12 % and green, None where the table has none, and its coefficient of variation."""

    at_12: float | None
    green: float | None
    variation: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """Mean properties of small clear specimens; None where the table has no value.

    Pressures in Pa, work to maximum load in J/m3, drop of the impact hammer in m, hardness in N, moisture and ratios
    as fractions; shrinkage is from green to ovendry, movement a share of the width per 1 % of moisture.
    """

    name: str
    scientific: str
    kind: str
    origin: str
    gravity_12: float | None
    gravity_green: float | None
    bending_strength_12: float | None
    bending_strength_green: float | None
    bending_modulus_12: float | None
    bending_modulus_green: float | None
    work_to_maximum_12: float | None
    work_to_maximum_green: float | None
    impact_12: float | None
    impact_green: float | None
    compression_parallel_12: float | None
    compression_parallel_green: float | None
    compression_across_12: float | None
    compression_across_green: float | None
    shear_parallel_12: float | None
    shear_parallel_green: float | None
    tension_across_12: float | None
    tension_across_green: float | None
    hardness_12: float | None
    hardness_green: float | None
    tangential_ratio: float | None
    radial_ratio: float | None
    shear_ratio_radial: float | None
    shear_ratio_tangential: float | None
    moisture_point: float
    gravity_variation: float
    bending_strength_variation: float
    bending_modulus_variation: float
    work_to_maximum_variation: float
    impact_variation: float
    compression_parallel_variation: float
    compression_across_variation: float
    shear_parallel_variation: float
    tension_across_variation: float
    hardness_variation: float
    radial_shrinkage: float | None
    tangential_shrinkage: float | None
    volumetric_shrinkage: float | None
    shrinkage_quoted: bool
    radial_movement: float | None
    tangential_movement: float | None
    source: str
    status: str
    note: str

    @property
    def second_hand(self) -> bool:
        """Whether the value was taken from a later work and the original table not read."""
        return self.status not in {"read", "derived"}

    def clear(self, prop: str) -> ClearValue:
        """One property by its name, e.g. "shear_parallel"."""
        return ClearValue(
            at_12=getattr(self, f"{prop}_12"),
            green=getattr(self, f"{prop}_green"),
            variation=getattr(self, f"{prop}_variation"),
        )


def _words(name: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[a-z]+", name.lower()))


def matching_species(name: str, table: Iterable[Species]) -> list[Species]:
    """Species whose name holds every word of a search, in the table's order.

    Parameters
    ----------
    name : str
        Words in any order, e.g. "Sitka spruce" or "spruce". [text]
    table : iterable of Species
        Where to look. [records]

    Returns
    -------
    list of Species
        All that match; an empty search matches everything. [records]

    Notes
    -----
    Source: derived; a plain search by words, common and scientific names alike.

    Examples
    --------
    >>> matching_species("spruce", [])
    []
    """
    wanted = _words(name)
    if name.strip() and not wanted:
        return []
    return [s for s in table if all(any(w.startswith(x) for w in _words(f"{s.name} {s.scientific}")) for x in wanted)]


def find_species(name: str, table: Sequence[Species], also_called: Mapping[str, str] | None = None) -> Species:
    """The one species a name means.

    Parameters
    ----------
    name : str
        As people write it: "Sitka spruce", "spruce, Sitka", "Picea sitchensis". [text]
    table : sequence of Species
        Where to look. [records]
    also_called : mapping, optional
        Other names in use, to the name in the table. [text]

    Returns
    -------
    Species
        The USA sample where a species has several; the origin may be added, e.g. "Sitka spruce (Canada)". [record]

    Raises
    ------
    BadDesign
        No wood of that name (near misses are named), or several (all are named).

    Notes
    -----
    Source: derived; word order and punctuation do not count.

    Examples
    --------
    >>> find_species("sprce, Sitka", [])
    Traceback (most recent call last):
    ...
    oarkit.working.BadDesign: no wood called 'sprce, Sitka' is in the table; `oarkit woods` lists them all
    """
    wanted = set(_words(name))
    for other, proper in (also_called or {}).items():
        if set(_words(other)) == wanted:
            return find_species(proper, table)
    for origin_wanted in (True, False):
        called = [(set(_words(s.name)) | (set(_words(s.origin)) if origin_wanted else set()), s) for s in table]
        exact = [s for name_words, s in called if wanted and wanted in (name_words, set(_words(s.scientific)))]
        partial = [s for name_words, s in called if wanted and wanted <= name_words and not origin_wanted]
        for found in (_usa(exact), _usa(partial), exact, partial):
            names = sorted({s.name for s in found})
            if len(names) > 1:
                raise BadDesign(f"'{name}' may mean {_listed(names)}; write the one you have")
            if found:
                return found[0]
    near = _near(wanted, table)
    hint = f"; did you mean {_listed(near)}?" if near else "; `oarkit woods` lists them all"
    raise BadDesign(f"no wood called '{name}' is in the table{hint}")


def _near(wanted: set[str], table: Iterable[Species]) -> list[str]:
    """Up to three names whose words are spelled most like the wanted ones."""

    def likeness(name: str) -> float:
        best = [max(difflib.SequenceMatcher(None, w, x).ratio() for x in _words(name)) for w in wanted]
        return sum(best) / len(best) if best else 0.0

    names = {s.name: likeness(s.name) for s in table}
    close = sorted((name for name in names if names[name] > 0.7), key=lambda name: -names[name])
    top = [name for name in close if names[name] > names[close[0]] - 0.05]
    return top[:5]


def _usa(species: Sequence[Species]) -> list[Species]:
    return [s for s in species if s.origin == "USA"]


def _listed(names: Sequence[str]) -> str:
    quoted = [f"'{n}'" for n in names]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + " or " + quoted[-1]
