"""Length, span, overlap and inboard as far as a project file tells them, be it of the rig or of the oar alone."""

from __future__ import annotations

from oarkit.project.keys import ProjectFile
from oarkit.project.unread import known
from oarkit.rig import split


def length_of(file: ProjectFile) -> float | None:
    """Length of the oar, where rig, oar or station table tells it outright.

    Parameters
    ----------
    file : ProjectFile
        The keys, of which some may be unread. [record]

    Returns
    -------
    float or None
        Handle end to tip. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> length_of(example_project("quillet").file)
    2.286
    """
    rows = known(file.oar.station)
    told = known(rows[-1].s) if rows else None
    for length in (file.rig.length, file.oar.length):
        told = known(length) if told is None else told
    return told


def overlap_of(file: ProjectFile) -> float | None:
    """Overlap of the handles as told, negative for a gap.

    Parameters
    ----------
    file : ProjectFile
        The keys, of which some may be unread. [record]

    Returns
    -------
    float or None
        The overlap. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> overlap_of(example_project("tumblehod").file)
    -0.0508
    """
    overlap, gap = known(file.rig.overlap), known(file.rig.gap)
    return -gap if overlap is None and gap is not None else overlap


def span_of(file: ProjectFile) -> float | None:
    """Span, where beam and overhang are told.

    Parameters
    ----------
    file : ProjectFile
        The keys, of which some may be unread. [record]

    Returns
    -------
    float or None
        Distance between the two pin lines. [m]

    Notes
    -----
    Source: plane geometry, `oarkit.rig.split.span_from_beam`.

    Examples
    --------
    >>> from oarkit import example_project
    >>> round(span_of(example_project("quillet").file), 4)
    1.1049
    """
    beam, overhang = known(file.boat.beam_at_station), known(file.rig.lock_overhang)
    return None if beam is None or overhang is None else float(split.span_from_beam(beam=beam, overhang=overhang))


def inboard_of_rig(file: ProjectFile) -> float | None:
    """Inboard of the oar, where span and overlap fix it.

    Parameters
    ----------
    file : ProjectFile
        The keys, of which some may be unread. [record]

    Returns
    -------
    float or None
        Handle end to pin line. [m]

    Notes
    -----
    Source: plane geometry, `oarkit.rig.split.inboard_from_overlap`.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inboard_of_rig(example_project("quillet").file)
    0.62865
    """
    span, overlap = span_of(file), overlap_of(file)
    return None if span is None or overlap is None else float(split.inboard_from_overlap(span=span, overlap=overlap))


def inboard_of(file: ProjectFile) -> float | None:
    """Inboard of the oar, where the rig fixes it or the oar tells it.

    Parameters
    ----------
    file : ProjectFile
        The keys, of which some may be unread. [record]

    Returns
    -------
    float or None
        Handle end to pin line. [m]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inboard_of(example_project("quillet").file)
    0.62865
    """
    of_rig = inboard_of_rig(file)
    return known(file.oar.inboard) if of_rig is None else of_rig
