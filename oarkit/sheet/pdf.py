"""The design sheet as PDF, made from the same records: vectors, one embedded font."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import matplotlib as mpl
from reportlab.lib import colors
from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    CondPageBreak,
    Flowable,
    KeepTogether,
    Paragraph,
    SimpleDocTemplate,
    Spacer,
    Table,
    TableStyle,
)

from oarkit import __version__
from oarkit.design import Design, Side, Sizing
from oarkit.draw.canvas import draw_paper
from oarkit.draw.paper import WIDTH, Paper
from oarkit.project import Project
from oarkit.sheet import content, oar, rowing, strength
from oarkit.sheet.marks import unbroken, with_marks

FONT = "oarkit-sans"
INK, SOFT, LINE = colors.HexColor("#141414"), colors.HexColor("#595959"), colors.HexColor("#bdbdbd")
#: Text height that fits both A4 (297 mm) and Letter (279 mm), so that either printer keeps the scale.
PAGE_TEXT_HEIGHT = 246 * mm
LAST_ROWS = 4  #: of a long table that stay together on its last page
LONG_TABLE = 14  #: rows; a longer table may run over to the next page, its heading repeated


def _style(name: str, size: float, **more: Any) -> ParagraphStyle:
    return ParagraphStyle(
        name, fontName=FONT, fontSize=size, leading=size * 1.32, textColor=more.pop("color", INK), **more
    )


_BODY = _style("body", 9.5, spaceAfter=4)
_CELL = _style("cell", 8.8)
_FORMULA = _style("formula", 8.8)
_FORMULA.leading = 14.0  # room for a subscript over an exponent
_SOFT = _style("soft", 8.8, color=SOFT)
_RIGHT = _style("right", 8.8, alignment=TA_RIGHT)
_RIGHT_SOFT = _style("right-soft", 8.8, alignment=TA_RIGHT, color=SOFT)
_H1 = _style("h1", 19, spaceAfter=2)
_H2 = _style("h2", 13, spaceBefore=14, spaceAfter=5, keepWithNext=1)
_H3 = _style("h3", 10.5, spaceBefore=9, spaceAfter=3, keepWithNext=1)

_LONG_H2 = _style("long-h2", 13, spaceBefore=14, spaceAfter=5)  # likewise
_H4 = _style(
    "h4", 10.5, spaceBefore=9, spaceAfter=3
)  # over tables that may run over a page: not kept with what follows


class _Drawing(Flowable):
    """A drawing at its exact scale."""

    def __init__(self, paper: Paper) -> None:
        super().__init__()
        self.paper = paper
        self.width, self.height = WIDTH * mm, paper.height * mm

    def wrap(self, *_: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        draw_paper(self.paper, self.canv, FONT)


def _in_font(text: str) -> str:
    """Text with an empty box in place of each sign that the font lacks, so that none vanishes unseen."""
    font = pdfmetrics.getFont(FONT)
    assert isinstance(font, TTFont)
    known = font.face.charToGlyph
    return "".join(sign if ord(sign) in known else "□" for sign in text)


def _p(text: str, style: ParagraphStyle = _FORMULA) -> Paragraph:
    return Paragraph(with_marks(escape(unbroken(_in_font(text))), sup="super"), style)


def _plain(text: str, style: ParagraphStyle = _CELL) -> Paragraph:
    return Paragraph(escape(_in_font(text)), style)


def _table(
    rows: list[list[Any]], widths: list[float], *, head: bool = False, spans: Sequence[tuple[Any, ...]] = ()
) -> Table:
    style: list[tuple[Any, ...]] = [
        *spans,
        ("FONTNAME", (0, 0), (-1, -1), FONT),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, LINE),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 5),
        ("RIGHTPADDING", (-1, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 2.2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6),
    ]
    if head:
        style.append(("LINEBELOW", (0, 0), (-1, 0), 0.9, INK))
    if len(rows) > LONG_TABLE:
        style.append(("NOSPLIT", (0, -LAST_ROWS), (-1, -1)))
    return Table(rows, colWidths=[w * mm for w in widths], style=TableStyle(style), repeatRows=int(head), hAlign="LEFT")


def _answer(project: Project, made: Design) -> Flowable:
    """The first page's tables in two columns: the oar with the stroke under it, and the rig."""
    *left, right = [_answer_table(heading, rows) for heading, rows in content.answer(project, made)]
    both = Table(
        [[left, right]],
        colWidths=[94 * mm, 86 * mm],
        style=TableStyle(
            [
                ("FONTNAME", (0, 0), (-1, -1), FONT),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 0),
            ]
        ),
    )
    both.hAlign = "LEFT"
    return both


