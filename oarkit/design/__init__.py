"""The spine: station -> rig -> stroke -> oars -> checks, on plain records; reads no file."""

from oarkit.design.records import (
    RESULT_UNITS,
    Design,
    FixtureInputs,
    Inputs,
    OarDesign,
    OarInputs,
    PieceInputs,
    RowerInputs,
    Side,
    Sizing,
    StationInputs,
    Value,
)

__all__ = [
    "RESULT_UNITS", "Design", "FixtureInputs", "Inputs", "OarDesign", "OarInputs", "PieceInputs", "RowerInputs", "Side",
    "Sizing", "StationInputs", "Value", "design", "oar_design", "sized",
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


def oar_design(inputs: OarInputs) -> OarDesign:
    """From an outline and boards to a pair of oars, every load on them and every check; no boat or rower is needed.

    Parameters
    ----------
    inputs : OarInputs
        Everything given, in SI. [record]

    Returns
    -------
    OarDesign
        Everything found, in SI. [record]

    Raises
    ------
    BadDesign
        The numbers cannot be built, with the reason.

    Notes
    -----
    Source: each line of ``OarDesign.working`` names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = oar_design(design(example_project("quillet").inputs).oar.inputs)
    >>> round(float(made.oars["port"].shape.length), 3)
    2.286
    """
    from oarkit.design.oar import work_out_oar  # here, so that importing oarkit stays light

    return work_out_oar(inputs)


def sized(made: OarDesign, side: Side = "port") -> Sizing:
    """The lightest loom and blade that do what is wanted of an oar, what decides, and what stiffness costs.

    Parameters
    ----------
    made : OarDesign
        The oars. [record]
    side : {"port", "starboard"}, optional
        Which of them. [text]

    Returns
    -------
    Sizing
        Sentences, and the lightest loom for several stiffness indexes; no loom for an oar measured from life. [records]

    Notes
    -----
    Source: `oarkit.strength.sizing` and `oarkit.strength.blade_sizing`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> made = sized(design(example_project("quillet").inputs).oar)
    >>> made.findings[0].code, len(made.curve)
    ('loom_size', 5)
    """
    from oarkit.design.oar import size_anew  # here, so that importing oarkit stays light

    return size_anew(made, side)
