"""Torsion and true shear of a section of several woods, by finite elements on its warping.

Both look for the warping u(y, z) along the oar that leaves the surface free. Poisson's ratio is taken as nil, as the
grain runs along the oar and the wood hardly minds strain across it; each wood has one shear modulus.

Where a joint of unlike woods comes out at the surface, theory has the stress in the stiffer one rise without limit if
that one is the sharper wedge, in a place so small that wood and glue give way to it. So peaks leave out what lies
within a tenth of the section's lesser size from the end of such a joint.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from oarkit.section.mesh import Mesh, Quadrature, joint_ends, mesh_section, quadrature, to_nodes
from oarkit.section.regions import Region
from oarkit.working import Array

JOINT_END = 0.1  #: share of the lesser size within which the end of a joint is left out, a choice of this project


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """Greatest shear stress in one region for a unit of load [1/m3 per N m, 1/m2 per N], and its place [m]."""

    name: str
    stress: float
    y: float
    z: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Torsion:
    """Torsion stiffness G J [N m2] and the greatest shear stress for a torque of 1 N m, worst region first [1/m3]."""

    stiffness: float
    peaks: tuple[Peak, ...]

    @property
    def stress_per_torque(self) -> float:
        """Greatest shear stress anywhere for a torque of 1 N m."""
        return self.peaks[0].stress


@dataclass(frozen=True, slots=True, kw_only=True)
class Shear:
    """Shear stiffness G A/k [N], shear centre and neutral axis [m], peak stress for 1 N, worst region first [1/m2].

    The force acts along z through the shear centre (``centre_y``), where it does not twist the oar.
    """

    stiffness: float
    neutral_axis: float
    centre_y: float
    peaks: tuple[Peak, ...]

    @property
    def stress_per_force(self) -> float:
        """Greatest shear stress anywhere for a force of 1 N."""
        return self.peaks[0].stress


def _solve(mesh: Mesh, rule: Quadrature, shear_modulus: Array, load: Array) -> Array:
    """Warping at the nodes for a load on each element's nodes; the first node is held at nil."""
    from scipy.sparse import coo_array
    from scipy.sparse.linalg import splu

    count = len(mesh.points)
    weighted = rule.gradient * (rule.weight * shear_modulus[:, None])[..., None, None]
    flat = rule.gradient.swapaxes(2, 3).reshape(len(mesh.elements), -1, 9)
    stiffness = flat.swapaxes(1, 2) @ weighted.swapaxes(2, 3).reshape(flat.shape)
    rows, columns = np.repeat(mesh.elements, 9, axis=1), np.tile(mesh.elements, (1, 9))
    whole = coo_array((stiffness.ravel(), (rows.ravel(), columns.ravel())), shape=(count, count)).tocsc()
    force = np.bincount(mesh.elements.ravel(), weights=load.ravel(), minlength=count)
    factors = splu(whole[1:, 1:], permc_spec="MMD_AT_PLUS_A", options={"SymmetricMode": True}, diag_pivot_thresh=0.0)
    return np.concatenate([[0.0], factors.solve(force[1:])])


def _places(mesh: Mesh, rule: Quadrature) -> Array:
    """y and z of the quadrature points, last axis."""
    places: Array = np.einsum("qn,enx->eqx", rule.shape, mesh.points[mesh.elements])
    return places


def _slopes(mesh: Mesh, rule: Quadrature, warping: Array) -> Array:
    """Gradient of the warping at the quadrature points, last axis."""
    slopes: Array = np.einsum("eqnx,en->eqx", rule.gradient, warping[mesh.elements])
    return slopes


def _away_from_joint_ends(mesh: Mesh, shear_modulus: Array) -> NDArray[np.bool_]:
    """Nodes that lie farther than a tenth of the section's lesser size from every end of a joint."""
    near = JOINT_END * float(np.min(np.ptp(mesh.points, axis=0)))
    away = np.ones(len(mesh.points), dtype=bool)
    for end in joint_ends(mesh, shear_modulus):
        away &= np.hypot(*(mesh.points - end).T) > near
    return away


def _peaks(mesh: Mesh, regions: Sequence[Region], shear_modulus: Array, stress: Array) -> tuple[Peak, ...]:
    """Greatest stress in each region, from the 2 by 2 points of every element, mean of the elements round a node."""
    at_nodes = np.einsum("nq,eqx->enx", to_nodes(), stress)
    away = _away_from_joint_ends(mesh, shear_modulus)
    found = []
    for index in np.unique(mesh.region):
        mine = mesh.region == index
        nodes = mesh.elements[mine].ravel()
        times = np.bincount(nodes, minlength=len(mesh.points))
        total = [np.bincount(nodes, weights=at_nodes[mine][..., k].ravel(), minlength=len(mesh.points)) for k in (0, 1)]
        size = np.hypot(*total) / np.maximum(times, 1)
        at = int(np.argmax(size * away if np.any(away & (times > 0)) else size))
        y, z = mesh.points[at]
        found.append(Peak(name=regions[index].name, stress=float(size[at]), y=float(y), z=float(z)))
    return tuple(sorted(found, key=lambda peak: -peak.stress))


