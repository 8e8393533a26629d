"""Lead in the handle: the sentence's numbers by moments about the pin, worked here."""

import tomllib

import pytest

from oarkit import design, example_project
from oarkit.oar.mass import balance, inertia_about_lock, mass
from oarkit.project import project_from_mapping
from oarkit.strength.balancing import MOST_LEAD, counterweight_findings
from oarkit.tables import data_folder

OAR = design(example_project("quillet").inputs).oars["port"]
G = 9.80665
NOW = float(mass(OAR)) * G * float(balance(OAR)) / float(OAR.hand_arm)  # moments about the pin


def test_lead_at_the_grip_takes_its_own_weight_off_the_hand():
    """Hung where the hand holds, lead weighs against the oar by just what it weighs."""
    (finding,) = counterweight_findings(OAR, wanted=8.0)
    told = {name: float(quantity.value) for name, quantity in finding.quantities.items()}
    assert told["lead"] == pytest.approx((NOW - 8.0) / G)
    assert told["mass"] == pytest.approx(float(mass(OAR)) + told["lead"])
    moment = float(mass(OAR)) * float(balance(OAR)) - told["lead"] * float(OAR.hand_arm)
    assert told["at"] == pytest.approx(moment / told["mass"])
    assert told["at"] * told["mass"] * G / float(OAR.hand_arm) == pytest.approx(8.0)
    swing = told["lead"] * float(OAR.hand_arm) ** 2 / float(inertia_about_lock(OAR))
    assert told["harder"] == pytest.approx(swing)
    assert finding.level == "note"


@pytest.mark.parametrize(
    ("wanted", "codes"), [(None, []), (NOW + 1.0, ["note"]), (NOW - G * MOST_LEAD * 1.05, ["caution"])]
)
def test_when_it_is_said(wanted, codes):
    """Nothing where nothing is wanted, no lead for a light oar, and a caution over what a handle should hold."""
    assert [finding.level for finding in counterweight_findings(OAR, wanted=wanted)] == codes


def test_the_key_reaches_the_sheet():
    """[wanted] hand_weight = "8 N" in a project file."""
    text = tomllib.loads((data_folder() / "quillet.toml").read_text(encoding="utf-8"))
    text["wanted"]["hand_weight"] = "8 N"
    made = design(project_from_mapping(text, name="a").inputs)
    assert "counterweight" in {finding.code for finding in made.oar.findings}
