"""The sheet in a real browser: quiet, whole on a desk and on a telephone, and whole on A4 and Letter.

Skipped where there is no browser or no playwright, unless OARKIT_BROWSER=required says that there must be.
"""

import importlib.util
import io
import os
from pathlib import Path

import pypdf
import pytest

CHROMIUM = Path("/usr/bin/chromium")
MISSING = [
    *(["playwright is not installed"] if importlib.util.find_spec("playwright") is None else []),
    *([] if CHROMIUM.exists() else [f"there is no {CHROMIUM}"]),
]
if MISSING and os.environ.get("OARKIT_BROWSER") != "required":
    pytest.skip("; ".join(MISSING), allow_module_level=True)

MM = 96 / 25.4  # [CSS pixels]
#: Width of the paper less the margins that the page asks for, 15 mm at each side [CSS pixels].
PAPERS = {"A4": (210 - 30) * MM, "Letter": (8.5 * 25.4 - 30) * MM}
SIZES = {"A4": (210 / 25.4 * 72, 297 / 25.4 * 72), "Letter": (612.0, 792.0)}  # [pt]
#: Sheets, each with the paper that it is printed on.
SHEETS = {"quillet_files": "A4", "pair_files": "Letter", "feet_files": "A4"}

NAMED = "const named = e => `${e.tagName} ${e.className}: ${(e.textContent || '').trim().slice(0, 60)}`;"
#: Elements whose right edge lies beyond a width.
BEYOND = f"""width => {{ {NAMED}
    return [...document.querySelectorAll("body *")].filter(e => !e.closest("defs"))
        .filter(e => e.getBoundingClientRect().right > width + 0.5).map(named); }}"""
#: Elements that hold more than they show.
HIDING = f"""() => {{ {NAMED}
    return [...document.querySelectorAll("body *")]
        .filter(e => !e.closest("svg") && getComputedStyle(e).display !== "inline")
        .filter(e => e.scrollWidth > e.clientWidth + 1).map(named); }}"""
#: Neighbouring cells whose words lie over each other.
CROWDED = """() => [...document.querySelectorAll("tr")].flatMap(row => {
    const cells = [...row.cells].filter(cell => cell.textContent.trim()).map(cell => {
        const range = document.createRange();
        range.selectNodeContents(cell);
        return {words: cell.textContent.trim(), box: range.getBoundingClientRect()};
    });
    return cells.slice(1).filter((cell, i) => cell.box.left < cells[i].box.right - 0.5).map(cell => cell.words);
})"""


@pytest.fixture(scope="module")
def chromium():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        quiet = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=quiet)
        yield browser
        browser.close()


class Opened:
    """A sheet in the browser, with all that the browser said and asked for."""

    def __init__(self, browser, file, paper):
        self.file, self.paper, self.said, self.asked = file, paper, [], []
        self.page = browser.new_page(viewport={"width": 1100, "height": 900})
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.goto(file.as_uri(), wait_until="load")

    def at(self, width, media="screen"):
        """The page laid out anew at a width."""
        self.page.set_viewport_size({"width": round(width), "height": 900})
        self.page.emulate_media(media=media)
        return self.page


@pytest.fixture(scope="module", params=SHEETS)
def sheet(request, chromium, tmp_path_factory):
    file = tmp_path_factory.mktemp("browser") / "sheet.html"
    file.write_bytes(request.getfixturevalue(request.param)["sheet.html"])
    opened = Opened(chromium, file, SHEETS[request.param])
    yield opened
    opened.page.close()


def test_the_page_is_quiet_and_asks_for_nothing(sheet):
    """No message, no error, and no request but the file itself."""
    sheet.page.wait_for_timeout(200)
    assert sheet.said == []
    assert sheet.asked == [sheet.file.as_uri()]


@pytest.mark.parametrize("width", [1100, 800, 390])
def test_the_page_never_scrolls_sideways(sheet, width):
    """On a desk, a tablet and a telephone the page is no wider than its window."""
    page = sheet.at(width)
    assert page.evaluate("document.scrollingElement.scrollWidth") <= page.evaluate("innerWidth")


