"""Drawings of what is done by hand: bridging, exchanging, turning, pressing, looking."""

from web.views.drawings.shapes import Drawing, box, cross, lead, note, tip

BRIDGE = Drawing(
    "A part bridged, or lifted, for a moment",
    (
        "Set off and unplugged while you clip a part on or lift a leg.",
        "A sound part of the kind and value the check names, plus to plus, on short leads.",
        "Then set on: does it make a difference? It is only a trial; do not leave it there.",
    ),
    (
        box((20, 20, 320, 130), kind="board"),
        note(74, 42, "open set"),
        box((140, 100, 80, 32), ["old part"]),
        lead("M104 116H140M220 116H256", "plain"),
        box((130, 40, 100, 32), ["sound one"], "tool"),
        lead("M130 56H104V116"),
        lead("M230 56H256V116", "minus"),
        tip(104, 116),
        tip(256, 116),
        note(92, 84, "+"),
        note(268, 84, "−"),
        note(180, 180, "clip on with the set off, then try"),
    ),
)
EXCHANGE = Drawing(
    "A part known to be good in place of the old one",
    (
        "Mark or draw how the old one sat, and what you found before.",
        "Set off and unplugged while you exchange. Short, quick soldering.",
        "The same kind and value, the same way round. Then compare, and keep the old one.",
    ),
    (
        box((20, 20, 320, 130), kind="board"),
        note(74, 42, "open set"),
        box((196, 84, 90, 36), ["good one"], "tool"),
        lead("M176 102H196M286 102H306", "plain"),
        tip(176, 102),
        tip(306, 102),
        box((40, 84, 80, 36), ["old one"]),
        lead("M176 88C160 56 130 56 104 78M104 78L104 66M104 78L116 76", "minus"),
        note(180, 180, "set off while you exchange"),
    ),
)
TURN = Drawing(
    "A core or preset turned, and put back",
    (
        "Mark the place first: a line with a pencil across core and can.",
        "A tool that fits and is not metal. A little at a time, an eighth of a turn; do not force.",
        "Watch what the check says. Back to the mark if it is not this.",
    ),
    (
        box((50, 50, 110, 110), kind="tool"),
        note(105, 40, "can, from above"),
        box((75, 75, 60, 60), kind="screen"),
        lead("M105 80V130", "plain"),
        lead("M105 50V74", "never"),
        note(196, 66, "mark"),
        lead("M176 62H114", "minus"),
        lead("M146 120C156 100 152 84 142 76M142 76L154 76M142 76L144 88"),
        box((216, 108, 134, 24), ["tool, no metal"]),
        lead("M216 120H150", "plain"),
        note(180, 192, "mark, an eighth of a turn, back to the mark"),
    ),
)
PRESS = Drawing(
    "One part at a time: press, tap or cool",
    (
        "The set works meanwhile, as the check says; listen, or watch the meter.",
        "A stick of wood or plastic, never metal; to cool, the fine tube of the spray.",
        "Gently, one part or joint after the other. Note which one changes it.",
    ),
    (
        box((20, 60, 320, 96), kind="board"),
        note(74, 146, "open set, on"),
        box((60, 84, 60, 32), ["part"]),
        box((150, 84, 60, 32), ["part"]),
        box((240, 84, 60, 32), ["part"]),
        lead("M290 14L186 80", "coax"),
        tip(184, 82),
        note(180, 36, "stick"),
        note(180, 184, "one after the other, gently"),
    ),
)
WIRE = Drawing(
    "A piece of wire as a signal",
    (
        "Pull the microphone plug, or tape its button. Squelch open, volume a third.",
        "A metre of insulated wire, through the small capacitor the check names, to the point.",
        "Noise or stations: from there on it works. Never press the button meanwhile.",
    ),
    (
        lead("M20 40C60 20 90 60 130 40", "plain"),
        note(76, 72, "a metre of wire"),
        lead("M130 40H148M160 40H290V90"),
        lead("M148 28V52M160 28V52", "plain"),
        note(154, 20, "capacitor", "small"),
        box((196, 20, 150, 130), kind="board"),
        note(250, 140, "open set"),
        tip(290, 90),
        note(290, 112, "point"),
        box((30, 110, 72, 30), ["button"]),
        cross(116, 125),
        note(150, 184, "no button while the wire is on"),
    ),
)
BY_HAND = Drawing(
    "By hand and eye",
    (
        "Set off and unplugged; wait a minute for the electrolytics. Rings and watch off.",
        "A good lamp and a magnifier. Draw or photograph what you are about to move.",
        "No force. Put everything back as it was before the set gets power again.",
    ),
    (
        box((30, 40, 120, 80), ["Set"]),
        lead("M150 80H186", "coax"),
        box((222, 64, 110, 32), ["supply plug"]),
        cross(204, 80),
        lead("M70 140a22 22 0 1 1 44 0a22 22 0 1 1 -44 0M108 156L136 178", "plain"),
        note(200, 160, "lamp and magnifier"),
        note(276, 120, "pulled out"),
    ),
)
PAIR = Drawing(
    "A pair of wires straight from the battery",
    (
        "Both wires go from the battery's own posts to the set, joined to nothing on the way.",
        "A fuse of the set's value in the plus wire, close to the battery.",
        "Red to plus, black to minus; look twice before the set is plugged in.",
    ),
    (
        box((10, 70, 100, 70), ["Battery"]),
        box((150, 74, 60, 24), ["fuse"], "tool"),
        box((264, 70, 86, 70), ["Set"]),
        lead("M110 86H150M210 86H264"),
        lead("M110 124H264", "minus"),
        note(124, 64, "+"),
        note(124, 146, "−"),
        note(180, 184, "joined to nothing on the way"),
    ),
)
