"""Choosing a rig under limits."""

from oarkit.fit.choose import choose
from oarkit.fit.limits import Choice, FitStation, Limits

__all__ = ["Choice", "FitStation", "Limits", "choose"]
