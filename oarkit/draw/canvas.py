"""Draws a figure onto a reportlab canvas as vectors, with the document's own font."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.transforms import Affine2DBase, Transform
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfgen.canvas import Canvas

from oarkit.draw.paper import Paper

POINTS_PER_INCH = 72.0


class CanvasRenderer(RendererBase):
    """The few strokes that a figure needs, in points from the lower left of the canvas's present origin."""

    def __init__(self, canvas: Canvas, width: float, height: float, font: str) -> None:
        super().__init__()
        self.canvas, self.width, self.height, self.font = canvas, width, height, font

    def get_canvas_width_height(self) -> tuple[float, float]:
        """Size of the figure in points."""
        return self.width, self.height

    def flipy(self) -> bool:
        """The origin is at the lower left, as in PDF."""
        return False

    def points_to_pixels(self, points: Any) -> Any:
        """A pixel is a point here."""
        return points

    def get_text_width_height_descent(self, s: str, prop: FontProperties, ismath: Any) -> tuple[float, float, float]:
        """Size of a text in the document's font."""
        size = prop.get_size_in_points()
        ascent, descent = pdfmetrics.getAscentDescent(self.font, size)
        return pdfmetrics.stringWidth(s, self.font, size), (ascent - descent) * 0.82, -descent * 0.82

    def draw_text(
        self,
        gc: GraphicsContextBase,
        x: float,
        y: float,
        s: str,
        prop: FontProperties,
        angle: float,
        ismath: Any = False,
        mtext: Any = None,
    ) -> None:
        """Put a text on the canvas, turned by its angle."""
        self.canvas.saveState()
        self.canvas.setFillColorRGB(*gc.get_rgb()[:3])
        self.canvas.setFont(self.font, prop.get_size_in_points())
        self.canvas.translate(x, y)
        self.canvas.rotate(angle)
        self.canvas.drawString(0, 0, s)
        self.canvas.restoreState()

    def draw_path(self, gc: GraphicsContextBase, path: Path, transform: Transform, rgbFace: Any = None) -> None:
        """Stroke and fill a path."""
        canvas = self.canvas
        canvas.saveState()
        bounds = gc.get_clip_rectangle()
        if bounds is not None:
            frame = canvas.beginPath()
            frame.rect(*bounds.bounds)
            canvas.clipPath(frame, stroke=0, fill=0)
        line = canvas.beginPath()
        affine = transform if isinstance(transform, Affine2DBase) else transform.get_affine()
        last = np.zeros(2)
        for points, code in path.iter_segments(affine, simplify=False, curves=True, remove_nans=True):
            if code == Path.MOVETO:
                line.moveTo(*points)
            elif code == Path.LINETO:
                line.lineTo(*points)
            elif code == Path.CURVE3:
                near, end = points[:2], points[2:]
                line.curveTo(*(last + 2 / 3 * (near - last)), *(end + 2 / 3 * (near - end)), *end)
            elif code == Path.CURVE4:
                line.curveTo(*points)
            elif code == Path.CLOSEPOLY:
                line.close()
            last = np.asarray(points[-2:])
        width = gc.get_linewidth()
        stroked = width > 0 and gc.get_rgb()[3] > 0
        filled = rgbFace is not None and (len(rgbFace) < 4 or rgbFace[3] > 0)
        if stroked:
            canvas.setStrokeColorRGB(*gc.get_rgb()[:3])
            canvas.setLineWidth(width)
            canvas.setLineCap({"butt": 0, "round": 1, "projecting": 2}[gc.get_capstyle()])
            canvas.setLineJoin({"miter": 0, "round": 1, "bevel": 2}[gc.get_joinstyle()])
            offset, dashes = gc.get_dashes()
            if dashes is not None:
                canvas.setDash(np.asarray(dashes, dtype=float).tolist(), float(offset or 0))
        if filled:
            canvas.setFillColorRGB(*rgbFace[:3])
        if stroked or filled:
            canvas.drawPath(line, stroke=int(stroked), fill=int(filled))
        canvas.restoreState()

    def draw_image(self, gc: GraphicsContextBase, x: float, y: float, im: Any, transform: Any = None) -> None:
        """Refuse a bitmap: every drawing here is made of lines."""
        raise NotImplementedError("drawings hold vectors only")


def draw_paper(paper: Paper, canvas: Canvas, font: str) -> None:
    """Draw at exact scale, lower left at the canvas's present origin."""
    paper.figure.set_dpi(POINTS_PER_INCH)
    width, height = paper.figure.get_size_inches() * POINTS_PER_INCH
    paper.figure.draw(CanvasRenderer(canvas, float(width), float(height), font))