def _answer_table(heading: str, rows: list[content.Row]) -> Table:
    body: list[list[Any]] = [[_plain(heading, _H3), "", ""]]
    spans: list[tuple[Any, ...]] = []
    for row in rows:
        if row.first == "–":
            body.append([_plain(row.word), _plain(row.second, _RIGHT_SOFT), ""])
            spans.append(("SPAN", (1, len(body) - 1), (2, len(body) - 1)))
        else:
            body.append([_plain(row.word), _plain(row.first, _RIGHT), _plain(row.second, _RIGHT_SOFT)])
    return _table(body, [45, 20.7, 20.3], spans=spans)


def _said(told: Sequence[content.Said]) -> Flowable:
    rows = [
        [
            _plain(content.LEVELS[f.level].upper() if f.level == "fails" else content.LEVELS[f.level]),
            _plain(unbroken(f"{f.text} [{f.source}]")),
        ]
        for f in told
    ]
    return _table(rows, [18, 162])


def _checks(project: Project, made: Design) -> Flowable:
    rows: list[list[Any]] = [
        [_plain(t, _SOFT) for t in ("Where", "Wood", "Stress", "Lower 5 % strength", "Ratio", "Met")]
    ]
    for c in oar.first_checks(made, project.display):
        rows.append(
            [
                _plain(str(c["place"])),
                _plain(str(c["wood"])),
                _plain(f"{float(str(c['stress'])) / 1e6:.1f} MPa"),
                _plain(f"{float(str(c['strength'])) / 1e6:.1f} MPa"),
                _plain(f"{float(str(c['ratio'])):.2f}"),
                _plain("yes" if c["ok"] else "NO"),
            ]
        )
    return _table(rows, [70, 36, 20, 30, 12, 12], head=True)


def _block(block: rowing.Block) -> Flowable:
    """A table on rig, rower or stroke; numbers to the right, the row of this design marked."""
    heads = [_p(t, _RIGHT_SOFT if i in block.numbers else _SOFT) for i, t in enumerate(block.heads)]
    rows: list[list[Any]] = [heads]
    rows += [[_p(t, _RIGHT if i in block.numbers else _CELL) for i, t in enumerate(row)] for row in block.rows]
    return _table(rows, [180 * share for share in block.widths], head=True)


def _tables(title: str | None, blocks: Sequence[rowing.Block]) -> list[Flowable]:
    """A heading and its tables, each with its sentence and whole where it fits on a page."""
    parts: list[Flowable] = []
    heading = [] if title is None else [_plain(title, _LONG_H2)]
    for block in blocks:
        whole = [_plain(block.title, _H4), _block(block), Spacer(1, 2), _plain(unbroken(block.lead), _SOFT)]
        long = len(block.rows) > LONG_TABLE
        parts += [CondPageBreak(70 * mm), *heading, *whole] if long else [KeepTogether([*heading, *whole])]
        heading = []
    return parts


def _stations(project: Project, made: Design) -> Flowable:
    heads = ("", "Place", "From handle end", "", "Thickness", "", "Width", "", "Edge", "")
    rows: list[list[Any]] = [
        [_plain(t, _SOFT if i < 2 else _RIGHT_SOFT) if t or i == 0 else "" for i, t in enumerate(heads)]
    ]
    spans = [("SPAN", (i, 0), (i + 1, 0)) for i in (2, 4, 6, 8)]
    rows += [
        [_plain(t, _CELL if i < 2 else _RIGHT if i % 2 == 0 else _RIGHT_SOFT) for i, t in enumerate(r)]
        for r in oar.station_rows(made.oar, project.display)
    ]
    return _table(rows, [5, 33.4, 21.3, 21.3, 17, 17, 18, 18, 14.5, 14.5], head=True, spans=spans)


def _boards(project: Project, made: Design) -> Flowable:
    heads = ("Part", "Wood", "Modulus along the oar", "Density", "Grain", "Adjusted strength")
    rows: list[list[Any]] = [
        [_plain(t, _SOFT) for t in heads],
        *[[_plain(t) for t in r] for r in oar.boards(made.oar)],
    ]
    return _table(rows, [24, 46, 46, 20, 16, 28], head=True)


def _given(project: Project, made: Design) -> Flowable:
    rows: list[list[Any]] = [
        [_plain(word), _plain(one, _RIGHT), _plain(two, _RIGHT_SOFT)] for word, one, two in content.given(project, made)
    ]
    return _table(rows, [100, 40, 40])


def _meanings(project: Project, made: Design) -> Flowable:
    return _table([[_p(word), _plain(meaning)] for word, meaning in content.meanings(project, made)], [50, 130])


_OTHER_STRENGTHS = (
    "How the strengths in shear, crushing, bearing and splitting were got stands in sheet.html and working.csv."
)


