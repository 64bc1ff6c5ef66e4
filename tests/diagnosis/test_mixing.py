"""Not sure which set it is: one model of several families, until looks decide."""

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations, why
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.kinds import KIND, NOT_SURE
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.making.kind_texts import kind_texts
from engine.diagnosis.mixing import mix
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_kinds, load_kinds
from engine.knowledge.library import Library, load, read_texts
from tests.diagnosis.conftest import SMALL

KINDS = """\
shares: {beacon: 3, bare: 1}
source: estimate
checks:
  knobs:
    kind: look
    title: Knobs
    asks: How many knobs are there?
    looks-at: kind
    outcomes:
      one: {title: One, means: [beacon]}
      none: {title: None, means: [bare]}
    wrong: 0.05
    right: Any number is right.
    minutes: 1
    source: estimate
"""


@pytest.fixture(scope="module")
def library() -> Library:
    """Return the small knowledge base with a second family, whose sender has no supply to fail."""
    texts = read_texts(SMALL)
    sender = texts["blocks/sender.yaml"].replace(
        "    states: [right, low, absent]\nmakes:",
        "    states: [right, low, absent]\n    optional: true\nmakes:",
    )
    sender = sender.replace(
        "    title: Drive preset", "    fitted-with: [preset]\n    title: Drive preset"
    )
    sender = sender.replace("right: 3.5 to 4 W.", "right: 3.5 to 4 W, {power}.")
    family = texts["families/beacon.yaml"]
    bare = family.replace("{rail: supply.rail}", "{}").replace("beacon", "bare beacon")
    return load(
        texts
        | {
            "blocks/sender.yaml": sender,
            "families/beacon.yaml": family + "features: [preset]\nfigures: {power: 4 W}\n",
            "families/bare.yaml": bare + "figures: {power: 4 W carrier}\n",
            "tables/kinds.yaml": KINDS,
        }
    )


@pytest.fixture(scope="module")
def members(library: Library) -> dict[str, SetModel]:
    """Return both families."""
    return {name: compile_family(library, name) for name in ("beacon", "bare")}


@pytest.fixture(scope="module")
def mixed(library: Library, members: dict[str, SetModel]) -> SetModel:
    """Return both as one, by way of what the site stores."""
    kinds = kind_texts(library)
    assert kinds is not None
    return mix(members, load_kinds(dump_kinds(kinds)))


def _case(model: SetModel, *said: tuple[str, str]) -> Case:
    case = Case(model.family.id, full_kit(model))
    for check, answer in said:
        case = add_finding(case, read_answer(model, check, answer))
    return case


def test_chances_are_those_of_the_families_weighed(
    members: dict[str, SetModel], mixed: SetModel
) -> None:
    """P(kind) by Bayes from each family's own P(findings), and each cause by the total law."""
    said = (("sender.weak", "faint"), ("sender.power", "1.2 W"))
    shares = {"beacon": 0.75, "bare": 0.25}
    evidence, chance = {}, {}
    for name, model in members.items():
        own = calibrated(model, _case(model, *said).findings)
        evidence[name] = shares[name] * 2.0**own.log2_evidence
        chance[name] = 1.0 - own.posterior("sender.output-transistor")[0]
    total = sum(evidence.values())
    now = calibrated(mixed, _case(mixed, *said).findings)
    assert now.posterior(KIND) == pytest.approx([evidence[n] / total for n in ("beacon", "bare")])
    expected = sum(evidence[name] / total * chance[name] for name in members)
    assert 1.0 - now.posterior("sender.output-transistor")[0] == pytest.approx(expected)


def test_a_look_is_ranked_by_its_gain_like_any_other(mixed: SetModel) -> None:
    """With nothing known the knobs tell of the kind; once seen, they are not asked again."""
    first = step(mixed, _case(mixed))
    assert "set.knobs" in [check.id for check in first.checks]
    seen = _case(mixed, ("set.knobs", "none"))
    after = step(mixed, seen)
    assert "set.knobs" not in [check.id for check in after.checks]
    weights = calibrated(mixed, seen.findings).posterior(KIND)
    assert weights == pytest.approx([0.75 * 0.05 / (0.75 * 0.05 + 0.25 * 0.95), 0.8636363636])


def test_words_that_differ_wait_until_the_kind_is_known(mixed: SetModel) -> None:
    """The power reads otherwise in the two kinds, so it is proposed when one is nearly sure."""
    assert mixed.same_in["sender.power"] == {"beacon"}
    assert mixed.same_in["sender.weak"] == {"beacon", "bare"}
    open_ = [check.id for check in step(mixed, _case(mixed)).checks]
    assert "sender.power" not in open_
    known = step(mixed, _case(mixed, ("set.knobs", "one"), ("sender.weak", "faint")))
    assert "sender.power" in [check.id for check in known.checks]


def test_all_fine_is_the_families_weighed(members: dict[str, SetModel], mixed: SetModel) -> None:
    """P(no cause is there) goes by the shares, with the kind looked at as well."""
    shares = {"beacon": 0.75, "bare": 0.25}
    expected = sum(shares[name] * model.p_all_fine for name, model in members.items())
    assert step(mixed, _case(mixed)).p_all_fine == pytest.approx(expected)
    rows = {"beacon": 0.95, "bare": 0.05}
    weighed = {name: shares[name] * rows[name] for name in members}
    after = step(mixed, _case(mixed, ("set.knobs", "one")))
    fine = sum(weighed[name] * members[name].p_all_fine for name in members)
    assert after.p_all_fine == pytest.approx(fine / sum(weighed.values()))


def test_reasons_forecasts_and_stories_work_on_it(mixed: SetModel) -> None:
    """Everything a single kind can be asked, a mixture can."""
    case = _case(mixed, ("sender.weak", "nothing"))
    assert why(mixed, case, "sender.output-transistor").posterior_decibans > -40
    effects = what_if(mixed, case, "set.knobs")
    assert sum(effect.probability for effect in effects) == pytest.approx(1.0)
    stories = explanations(mixed, case, 3)
    assert stories[0].probability >= stories[1].probability >= stories[2].probability > 0.0
    assert mixed.family.id == NOT_SURE
