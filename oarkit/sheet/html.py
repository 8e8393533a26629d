"""The design sheet as one self-contained HTML file."""

from __future__ import annotations

import re

from jinja2 import Environment, PackageLoader, select_autoescape
from markupsafe import Markup, escape

from oarkit import __version__
from oarkit.design import Design
from oarkit.draw.curves import clearance_curves
from oarkit.draw.lengths import length_chart
from oarkit.draw.oar import oar_views, stress_chart
from oarkit.draw.paper import Paper
from oarkit.draw.station import plan_view, section_view
from oarkit.draw.stroke import side_view, stroke_plan
from oarkit.project import Project
from oarkit.sheet import content, rowing
from oarkit.sheet.marks import unbroken, with_marks


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


def drawings(project: Project, made: Design) -> list[Paper]:
    """The drawings of the sheet, in order: those of the rig, then those of the oar."""
    papers = [*rig_drawings(project, made), plan_view(project, made), oar_views(made, project.display)]
    papers += [stress_chart(made, project.display, side) for side in made.oars]
    return papers


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


def sheet_html(project: Project, made: Design, papers: list[Paper]) -> str:
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
            checks=content.checks(project, made),
            blocks=rowing.blocks(project, made),
            figures=_figures(papers),
            stations=content.station_rows(project, made),
            boards=content.boards(project, made),
            words=content.meanings(project, made),
            given=content.given(project, made),
            not_used=content.not_used(project),
            working=content.working(project, made),
            moistures=content.MOISTURES,
            ratio=content.ratio_notes(made),
            cautions=content.CAUTIONS,
            safety=float(made.inputs.wanted_safety),
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
