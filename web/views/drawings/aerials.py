"""Drawings with something on the aerial socket, or a probe at a radio signal."""

from web.views.drawings.shapes import Drawing, box, cross, lead, note, tip

POWER = Drawing(
    "Power into a dummy load",
    (
        "Set, power meter, dummy load, in this order, on short leads, before anybody keys.",
        "Sender side of the meter towards the set. The load must bear more than is sent.",
        "Press for a few seconds only, and let it cool.",
    ),
    (
        box((10, 70, 84, 60), ["Set"]),
        box((138, 60, 90, 80), ["Power", "meter"], "tool"),
        box((272, 70, 80, 60), ["Dummy", "load"]),
        lead("M94 100H138M228 100H272", "coax"),
        note(116, 50, "sender side", "small"),
        note(250, 50, "load side", "small"),
        note(180, 180, "connect all, then press the button"),
    ),
)
SWR = Drawing(
    "Match of the aerial",
    (
        "Set, meter, then the cable to the aerial, all connected before anybody keys.",
        "Low power if there is some, a free channel, a few seconds.",
        "Nobody touches the aerial meanwhile.",
    ),
    (
        box((10, 90, 84, 60), ["Set"]),
        box((138, 84, 90, 72), ["Meter", "in line"], "tool"),
        lead("M94 120H138M228 120H310", "coax"),
        lead("M310 150V20", "plain"),
        note(318, 176, "aerial"),
        note(180, 200, "press only when all is connected"),
    ),
)
COUNTER = Drawing(
    "The frequency counter at a dummy load",
    (
        "Dummy load on the set. The counter never goes straight onto the aerial socket.",
        "A loop of two turns near the load, or the tap of the load, leads to the counter.",
        "Let the counter warm up; press for a few seconds and read.",
    ),
    (
        box((10, 40, 84, 60), ["Set"]),
        box((150, 40, 80, 60), ["Dummy", "load"]),
        lead("M94 70H150", "coax"),
        lead("M180 134a14 10 0 1 1 20 0a14 10 0 1 1 20 0", "plain"),
        note(130, 132, "two turns"),
        lead("M220 134H256"),
        lead("M180 134V150H256", "minus"),
        box((256, 110, 96, 60), ["Counter", "27.185"], "tool"),
        note(150, 200, "near the load, not touching"),
    ),
)
COUNTER_INSIDE = Drawing(
    "The frequency counter inside the set",
    (
        "Earth clip first, then the tip at the point the check names.",
        "Through the small capacitor the check asks for: a lead alone pulls an oscillator.",
        "Let set and counter warm up.",
    ),
    (
        box((16, 40, 110, 70), ["Counter", "10.240"], "tool"),
        box((190, 20, 150, 130), kind="board"),
        note(265, 42, "open set"),
        lead("M126 64H176M188 64H300V90"),
        lead("M176 52V76M188 52V76", "plain"),
        note(164, 44, "small", "small"),
        lead("M126 98H150V166H230V130", "minus"),
        tip(300, 90),
        tip(230, 130),
        note(300, 110, "point"),
        note(232, 120, "earth"),
    ),
)
SCOPE = Drawing(
    "The oscilloscope probe",
    (
        "Probe on x10. Earth clip first, on the earth beside the point.",
        "Then the tip on the point the check names, insulated so that it cannot slip across two.",
        "On sets with a floating chassis, see first that the clip shorts nothing.",
    ),
    (
        box((10, 30, 130, 110), kind="tool"),
        box((22, 42, 106, 64), kind="screen"),
        lead("M28 74C40 44 52 44 62 74S86 104 96 74S112 50 122 66", "plain"),
        note(75, 128, "oscilloscope"),
        box((200, 20, 150, 130), kind="board"),
        note(275, 42, "open set"),
        lead("M140 120H170V70H300"),
        lead("M250 70V124", "minus"),
        tip(300, 70),
        tip(250, 124),
        note(306, 92, "point"),
        note(270, 142, "earth clip"),
        note(180, 190, "clip first, then the tip"),
    ),
)
RF_PROBE = Drawing(
    "An RF probe on a multimeter",
    (
        "The probe goes between the meter and the set; the meter stands on DC volts.",
        "Earth clip first, as near as can be, then the tip on the point.",
        "It tells whether a signal is there and which is larger, not its exact size.",
    ),
    (
        box((10, 40, 84, 100), kind="tool"),
        box((18, 50, 68, 30), ["1.3"], "screen"),
        note(52, 110, "V DC"),
        box((136, 62, 72, 40), ["RF probe"], "tool"),
        lead("M94 74H136"),
        lead("M94 92H136", "minus"),
        box((240, 20, 110, 130), kind="board"),
        note(295, 42, "open set"),
        lead("M208 82H290"),
        lead("M180 102V170H270V130", "minus"),
        tip(290, 82),
        tip(270, 130),
        note(310, 104, "point"),
        note(278, 120, "earth"),
    ),
)
GENERATOR = Drawing(
    "A signal generator on the aerial socket",
    (
        "Pull the microphone plug, or tape its button, before the generator is connected.",
        "Generator to the aerial socket. Start with the smallest signal.",
        "Never press the button: the set's power would go back into the generator.",
    ),
    (
        box((10, 60, 110, 70), ["Signal", "generator"], "tool"),
        lead("M120 94H230", "coax"),
        note(176, 84, "aerial socket", "small"),
        box((230, 60, 110, 70), ["Set", "listening"]),
        lead("M260 130V160", "plain"),
        box((228, 160, 64, 30), ["button"]),
        cross(316, 175),
        note(110, 180, "never press the button"),
    ),
)
GENERATOR_INSIDE = Drawing(
    "A signal generator inside the set",
    (
        "Pull the microphone plug, or tape its button, before the generator is connected.",
        "Through a capacitor, such as the check names, to the point; earth of the lead beside it.",
        "Start with the smallest signal. Never press the button.",
    ),
    (
        box((10, 50, 104, 70), ["Signal", "generator"], "tool"),
        lead("M114 74H150M162 74H300V94"),
        lead("M150 62V86M162 62V86", "plain"),
        note(156, 54, "capacitor", "small"),
        box((196, 20, 150, 130), kind="board"),
        note(270, 42, "open set"),
        lead("M114 106H140V170H236V130", "minus"),
        tip(300, 94),
        tip(236, 130),
        note(300, 114, "point"),
        note(240, 120, "earth"),
        note(180, 200, "never press the button"),
    ),
)
DEVIATION = Drawing(
    "A modulation meter at a dummy load",
    (
        "Dummy load on the set; the meter at the tap of the load, or a short wire near it.",
        "Never the meter straight on the aerial socket.",
        "Press for a few seconds and speak as the check says.",
    ),
    (
        box((10, 50, 84, 60), ["Set"]),
        box((150, 50, 80, 60), ["Dummy", "load"]),
        lead("M94 80H150", "coax"),
        lead("M190 110V150H256"),
        note(170, 136, "tap"),
        box((256, 116, 96, 64), ["Modulation", "meter"], "tool"),
    ),
)
LOAD = Drawing(
    "A dummy load in place of the aerial",
    (
        "Take the aerial off and screw the dummy load on before anybody presses the button.",
        "The load must bear more than the set sends; it gets warm.",
        "Press for a few seconds only.",
    ),
    (
        box((30, 70, 110, 70), ["Set"]),
        lead("M140 104H230", "coax"),
        box((230, 70, 100, 70), ["Dummy", "load"]),
        note(180, 180, "load first, then the button"),
    ),
)