def _working(project: Project, made: Design) -> list[Flowable]:
    parts: list[Flowable] = []
    for heading, steps in content.working_of(made.working, made.oar, project.display, every_strength=False):
        rows: list[list[Any]] = [[_plain(t, _SOFT) for t in ("What", "Formula", "Numbers put in", "Result", "Source")]]
        for s in steps:
            symbol = f" {s.symbol}" if s.symbol not in ("", "–") else ""
            rows.append(
                [_p(s.word + symbol), _p(s.formula), _p(s.numbers), _plain(s.first, _RIGHT), _plain(s.source, _SOFT)]
            )
        parts += [CondPageBreak(40 * mm), _plain(heading, _H4), _table(rows, [36, 44, 42, 22, 36], head=True)]
    return parts


def sheet_pdf(project: Project, made: Design, sizing: Mapping[Side, Sizing], papers: list[Paper]) -> bytes:
    """The whole sheet on A4, with margins that Letter shares."""
    pdfmetrics.registerFont(TTFont(FONT, str(Path(mpl.get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf")))
    buffer = io.BytesIO()
    side = (A4[0] - WIDTH * mm) / 2
    top = (A4[1] - PAGE_TEXT_HEIGHT) / 2
    document = SimpleDocTemplate(
        buffer,
        pagesize=A4,
        leftMargin=side - 6,
        rightMargin=side - 6,
        topMargin=top - 6,
        bottomMargin=top - 6,
        title=f"{project.title} - design sheet",
        author="oarkit",
        invariant=1,
        initialFontName=FONT,
    )
    lead = (
        f"Rig and oars: the design sheet. "
        f"{'Millimetres first' if project.display == 'mm' else 'Feet and inches first'}; inches to the nearest "
        "sixteenth. Every number is worked out further down."
    )
    story: list[Flowable] = [
        _plain(project.title, _H1),
        _plain(lead, _style("lead", 9.5, color=SOFT, spaceAfter=2)),
        _answer(project, made),
        _plain("What was found", _LONG_H2),
        _said(content.findings(project, made)),
        KeepTogether(
            [
                _plain(
                    f"Strength in a hard start (wanted: a ratio of at least {float(made.inputs.wanted_safety):g})", _H3
                ),
                _checks(project, made),
            ]
        ),
        Spacer(1, 3),
        *[_plain(unbroken(sentence), _SOFT) for sentence in content.ratio_notes(made)],
    ]
    story += _tables("Will it row?", rowing.blocks(project, made))
    story += [
        _plain("Will the oar do?", _LONG_H2),
        _plain("Sized anew: the lightest loom and blade that do what is wanted", _H4),
        _said(oar.sizing(made.oar, sizing, project.display)),
        *_tables(None, strength.blocks(made.oar, project.display, sizing)),
    ]
    head = [_plain("Drawings", _H2)]
    for paper in papers:
        story.append(KeepTogether([*head, _plain(paper.title, _H3), _Drawing(paper), Spacer(1, 8)]))
        head = []
    stations = (
        "Distances from the handle end. Thickness is fore and aft in the stroke, width up and down; edge "
        "is the thickness of the blade's edge. Letters as on the drawing."
    )
    story += [
        KeepTogether([_plain("Stations to mark", _H2), _plain(stations, _BODY), _stations(project, made)]),
        KeepTogether([_plain("Woods", _H2), _boards(project, made), Spacer(1, 3), _plain(content.MOISTURES, _SOFT)]),
        KeepTogether([_plain("What the numbers were worked from", _H2), _given(project, made)]),
        CondPageBreak(60 * mm),
        _plain("How every number was got", _LONG_H2),
        *_working(project, made),
        _plain(unbroken(_OTHER_STRENGTHS), _SOFT),
        KeepTogether([_plain("The words of the first page", _H2), _meanings(project, made)]),
        KeepTogether(
            [_plain("Before you saw wood or go afloat", _H2), *[_plain(f"•  {c}", _BODY) for c in content.CAUTIONS]]
        ),
    ]

    title = _in_font(project.title)
    shown = title if len(title) <= 50 else f"{title[:48]}..."

    def foot(canvas: Canvas, _: Any) -> None:
        canvas.saveState()
        canvas.setFont(FONT, 8)
        canvas.setFillColor(SOFT)
        canvas.drawString(side, top - 12 * mm, f"{shown} · oarkit {__version__} · wood and leather, no glue or finish")
        canvas.drawRightString(A4[0] - side, top - 12 * mm, f"page {canvas.getPageNumber()}")
        canvas.restoreState()

    document.build(story, onFirstPage=foot, onLaterPages=foot)
    return buffer.getvalue()
