from engine.diagnosis.model import SetModel
from tests.diagnosis.conftest import Edited


def test_a_model_has_every_cause_and_check(beacon: SetModel) -> None:
    """Blocks by name, each block's unlisted causes last."""
    assert list(beacon.causes) == [
        "supply.flat-battery",
        "supply.fuse-joint",
        "supply.unlisted-rail",
        "sender.output-transistor",
        "sender.preset",
        "sender.unlisted-drive",
        "sender.unlisted-output",
        "past.drop",
    ]
    assert list(beacon.checks) == [
        "supply.dark",
        "supply.rail-volts",
        "sender.weak",
        "sender.power",
        "sender.transistor-junctions",
        "past.fell",
    ]
    assert beacon.symptoms == ("supply.dark", "sender.weak")


def test_edges_are_the_wires(beacon: SetModel) -> None:
    """Who feeds whom, and with what."""
    assert beacon.edges == (("supply", "sender", "power"),)


def test_a_check_on_a_need_looks_at_its_maker(edited: Edited) -> None:
    """The signal has one name in the whole set."""
    model = edited(("blocks/sender.yaml", "looks-at: output-transistor", "looks-at: drive"),
                   ("blocks/sender.yaml", "{fine: 0.95, shorted: 0.05, opened: 0.05}",
                    "{right: 0.95, low: 0.05}"))  # fmt: skip
    assert model.checks["sender.transistor-junctions"].looks_at == "sender.drive"


def test_an_unlisted_cause_is_in_words(beacon: SetModel) -> None:
    """Which stage, which signal, and what it makes of it."""
    cause = beacon.causes["sender.unlisted-output"]
    assert cause.title == "Sender: something not listed here that harms: Power at the socket"
    assert cause.kind == "unlisted"
    assert cause.ways == {
        "low": "Power at the socket: low",
        "absent": "Power at the socket: absent",
    }


def test_cut_sets_of_a_symptom_are_what_makes_a_yes_likely(beacon: SetModel) -> None:
    """Dark is likely only when the rail is absent: three causes do that, each alone."""
    assert beacon.cut_sets == {
        "supply.dark": (
            (("supply.flat-battery", "empty"),),
            (("supply.fuse-joint", "present"),),
            (("supply.unlisted-rail", "absent"),),
        )
    }