@pytest.mark.parametrize("width", [1100, 390])
def test_words_of_neighbouring_cells_stand_apart(sheet, width):
    """No number runs into the next, whatever the width."""
    assert sheet.at(width).evaluate(CROWDED) == []


def test_the_answer_is_seen_without_scrolling_far(sheet):
    """On a desk, length and safety ratio lie within the first screen."""
    page = sheet.at(1100)
    for word in ("length", "least safety ratio"):
        row = page.get_by_role("rowheader", name=word, exact=True).first
        assert row.bounding_box()["y"] + row.bounding_box()["height"] < 900


def test_a_screen_reader_finds_pictures_and_tables(sheet):
    """Each drawing is one picture with a name, each table of the first page has rows with headings."""
    page = sheet.at(1100)
    pictures = page.get_by_role("img")
    assert pictures.count() == page.locator("figure").count() >= 7
    for number in range(pictures.count()):
        assert len(pictures.nth(number).get_attribute("aria-label")) > 40
    assert page.get_by_role("table").count() >= 6
    assert page.get_by_role("heading", level=1).count() == 1


def test_every_drawing_is_seen(sheet):
    """A drawing fills its column and has the proportions of its paper."""
    page = sheet.at(1100)
    for svg in page.locator("figure svg").all():
        box = svg.bounding_box()
        left, bottom, width, height = map(float, svg.get_attribute("viewBox").split())
        assert (left, bottom) == (0, 0)
        assert box["width"] > 600
        assert box["height"] / box["width"] == pytest.approx(height / width, rel=0.01)  # whole pixels


@pytest.mark.parametrize("paper", PAPERS)
def test_everything_fits_the_printed_width(sheet, paper):
    """In print nothing reaches beyond the text of the page, and no table hides a part of itself."""
    page = sheet.at(PAPERS[paper], media="print")
    assert page.evaluate(BEYOND, PAPERS[paper]) == []
    assert page.evaluate(HIDING) == []
    assert page.evaluate(CROWDED) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_drawings_print_at_their_scale(sheet, paper):
    """A drawing is 180 mm wide on paper, as its scale bar takes it to be."""
    page = sheet.at(PAPERS[paper], media="print")
    for svg in page.locator("figure svg").all():
        # [mm]: a tenth on 180, less than a printer keeps
        assert svg.bounding_box()["width"] / MM == pytest.approx(180, abs=0.1)


def test_the_longest_title_breaks(sheet):
    """A title of 120 letters without a space is broken on a telephone and in print, not cut off."""
    page = sheet.at(390)
    before = page.locator("h1").inner_text()
    page.evaluate("title => { document.querySelector('h1').textContent = title; }", "Quillet" * 17)
    assert page.evaluate("document.scrollingElement.scrollWidth") <= 390
    assert sheet.at(PAPERS["A4"], media="print").evaluate(BEYOND, PAPERS["A4"]) == []
    page.evaluate("title => { document.querySelector('h1').textContent = title; }", before)


def test_the_page_prints_whole(sheet):
    """A print from the browser has the paper's size, a plausible number of pages, none empty, and all the parts."""
    page = sheet.at(1100, media="print")
    reader = pypdf.PdfReader(io.BytesIO(page.pdf(format=sheet.paper)))
    assert 5 <= len(reader.pages) <= 44  # the PDF and, of every wood, the working of all its strengths
    texts = [" ".join(page.extract_text().split()) for page in reader.pages]
    for printed, text in zip(reader.pages, texts, strict=True):
        # Chromium rounds a page to whole pixels
        assert [float(v) for v in printed.mediabox[2:]] == pytest.approx(SIZES[sheet.paper], abs=1)
        assert len(text) > 15  # the title over one tall drawing, whose own words are outlines
    together = " ".join(texts)
    for said in (
        "least safety ratio", "catch angle", "What was found", "Will it row?", "Rules of thumb", "Stations to mark",
        "How every number was got", "life jacket",
    ):  # fmt: skip
        assert said in together
    for word in ("length", "inboard", "thigh clearance", "bench drop", "mass"):
        assert word in texts[0]
