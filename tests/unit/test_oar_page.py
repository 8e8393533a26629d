"""The oar alone, from the command line and on its page: what is printed, what is written, what is said of bad files."""

import json
import re
from io import StringIO

import pandas as pd
import pytest
from conftest import unsized

from oarkit import oar_design, read_oar
from oarkit.cli import main
from oarkit.project import oar_from_text
from oarkit.sheet import html, oar, screen, strength
from oarkit.tables import data_folder

ALONE = """
title = "A stick"
[oar]
length = "2200 mm"
inboard = "600 mm"
grip = { diameter = "33 mm", length = "130 mm" }
loom = { at_lock = "44 mm", neck_thickness = "31 mm", neck_width = "27 mm" }
blade = { length = "550 mm", width = "130 mm", tip_thickness = "11 mm", edge_at_root = "9 mm", edge_at_tip = "6 mm" }
[[oar.wood]]
part = "loom"
species = "spruce, Sitka"
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """What `oarkit oar` writes for the example: (folder, exit status)."""
    out = tmp_path_factory.mktemp("oar") / "quillet-oar"
    return out, main(["oar", str(data_folder() / "quillet.toml"), "--out", str(out)])


class TestFolder:
    def test_it_holds_one_page_and_its_numbers(self, folder):
        out, status = folder
        assert status == 0
        assert {path.name for path in out.iterdir()} == {
            "oar.html", "strength.svg", "checks.csv", "stations.csv", "results.json", "oarkit-files.json",
        }  # fmt: skip

    def test_the_page_stands_alone_and_every_drawing_has_words(self, folder):
        page = (folder[0] / "oar.html").read_text(encoding="utf-8")
        assert not re.search(r'(?:src|href)="https?:', page)
        assert page.count("<svg") == page.count('role="img" aria-label="') >= 4
        for heading in ("Under the loads of rowing", "Under abuse", "What a millimetre is worth", "The loads",
                        "Where the weight is", "Stations to mark", "Before you saw wood or go afloat"):  # fmt: skip
            assert heading in page
        assert not re.search(
            r"\bnan\b|\bNone\b|\{[a-z_]+\}", re.sub(r"<style.*?</style>|<svg.*?</svg>", "", page, flags=re.S)
        )

    def test_results_tell_the_oar_and_no_rig(self, folder):
        document = json.loads((folder[0] / "results.json").read_text(encoding="utf-8"))
        assert document["schema"] == 1
        assert {
            "oar.mass",
            "oar.bench_drop",
            "oar.bench_drop_at_tip",
            "strength.least_ratio",
            "strength.crab_force",
        } <= set(document["values"])
        assert not [name for name in document["values"] if name.startswith(("rig.", "stroke.", "rower."))]
        assert all(
            set(check) == {"case", "place", "stress", "strength", "ratio", "ok", "wood"} for check in document["checks"]
        )

    def test_every_check_is_in_the_table(self, folder):
        table = pd.read_csv(StringIO((folder[0] / "checks.csv").read_text(encoding="utf-8")))
        assert (table["strength_Pa"] / table["stress_Pa"]).to_numpy() == pytest.approx(
            table["ratio"].to_numpy(), rel=1e-4
        )
        assert set(table["met"]) <= {"ok", "caution", "fails"}
        assert {"bending", "shear", "torsion", "column", "blade as a plate"} <= set(table["what"])
        assert set(table["plane"]) == {"stroke", "lateral"}


class TestAlone:
    def test_an_oar_needs_no_boat(self):
        project = oar_from_text(ALONE, name="stick.toml")
        made = oar_design(project.oar_inputs)
        assert made.oars["port"].shape.inboard == pytest.approx(0.600)
        text = html.oar_html(project.title, project.display, made, unsized(made), [])
        assert "caught crab: it needs boat mass" in text

    def test_the_measured_example(self, tmp_path, capsys):
        assert main(["oar", str(data_folder() / "measured.toml"), "--out", str(tmp_path / "m")]) == 0
        said = capsys.readouterr().out
        assert "measured from life" in said
        assert "in a next one" in said  # an oar that stands cannot be made thicker

    def test_a_weak_oar_ends_with_status_one(self, tmp_path):
        file = tmp_path / "weak.toml"
        file.write_text(ALONE + '[loads]\nhard_start = "900 N"\n', encoding="utf-8")
        assert main(["oar", str(file), "--out", str(tmp_path / "out")]) == 1

    def test_a_hole_is_checked_and_told(self, tmp_path):
        text = ALONE.replace("[[oar.wood]]", 'hole = { diameter = "8 mm", along = "fore-and-aft" }\n[[oar.wood]]')
        made = oar_design(oar_from_text(text, name="hole.toml").oar_inputs)
        assert [check for check in made.checks["port"] if check.what == "bending at the hole"]
        assert any(finding.code == "hole" for finding in made.findings)

    @pytest.mark.parametrize(
        ("old", "new", "place"),
        [
            ('length = "2200 mm"\n', "", "oar.length"),
            ('inboard = "600 mm"', 'inboard = "6000 mm"', "oar.inboard"),
            ("[[oar.wood]]", 'hole = { diameter = "60 mm", along = "vertical" }\n[[oar.wood]]', "oar.hole"),
            ('part = "loom"', 'part = "boom"', "oar.wood"),
        ],
    )
    def test_a_bad_file_is_told_in_words_with_its_place(self, tmp_path, capsys, old, new, place):
        file = tmp_path / "bad.toml"
        file.write_text(ALONE.replace(old, new, 1), encoding="utf-8")
        assert main(["oar", str(file), "--out", str(tmp_path / "out")]) == 2
        assert place in capsys.readouterr().err
        assert not (tmp_path / "out").exists()

    def test_a_roster_is_sent_to_sheet(self, capsys):
        assert main(["oar", str(data_folder() / "roster.csv")]) == 2
        assert "oarkit sheet" in capsys.readouterr().err


class TestRows:
    made = oar_design(read_oar(data_folder() / "quillet.toml").oar_inputs)

    def test_the_tables_tell_the_worst_of_each(self):
        """Bending under every load, and of every other way to fail the load that comes nearest."""
        rows = strength.worst(self.made.checks["port"])
        ways = [(check.what, check.case if check.what == "bending" else "") for check in rows]
        assert len(set(ways)) == len(ways)
        for row in rows:
            alike = [
                c
                for c in self.made.checks["port"]
                if c.what == row.what and (row.what != "bending" or c.case == row.case)
            ]
            assert float(row.ratio) == min(float(check.ratio) for check in alike)

    def test_masses_add_up(self):
        """By place and by piece: each is the whole oar, but for the leather that is no piece."""
        (block,) = [
            block
            for block in strength.blocks(self.made, "mm", unsized(self.made))
            if block.title.startswith("Where the weight")
        ]
        shares = {row[0]: float(row[3].split()[0]) for row in block.rows}
        by_place = sum(share for part, share in shares.items() if not part.startswith("all of"))
        by_piece = sum(share for part, share in shares.items() if part.startswith("all of")) + shares["leather"]
        assert by_place == pytest.approx(100, abs=2)  # each of four rounded to a whole per cent
        assert by_piece == pytest.approx(100, abs=2)

    def test_ratios_are_printed_short(self):
        assert [strength.ratio(value) for value in (0.5251, 9.994, 12.3, 1e6, None)] == [
            "0.53",
            "9.99",
            "12",
            "over 1000",
            "–",
        ]

    def test_the_screen_is_eighty_wide(self):
        lines = screen.oar_lines("A title", self.made, "mm", unsized(self.made))
        assert max(len(line) for line in lines) <= 80
        assert sum(line.endswith(("yes", "near", "NO")) for line in lines) == 2 * screen.SHOWN_CHECKS

    def test_a_pair_is_told_apart(self, changed):
        starboard = (
            'moisture = "12 %"\noar = "port"\n\n[[oar.wood]]\npart = "loom"\noar = "starboard"\n'
            'species = "spruce, Sitka"\nmodulus = "9 GPa"\ndensity = "400 kg/m3"\ngrain_slope = "1:15"\n'
        )
        project = changed(('moisture = "12 %"\n', starboard))
        from oarkit.design.whole import work_out

        made = work_out(project.inputs).oar
        titles = [block.title for block in strength.blocks(made, "mm", unsized(made))]
        assert {"Under abuse, port oar", "Under abuse, starboard oar"} <= set(titles)
        places = {check["place"].split(",")[0] for check in oar.stored_checks(made, "mm")}
        assert places == {"port oar", "starboard oar"}
