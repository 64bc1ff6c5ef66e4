"""Drawings with a multimeter, and of what needs no instrument."""

from web.views.drawings.shapes import Drawing, box, lead, meter, note, tip

SUPPLY = Drawing(
    "Volts at the supply",
    (
        "Knob on DC volts, the range above what you expect, such as 20 V.",
        "Leads in the sockets for volts: black at minus, red at plus.",
        "Black tip on minus, red tip on plus. The tips never touch each other.",
    ),
    (
        meter(20, 20, "13.2", "V DC"),
        box((220, 40, 120, 80), ["Supply plug", "or battery"]),
        lead("M92 140V190H310V120"),
        lead("M44 140V170H250V120", "minus"),
        tip(310, 120),
        tip(250, 120),
        note(310, 108, "plus"),
        note(250, 108, "minus"),
        note(180, 204, "red lead drawn through, black lead dashed", "small"),
    ),
)
POINT = Drawing(
    "Volts at a point inside the set",
    (
        "Knob on DC volts. Black lead clipped where the check says, often the minus rail.",
        "Clip it first; then touch the point with the red tip, insulated up to its end.",
        "One hand only. A tip that slips joins two points and can ruin a part.",
    ),
    (
        meter(20, 20, "5.0", "V DC"),
        box((190, 20, 150, 130), kind="board"),
        note(265, 42, "open set"),
        box((215, 60, 40, 24), ["part"]),
        lead("M92 140V190H300V100"),
        lead("M44 140V172H230V130", "minus"),
        tip(300, 100),
        tip(230, 130),
        note(300, 90, "point"),
        note(244, 120, "minus rail"),
    ),
)
CURRENT = Drawing(
    "Amps: the meter is in the path",
    (
        "Supply off. Red lead in the amps socket, knob on amps, the largest range first.",
        "Open one lead, and put the meter in the gap, with a fuse in the path.",
        "Never across the supply: in the amps socket the meter is like a piece of wire.",
        "Afterwards put the red lead back into the socket for volts.",
    ),
    (
        box((10, 50, 76, 50), ["Set"]),
        meter(132, 20, "0.45", "A DC"),
        box((274, 50, 76, 50), ["Supply"]),
        box((284, 122, 56, 24), ["fuse"]),
        lead("M312 100V122M312 146V184H204V140"),
        lead("M156 140V184H48V100", "minus"),
        lead("M86 66H104V10H256V66H274", "minus"),
        note(180, 204, "the current goes through the meter", "small"),
    ),
)
OHMS = Drawing(
    "Ohms across a part",
    (
        "Set off and its supply unplugged; wait a minute for the electrolytics.",
        "Knob on ohms. Touch the tips together: the meter should show nearly nothing.",
        "One tip on each end of the part. Do not hold both tips with your fingers.",
    ),
    (
        meter(20, 20, "8.2", "ohms"),
        box((225, 60, 70, 34), ["part"]),
        lead("M200 77H225M295 77H320", "plain"),
        lead("M92 140V190H320V77"),
        lead("M44 140V166H200V77", "minus"),
        tip(200, 77),
        tip(320, 77),
        note(262, 120, "no power on"),
        note(262, 136, "plug pulled"),
    ),
)
DIODE = Drawing(
    "A diode, both ways round",
    (
        "Set off and unplugged. Knob on the diode sign.",
        "Red tip on one end, black on the end with the ring; then the other way round.",
        "A good one reads some tenths of a volt one way and nothing the other.",
    ),
    (
        meter(20, 20, "0.62", "diode"),
        box((225, 60, 70, 34)),
        lead("M280 60V94", "plain"),
        note(258, 52, "ring at this end"),
        lead("M200 77H225M295 77H320", "plain"),
        lead("M92 140V166H200V77"),
        lead("M44 140V190H320V77", "minus"),
        tip(200, 77),
        tip(320, 77),
        note(260, 126, "swap the tips"),
    ),
)
FUSE = Drawing(
    "A fuse, whole and blown",
    (
        "Supply off, then take the fuse out of its holder.",
        "A whole one has an unbroken wire; in a blown one it is parted, or the glass is dark.",
        "Fit only the value printed beside the holder, and find out why it blew.",
    ),
    (
        box((30, 50, 50, 44), kind="tool"),
        box((280, 50, 50, 44), kind="tool"),
        box((80, 54, 200, 36), kind="screen"),
        lead("M80 72C140 60 220 84 280 72", "plain"),
        note(180, 40, "whole"),
        box((30, 136, 50, 44), kind="tool"),
        box((280, 136, 50, 44), kind="tool"),
        box((80, 140, 200, 36), kind="screen"),
        lead("M80 158C110 150 130 160 150 166M210 150C230 160 250 160 280 158", "plain"),
        note(180, 126, "blown: the wire is parted"),
    ),
)
MICROPHONE = Drawing(
    "The microphone plug",
    (
        "Switch the set off. Turn the ring back, pull the plug straight out by its body.",
        "Look for bent pins, green deposit, and wires torn off where the cable goes in.",
        "The cable must not move by itself in the plug: its clamp takes the pull, not the wires.",
    ),
    (
        box((200, 50, 100, 100), kind="tool"),
        *(tip(x, y) for x, y in ((230, 80), (270, 80), (230, 120), (270, 120), (250, 100))),
        note(250, 40, "pins, from the front"),
        box((30, 76, 90, 48), ["plug", "from side"]),
        box((120, 82, 16, 36), kind="tool"),
        lead("M30 100H6", "coax"),
        note(75, 66, "clamp", "small"),
        note(128, 140, "ring", "small"),
    ),
)
READING = Drawing(
    "How to read a multimeter",
    (
        "First the knob: V with a straight line is DC volts, V with a wave is mains.",
        "Ohms is only for parts without power.",
        "Then the leads: black in the common socket, red in that for volts, or for amps.",
        "Pick the range above what you expect. A 1 at the left, or OL, means more than the range.",
        "A minus in front means that the tips are the other way round.",
    ),
    (
        meter(132, 40, "12.6", "V DC"),
        note(58, 70, "what it reads"),
        lead("M116 66H140", "plain"),
        note(58, 116, "the knob"),
        lead("M100 112H160", "plain"),
        note(308, 116, "its range"),
        lead("M264 112H202", "plain"),
        note(92, 190, "black: common"),
        note(272, 190, "red: volts, ohms"),
        lead("M156 160V176", "minus"),
        lead("M204 160V176"),
    ),
)
