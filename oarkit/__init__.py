"""Rowing geometry and laminated oars for light, narrow boats.

Units: everything in the library is in m, N, Pa, kg, s and rad, floats or numpy arrays alike; only `oarkit.units` and
the project file know millimetres, feet, inches and pounds.

>>> import oarkit
>>> rig = oarkit.rig_from_station(beam=0.90, lock_overhang=0.10, seat_above_water=0.08, lock_above_water=0.30,
...                               overlap=0.10, leverage_ratio=2.5, thigh_thickness=0.16)
>>> round(rig.span, 3)
1.1
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from oarkit.design import design, oar_design
from oarkit.rig.split import split
from oarkit.rig.station import Rig, rig_from_station
from oarkit.working import BadDesign

if TYPE_CHECKING:
    from oarkit.project import OarProject, Project, ProjectError, example_project, read_oar, read_project
    from oarkit.sheet.folder import write_sheet

__version__ = "0.1.0"
__all__ = [
    "BadDesign", "OarProject", "Project", "ProjectError", "Rig", "design", "example_project", "oar_design", "read_oar",
    "read_project", "rig_from_station", "split", "write_sheet",
]  # fmt: skip

_LATE = {
    "OarProject": "oarkit.project", "Project": "oarkit.project", "ProjectError": "oarkit.project",
    "example_project": "oarkit.project",
    "read_oar": "oarkit.project", "read_project": "oarkit.project", "write_sheet": "oarkit.sheet.folder",
}  # fmt: skip


def __getattr__(name: str) -> Any:
    """Bring in the rooms that cost time to import only when they are asked for."""
    if name in _LATE:
        import importlib

        return getattr(importlib.import_module(_LATE[name]), name)
    raise AttributeError(f"module 'oarkit' has no attribute '{name}'")
