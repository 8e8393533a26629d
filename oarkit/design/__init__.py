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

__all__ = [
    "RESULT_UNITS", "Design", "FixtureInputs", "Inputs", "PieceInputs", "RowerInputs", "Side", "StationInputs", "Value",
    "design",
]  # fmt: skip


def design(inputs: Inputs) -> Design:
    """From a station, a rower and boards to rig, oars and checks.

    Parameters
    ----------
    inputs : Inputs
        Everything given, in SI. [record]

    Returns
    -------
    Design
        Everything found, in SI. [record]

    Raises
    ------
    BadDesign
        The numbers cannot be built or rowed, with the reason.

    Notes
    -----
    Source: each line of ``Design.working`` names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = design(example_project("quillet").inputs)
    >>> round(float(made.values["rig.span"].value), 4)
    1.1049
    """
    from oarkit.design.whole import work_out  # here, so that importing oarkit stays light

    return work_out(inputs)