def _moduli(mesh: Mesh, regions: Sequence[Region]) -> tuple[Array, Array]:
    """Modulus and shear modulus of each element."""
    table = np.array([[r.modulus, r.shear_modulus] for r in regions])[mesh.region]
    return table[:, 0], table[:, 1]


def torsion(regions: Sequence[Region], *, elements: int = 1500) -> Torsion:
    r"""Torsion stiffness of a section of several woods, and its greatest shear stress.

    Parameters
    ----------
    regions : sequence of Region
        The outline first; later ones lie over earlier ones. [m, Pa]
    elements : int, optional
        About how many elements an outline without joints gets. [count]

    Returns
    -------
    Torsion
        G J and the greatest stress for a unit torque in each wood. [N m2, 1/m3]

    Raises
    ------
    BadDesign
        The section cannot be built.

    Notes
    -----
    .. math:: \nabla\cdot G\,(\nabla u + (-z, y)) = 0, \qquad GJ = \int G\,|\nabla u + (-z, y)|^2\,dA

    Source: St Venant's torsion by its warping, any textbook of elasticity. At a sharp inner corner of a hollow
    the stress has no limit and what is found grows as the mesh gets finer: give the hollow its true corner radius.

    Examples
    --------
    >>> from oarkit.section.regions import ellipse
    >>> loom = ellipse(name="loom", thickness=0.046, width=0.046, modulus=10e9, shear_modulus=0.6e9)
    >>> round(torsion([loom]).stiffness / (0.6e9 * np.pi * 0.046**4 / 32), 4)
    1.0
    """
    mesh = mesh_section(regions, elements=elements)
    _, shear_modulus = _moduli(mesh, regions)
    fine, barlow = quadrature(mesh, points=3), quadrature(mesh, points=2)
    turn = _places(mesh, fine)[..., ::-1] * [-1, 1]
    weight = fine.weight * shear_modulus[:, None]
    warping = _solve(mesh, fine, shear_modulus, -np.einsum("eq,eqnx,eqx->en", weight, fine.gradient, turn))
    strain = _slopes(mesh, fine, warping) + turn
    stiffness = float(np.sum(weight[..., None] * strain * turn))  # of the exact warping, as |strain|^2
    strain = _slopes(mesh, barlow, warping) + _places(mesh, barlow)[..., ::-1] * [-1, 1]
    return Torsion(
        stiffness=stiffness,
        peaks=_peaks(mesh, regions, shear_modulus, strain * shear_modulus[:, None, None] / stiffness),
    )


def shear(regions: Sequence[Region], *, elements: int = 1500) -> Shear:
    r"""True shear of a section of several woods under a force along z, and its greatest stress.

    Parameters
    ----------
    regions : sequence of Region
        The outline first; later ones lie over earlier ones. [m, Pa]
    elements : int, optional
        About how many elements an outline without joints gets. [count]

    Returns
    -------
    Shear
        G A/k, neutral axis, shear centre and the greatest stress for a unit force in each wood. [N, m, 1/m2]

    Raises
    ------
    BadDesign
        The section cannot be built.

    Notes
    -----
    .. math:: \nabla\cdot G\,\nabla u + E\,(a\,z + b\,y) = 0, \qquad \int E\,(a\,z + b\,y)\,(z, y)\,dA = (V, 0)

    with y and z from the neutral axes; the stiffness is V² over the integral of stress squared over G.

    Source: flexure with Poisson's ratio nil, any textbook of elasticity. V Q/(I b), which takes the stress as even
    across the width, gives 4/3 V/A in a round bar where this gives 3/2. A sharp inner corner: see `torsion`.

    Examples
    --------
    >>> from oarkit.section.regions import rectangle
    >>> bar = rectangle(name="bar", thickness=0.02, width=0.03, modulus=10e9, shear_modulus=0.6e9)
    >>> round(shear([bar]).stress_per_force * 0.02 * 0.03, 2)
    1.5
    """
    mesh = mesh_section(regions, elements=elements)
    modulus, shear_modulus = _moduli(mesh, regions)
    fine, barlow = quadrature(mesh, points=3), quadrature(mesh, points=2)
    place, weight = _places(mesh, fine), fine.weight * modulus[:, None]
    centre = np.einsum("eq,eqx->x", weight, place) / np.sum(weight)
    arm = place - centre
    share = np.linalg.solve(np.einsum("eq,eqx,eqw->xw", weight, arm, arm), np.array([0.0, 1.0]))
    warping = _solve(mesh, fine, shear_modulus, np.einsum("eq,qn,eqx,x->en", weight, fine.shape, arm, share))
    strain = _slopes(mesh, fine, warping)
    stress_area = strain * (fine.weight * shear_modulus[:, None])[..., None]
    moment = np.sum(place[..., 0] * stress_area[..., 1] - place[..., 1] * stress_area[..., 0])
    stress = _slopes(mesh, barlow, warping) * shear_modulus[:, None, None]
    return Shear(
        stiffness=float(1 / np.sum(strain * stress_area)),
        neutral_axis=float(centre[1]),
        centre_y=float(moment),
        peaks=_peaks(mesh, regions, shear_modulus, stress),
    )
