"""The picture of a step fits it: by instruments, unit, mode and lid, in every family."""

from collections.abc import Iterator

import pytest

from engine.knowledge.library import Library
from engine.knowledge.schema import Check
from web.views.drawings import aerials, meters
from web.views.drawings.picking import RULES, picture_of
from web.views.drawings.shapes import HEIGHT, WIDTH, Drawing, svg
from web.views.markup import html
from web.views.picture import picture

ALL = [
    each
    for module in (aerials, meters)
    for each in vars(module).values()
    if isinstance(each, Drawing)
]
NEEDS = {
    aerials.GENERATOR: "signal-generator",
    aerials.GENERATOR_INSIDE: "signal-generator",
    aerials.DEVIATION: "deviation-meter",
    aerials.POWER: "rf-power-meter",
    aerials.SWR: "rf-power-meter",
    aerials.RF_PROBE: "rf-probe",
    aerials.COUNTER: "frequency-counter",
    aerials.COUNTER_INSIDE: "frequency-counter",
    aerials.SCOPE: "oscilloscope",
    aerials.LOAD: "dummy-load",
    meters.CURRENT: "multimeter",
    meters.SUPPLY: "multimeter",
    meters.POINT: "multimeter",
    meters.DIODE: "multimeter",
    meters.OHMS: "multimeter",
}
UNITS = {
    meters.CURRENT: {"A", "mA", "uA"},
    meters.SUPPLY: {"V", "mV", None},
    meters.POINT: {"V", "mV", None},
    meters.OHMS: {"ohm", "kohm", None},
    meters.DIODE: {None},
}


def all_checks(library: Library) -> Iterator[tuple[str, Check]]:
    """Yield the checks of every family, as it has them."""
    for family in library.families:
        for block_id, block in library.of(family).blocks.items():
            for name, check in block.checks.items():
                yield f"{family} {block_id}.{name}", check


def test_no_check_gets_a_picture_of_another_instrument(library: Library) -> None:
    """Nor one of another unit, or of work in an open set while the lid is on."""
    for name, check in all_checks(library):
        drawing = picture_of(check)
        if drawing is None:
            continue
        assert drawing not in NEEDS or NEEDS[drawing] in check.needs, name
        assert drawing not in UNITS or check.unit in UNITS[drawing], name
        inside = (meters.POINT, aerials.SCOPE, aerials.COUNTER_INSIDE)
        assert drawing not in inside or check.lid == "off", name
        assert drawing not in (meters.OHMS, meters.DIODE) or check.mode == "off", name


@pytest.mark.parametrize(
    ("unit", "fitting"),
    [
        ("V", {meters.POINT, meters.SUPPLY}),
        ("A", {meters.CURRENT}),
        ("mA", {meters.CURRENT}),
        ("ohm", {meters.OHMS}),
        ("kohm", {meters.OHMS}),
    ],
)
def test_readings_of_a_multimeter_get_theirs(
    library: Library, unit: str, fitting: set[Drawing]
) -> None:
    """Volts are never drawn in series, nor amps across; AC and what is lost in a joint get none."""
    for name, check in all_checks(library):
        if (
            check.unit == unit
            and set(check.needs) <= {"multimeter", "tools", "dummy-load"}
            and check.needs
        ):
            drawing = picture_of(check)
            assert drawing is None or drawing in fitting, name


@pytest.mark.parametrize(
    "needs",
    [
        {"signal-generator"},
        {"rf-power-meter", "dummy-load"},
        {"rf-probe"},
        {"frequency-counter", "dummy-load"},
        {"deviation-meter", "dummy-load"},
    ],
    ids=lambda needs: " and ".join(sorted(needs)),
)
def test_instruments_with_a_drawing_always_get_one(library: Library, needs: set[str]) -> None:
    """Whatever else the check needs; a generator's drawing comes before all others."""
    for name, check in all_checks(library):
        if needs <= set(check.needs):
            assert picture_of(check) is not None, name
            if "signal-generator" in check.needs:
                assert picture_of(check) in (aerials.GENERATOR, aerials.GENERATOR_INSIDE), name


def test_every_drawing_is_used(library: Library) -> None:
    """The one on reading a meter stands beside every check with one."""
    used = {drawing.title for _, check in all_checks(library) if (drawing := picture_of(check))}
    assert used == {drawing.title for _, drawing in RULES}
    assert {each.title for each in ALL} - used == {meters.READING.title}


@pytest.mark.parametrize("drawing", ALL, ids=lambda each: each.title)
def test_a_drawing_stays_within_its_field_and_says_all_in_words(drawing: Drawing) -> None:
    """Nothing is cut off, as far as boxes and words go, and the description holds every step."""
    element = svg(drawing, "p")
    assert element.find("title").text == drawing.title  # type: ignore[union-attr]
    assert element.find("desc").text == " ".join(drawing.steps)  # type: ignore[union-attr]
    for rect in element.iter("rect"):
        x, y, width, height = (float(rect.get(each, "")) for each in ("x", "y", "width", "height"))
        assert min(x, y) >= 0
        assert x + width <= WIDTH
        assert y + height <= HEIGHT
    for text in element.iter("text"):
        half = 4.2 * len(text.text or "")
        assert float(text.get("x", "")) - half >= -2, text.text
        assert float(text.get("x", "")) + half <= WIDTH + 2, text.text


def test_the_steps_stand_beside_the_picture(library: Library) -> None:
    """Folded, as a list; a meter is explained as well."""
    check = next(check for _, check in all_checks(library) if picture_of(check) is meters.SUPPLY)
    element = picture(check)  # type: ignore[arg-type]
    assert element is not None
    shown = html(element)
    assert all(f"<li>{step}</li>" in shown for step in meters.SUPPLY.steps)
    assert "<summary>How to read a multimeter</summary>" in shown
