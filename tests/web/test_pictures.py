"""The picture of a step fits it: by instruments, unit, mode and lid, in every family."""

from collections.abc import Iterator

import pytest

from engine.knowledge.library import Library
from engine.knowledge.schema import Check
from web.views.drawings import aerials, listening, meters, screens, trying
from web.views.drawings.picking import RULES, picture_of
from web.views.drawings.shapes import HEIGHT, WIDTH, Drawing, svg
from web.views.markup import html
from web.views.picture import picture

ALL = [
    each
    for module in (aerials, listening, meters, screens, trying)
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
    screens.SCOPE_LOAD: "oscilloscope",
    screens.SCOPE_SUPPLY: "oscilloscope",
    screens.COUNTER_LOOP: "frequency-counter",
    screens.ANALYSER: "spectrum-analyser",
    screens.ANALYSER_INSIDE: "spectrum-analyser",
    screens.DROP: "multimeter",
    screens.ALTERNATING: "multimeter",
    screens.LIFTED: "multimeter",
    screens.LEAK: "bench-supply",
    listening.SECOND_SET: "second-set",
    listening.SPEAKER: "spare-loudspeaker",
    listening.TEST_LAMP: "test-lamp",
    listening.BENCH_SUPPLY: "bench-supply",
    listening.AUDIO: "audio-voltmeter",
    listening.CONTACT: "multimeter",
    trying.BY_HAND: "tools",
    trying.PAIR: "tools",
}
UNITS = {
    meters.CURRENT: {"A", "mA", "uA", None},
    meters.SUPPLY: {"V", "mV", None},
    meters.POINT: {"V", "mV", None},
    meters.OHMS: {"ohm", "kohm", None},
    meters.DIODE: {None},
    screens.LIFTED: {None},
    screens.DROP: {"V", "mV", None},
}
INSIDE = (
    meters.POINT,
    aerials.SCOPE,
    aerials.COUNTER_INSIDE,
    screens.ANALYSER_INSIDE,
    screens.LIFTED,
    listening.LAMP_LOOP,
    trying.BRIDGE,
    trying.EXCHANGE,
    trying.TURN,
    trying.PRESS,
    trying.WIRE,
)
NO_POWER = {
    meters.OHMS: {"off"},
    meters.DIODE: {"off", "any"},
    screens.LIFTED: {"off", "any"},
    screens.LEAK: {"off"},
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
        assert drawing not in INSIDE or check.lid == "off", name
        assert drawing not in NO_POWER or check.mode in NO_POWER[drawing], name
        assert drawing not in (trying.WIRE, screens.SCOPE_SUPPLY) or check.mode == "receive", name


def test_every_check_with_an_instrument_has_a_picture(library: Library) -> None:
    """Whatever has to be connected, held or done by hand is drawn."""
    bare = {name for name, check in all_checks(library) if check.needs and not picture_of(check)}
    assert bare == set()


@pytest.mark.parametrize(
    ("check", "drawing"),
    [
        ("audio-amplifier.output-electrolytic-bridged", trying.BRIDGE),
        ("receive-crystal-bank.receive-crystal-exchanged", trying.EXCHANGE),
        ("squelch.range-preset-turn", trying.TURN),
        ("vhf-vco.vco-tap", trying.PRESS),
        ("limiter-discriminator.limiter-touch-test", trying.WIRE),
        ("supply.own-pair", trying.PAIR),
        ("hybrid-output-module.flange-look", trying.BY_HAND),
        ("low-pass-filter.second-harmonic", screens.ANALYSER),
        ("transmit-mixer.mixer-leak", screens.ANALYSER_INSIDE),
        ("operating-sideband.sideband-pep", screens.SCOPE_LOAD),
        ("supply.supply-on-scope", screens.SCOPE_SUPPLY),
        ("supply.drop-along-joints", screens.DROP),
        ("supply.battery-ripple", screens.ALTERNATING),
        ("first-filter.first-termination-ohms", screens.LIFTED),
        ("loop-filter.filter-leak-test", screens.LEAK),
        ("channel-crystals.carrier-by-counter", screens.COUNTER_LOOP),
        ("supply.minus-sign", meters.SUPPLY),
        ("linear-bias.warm-current", meters.CURRENT),
        ("handheld-audio.voice-on-second-set", listening.SECOND_SET),
        ("speaker-microphone.other-speaker", listening.SPEAKER),
        ("supply.bulb-test", listening.TEST_LAMP),
        ("supply-input.limited-current", listening.BENCH_SUPPLY),
        ("audio-amplifier.hum-level", listening.AUDIO),
        ("microphone-socket.socket-pin-voltage", listening.CONTACT),
        ("talk-switch.lamp-loop", listening.LAMP_LOOP),
    ],
    ids=lambda each: each.title if isinstance(each, Drawing) else each,
)
def test_a_step_gets_the_picture_of_what_is_done(
    library: Library, check: str, drawing: Drawing
) -> None:
    """One step for each of the drawings that go by the words of a step, chosen by hand."""
    found = {picture_of(each) for name, each in all_checks(library) if name.endswith(f" {check}")}
    assert found == {drawing}


@pytest.mark.parametrize(
    ("unit", "fitting"),
    [
        ("V", {meters.POINT, meters.SUPPLY, screens.DROP, screens.ALTERNATING}),
        ("A", {meters.CURRENT}),
        ("mA", {meters.CURRENT}),
        ("ohm", {meters.OHMS}),
        ("kohm", {meters.OHMS}),
    ],
)
def test_readings_of_a_multimeter_get_theirs(
    library: Library, unit: str, fitting: set[Drawing]
) -> None:
    """Volts are never drawn in series, nor amps across."""
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
