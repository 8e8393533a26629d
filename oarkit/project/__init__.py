"""The project file: read, checked, and turned into the core's records."""

from oarkit.project.alone import OarProject, oar_from_mapping, oar_from_text, read_oar
from oarkit.project.faults import Fault, ProjectError
from oarkit.project.read import (
    Project,
    example_project,
    project_from_mapping,
    project_from_text,
    read_project,
)

__all__ = [
    "Fault",
    "OarProject",
    "Project",
    "ProjectError",
    "example_project",
    "oar_from_mapping",
    "oar_from_text",
    "project_from_mapping",
    "project_from_text",
    "read_oar",
    "read_project",
]
