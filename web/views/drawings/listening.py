"""Drawings with a second set, a loudspeaker, a lamp, a bench supply, or at a socket."""

from web.views.drawings.shapes import Drawing, box, lead, meter, note, tip

SECOND_SET = Drawing(
    "A second set to compare with",
    (
        "A set that is known to work, some metres away or in the next room, on the same channel.",
        "Whichever of the two sends has its aerial or a dummy load on, low power, a few seconds.",
        "Somebody speaks at one and listens at the other; then the other way round if asked.",
    ),
    (
        box((14, 70, 104, 70), ["The set", "looked at"]),
        box((242, 70, 104, 70), ["A good set"], "tool"),
        lead("M66 70V24", "plain"),
        lead("M294 70V24", "plain"),
        lead("M140 60C160 74 200 74 220 60M140 84C160 98 200 98 220 84", "minus"),
        note(180, 130, "some metres"),
        note(180, 180, "one speaks, the other listens"),
    ),
)
SPEAKER = Drawing(
    "A loudspeaker known to be good",
    (
        "Volume down first. Plug it into the jack the check names, or clip it to the wires named.",
        "Loudspeaker of the right value, often 8 ohm; neither of its wires touches the chassis.",
        "Squelch open, volume slowly up to a third: compare with the set's own.",
    ),
    (
        box((20, 60, 120, 90), ["Set"]),
        tip(140, 105),
        note(160, 94, "jack", "small"),
        lead("M140 105H236", "plain"),
        box((236, 80, 30, 50), kind="tool"),
        lead("M266 80L300 52V158L266 130", "plain"),
        note(280, 184, "good loudspeaker"),
    ),
)
TEST_LAMP = Drawing(
    "A lamp as a load",
    (
        "Set disconnected. A 12 V vehicle lamp, 5 to 21 W, with two wires soldered on.",
        "Hold or clip its wires to plus and minus of what is to be proved. It gets hot.",
        "A bright lamp: the feed gives current, not volts alone. It cannot tell plus from minus.",
    ),
    (
        box((14, 60, 120, 80), ["Supply plug", "or terminals"]),
        lead("M134 80H250"),
        lead("M134 120H250", "minus"),
        box((250, 70, 60, 60), kind="screen"),
        lead("M262 112C270 84 290 84 298 112", "plain"),
        note(280, 154, "12 V lamp"),
        note(160, 186, "set unplugged meanwhile"),
    ),
)
BENCH_SUPPLY = Drawing(
    "A bench supply with a current limit",
    (
        "Before anything is connected: the volts, then the current limit, as the check says.",
        "Plus to plus and minus to minus, straight at the set's own socket, its fuse in place.",
        "Switch on and watch the ammeter of the supply. At the limit stop and look why.",
    ),
    (
        box((10, 40, 150, 110), kind="tool"),
        box((22, 52, 56, 32), ["13.2"], "screen"),
        box((90, 52, 56, 32), ["0.31"], "screen"),
        note(50, 102, "volts"),
        note(118, 102, "amps"),
        note(85, 134, "limit set first"),
        box((256, 60, 92, 70), ["Set"]),
        lead("M160 80H256"),
        lead("M160 114H256", "minus"),
        note(208, 72, "+"),
        note(208, 132, "−"),
    ),
)
AUDIO = Drawing(
    "The audio millivoltmeter",
    (
        "Earth clip first, then the tip: across the loudspeaker, or at the point the check names.",
        "Begin at the largest range. In sets with both loudspeaker wires live, clip to neither.",
        "Hum and noise count as well: read first without the signal, then with it.",
    ),
    (
        box((10, 40, 130, 110), kind="tool"),
        box((22, 52, 106, 50), ["42 mV"], "screen"),
        note(75, 132, "audio volts"),
        box((210, 40, 140, 100), ["loudspeaker", "or point"], "board"),
        lead("M140 70H222"),
        lead("M140 120H222", "minus"),
        tip(222, 70),
        tip(222, 120),
        note(256, 132, "earth"),
    ),
)
CONTACT = Drawing(
    "Volts at a contact of a socket",
    (
        "Knob on DC volts. Black tip on the earth contact of the socket, or the minus lead.",
        "Red tip, thin and insulated up to its end, on the contact the check names.",
        "The tips never touch each other, nor two contacts at once.",
    ),
    (
        meter(20, 20, "4.8", "V DC"),
        box((220, 30, 110, 100), kind="tool"),
        *(tip(x, y) for x, y in ((250, 60), (300, 60), (250, 104), (300, 104))),
        note(266, 20, "socket, from the front"),
        lead("M92 140V196H340V60H300"),
        lead("M44 140V176H250V104", "minus"),
    ),
)
LAMP_LOOP = Drawing(
    "A small lamp on a loop of wire",
    (
        "A lamp of 6 V, 50 mA soldered to two turns of insulated wire, wide enough for the coil.",
        "Slip it over the coil the check names; it touches nothing bare.",
        "Test load or whip on, then press for two seconds: it glows where there is power.",
    ),
    (
        box((190, 20, 150, 140), kind="board"),
        note(292, 42, "open set"),
        box((224, 70, 60, 60)),
        lead(
            "M90 80C120 80 190 60 214 80a40 14 0 1 0 80 0a40 14 0 1 0 -80 20C180 116 120 110 90 110"
        ),
        box((30, 68, 60, 54), kind="screen"),
        lead("M42 104C48 82 70 82 78 104", "plain"),
        note(60, 144, "lamp"),
        note(254, 150, "coil"),
        note(180, 190, "slipped over the coil, touching nothing"),
    ),
)
