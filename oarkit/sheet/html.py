"""The design sheet as one self-contained HTML file."""

from __future__ import annotations

import re
from collections.abc import Mapping

from jinja2 import Environment, PackageLoader, select_autoescape
from markupsafe import Markup, escape

from oarkit import __version__
from oarkit.design import Design, OarDesign, Side, Sizing
from oarkit.draw.curves import clearance_curves
from oarkit.draw.lengths import length_chart
from oarkit.draw.oar import oar_views
from oarkit.draw.oar_bent import bent_chart
from oarkit.draw.oar_ratios import ratio_chart
from oarkit.draw.oar_sizing import sizing_chart
from oarkit.draw.oar_strength import strength_chart
from oarkit.draw.paper import Paper
from oarkit.draw.station import plan_view, section_view
from oarkit.draw.stroke import side_view, stroke_plan
from oarkit.project import Project
from oarkit.sheet import content, oar, rowing, strength
from oarkit.sheet.marks import unbroken, with_marks
from oarkit.units import Display


def _formula(text: str) -> Markup:
    return Markup(with_marks(str(escape(unbroken(text)))))


def _figure(paper: Paper, number: int) -> Markup:
    """A drawing as inline SVG with its text alternative; its ids are made unique on the page."""
    svg = paper.svg()
    svg = svg[svg.index("<svg") :]
    svg = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>d{number}-", svg)
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg, flags=re.DOTALL)
    head, rest = svg.split(">", 1)
    return Markup(f'{head} role="img" aria-label="{escape(paper.text_alternative)}">{rest}')


def rig_drawings(project: Project, made: Design) -> list[Paper]:
    """The drawings that answer whether it will row; the first two say why this length and how the hands pass."""
    papers = (length_chart(project, made), stroke_plan(project, made), side_view(project, made))
    curves = clearance_curves(project, made)
    return [paper for paper in (*papers, curves, section_view(project, made)) if paper is not None]


def oar_drawings(
    made: OarDesign, display: Display, sizing: Mapping[Side, Sizing], *, ratios: bool = True
) -> list[Paper]:
    """The drawings of the oar: views and sections, moment and strength, how far from breaking, how it bends.

    ``ratios`` tells whether the checks are drawn too, which stand in a table besides.
    """
    papers = []
    for side, each in made.oars.items():
        of = "oar" if len(made.oars) == 1 else f"{side} oar"
        safety = float(made.inputs.wanted_safety)
        papers += [oar_views(each, display, of=of, hole=made.inputs.hole)] if side == "port" or not _alike(made) else []
        papers += [
            strength_chart(each, made.cases[side].made, display, safety=safety, of=of),
            *([ratio_chart(made.checks[side], safety, display, of=of)] if ratios else []),
            bent_chart(each, display, force=made.force, of=of),
        ]
        if sizing[side].curve:
            wanted = made.inputs.wanted_index
            index = None if wanted is None else float(wanted)
            papers.append(sizing_chart(each, sizing[side].curve, display, wanted_index=index, of=of))
    return papers


def _alike(made: OarDesign) -> bool:
    """Whether both oars of a pair are laid out alike, so that one drawing serves both."""
    laid = [[(piece.kind, piece.size, piece.wood.name) for piece in oar.pieces] for oar in made.oars.values()]
    return laid[0] == laid[-1]


def drawings(project: Project, made: Design, sizing: Mapping[Side, Sizing]) -> list[Paper]:
    """The drawings of the sheet, in order: those of the rig, then those of the oar."""
    of_oar = oar_drawings(made.oar, project.display, sizing, ratios=False)
    return [*rig_drawings(project, made), plan_view(project, made), *of_oar]


def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("oarkit.sheet", "."),
        autoescape=select_autoescape(["html", "j2"]),
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["formula"] = _formula
    environment.filters["unbroken"] = unbroken
    return environment


def _figures(papers: list[Paper]) -> list[tuple[str, Markup]]:
    return [(paper.title, _figure(paper, number)) for number, paper in enumerate(papers, 1)]


def sheet_html(project: Project, made: Design, sizing: Mapping[Side, Sizing], papers: list[Paper]) -> str:
    """The whole sheet; every text of the project file is escaped."""
    return (
        _environment()
        .get_template("sheet.html.j2")
        .render(
            project=project,
            made=made,
            version=__version__,
            answer=content.answer(project, made),
            findings=content.findings(project, made),
            levels=content.LEVELS,
            checks=oar.first_checks(made, project.display),
            blocks=rowing.blocks(project, made),
            oar_blocks=strength.blocks(made.oar, project.display, sizing),
            sizing=oar.sizing(made.oar, sizing, project.display),
            figures=_figures(papers),
            stations=oar.station_rows(made.oar, project.display),
            boards=oar.boards(made.oar),
            words=content.meanings(project, made),
            given=content.given(project, made),
            working=content.working(project, made),
            moistures=content.MOISTURES,
            ratio=content.ratio_notes(made),
            cautions=content.CAUTIONS,
            safety=float(made.inputs.wanted_safety),
        )
    )


def oar_html(title: str, display: Display, made: OarDesign, sizing: Mapping[Side, Sizing], papers: list[Paper]) -> str:
    """The oar alone: what it comes to, what was found, drawings, checks, loads, sizing and boards."""
    return (
        _environment()
        .get_template("oar.html.j2")
        .render(
            title=title,
            display=display,
            version=__version__,
            answer=oar.answer(made, display),
            findings=content.said(display, made.findings),
            levels=content.LEVELS,
            blocks=strength.blocks(made, display, sizing),
            sizing=oar.sizing(made, sizing, display),
            figures=_figures(papers),
            stations=oar.station_rows(made, display),
            boards=oar.boards(made),
            working=content.working_of(made.working, made, display),
            moistures=content.MOISTURES,
            cautions=(content.CAUTIONS[1], content.CAUTIONS[3], content.CAUTIONS[4]),
        )
    )


def rig_html(project: Project, made: Design, papers: list[Paper]) -> str:
    """The rig alone: the answer, what was found, drawings and tables."""
    return (
        _environment()
        .get_template("rig.html.j2")
        .render(
            project=project,
            version=__version__,
            answer=rowing.answer(project, made),
            findings=rowing.findings(project, made),
            levels=content.LEVELS,
            blocks=rowing.blocks(project, made),
            figures=_figures(papers),
            cautions=(content.CAUTIONS[0], content.CAUTIONS[2], content.CAUTIONS[4]),
        )
    )
