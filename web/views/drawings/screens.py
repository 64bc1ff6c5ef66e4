"""Drawings of screens and counters outside the set, and of the finer work with a meter."""

from web.views.drawings.shapes import Drawing, box, lead, meter, note, tip

SCOPE_LOAD = Drawing(
    "The oscilloscope at the dummy load",
    (
        "Dummy load on the set, with a tap or a T-piece at it, before anybody keys.",
        "Probe on x10: earth clip on the load's shell first, then the tip at the tap or centre.",
        "Press for a few seconds only. Watts into 50 ohm: Vpp squared, divided by 400.",
    ),
    (
        box((10, 30, 80, 60), ["Set"]),
        box((140, 30, 80, 60), ["Dummy", "load"]),
        lead("M90 60H140", "coax"),
        box((232, 96, 120, 90), kind="tool"),
        box((242, 106, 100, 54), kind="screen"),
        lead("M248 133C256 108 266 108 274 133S292 158 300 133S318 108 334 133", "plain"),
        note(292, 178, "oscilloscope"),
        lead("M200 90V124H232"),
        lead("M166 90V156H232", "minus"),
        tip(200, 90),
        tip(166, 90),
        note(112, 130, "earth clip"),
        note(240, 84, "tap"),
    ),
)
SCOPE_SUPPLY = Drawing(
    "The oscilloscope across the supply",
    (
        "AC coupled, probe on x10, a small range: what is looked for rides on the DC.",
        "See first that minus may be earthed: with plus on the chassis the clip would short it.",
        "Earth clip on minus first, then the tip on plus, at the plug.",
    ),
    (
        box((10, 30, 130, 100), kind="tool"),
        box((22, 42, 106, 56), kind="screen"),
        lead("M28 70L40 60L52 80L64 60L76 80L88 60L100 80L122 64", "plain"),
        note(75, 120, "oscilloscope"),
        box((230, 50, 116, 70), ["Supply plug"]),
        lead("M140 60H250V70"),
        lead("M140 110H200V150H320V120", "minus"),
        tip(250, 70),
        tip(320, 120),
        note(280, 66, "plus"),
        note(292, 140, "minus"),
    ),
)
COUNTER_LOOP = Drawing(
    "The frequency counter with a pick-up loop",
    (
        "Two turns of insulated wire on the counter's lead, a hand's breadth from the whip's foot.",
        "Nothing touches the set. Whip out or test load on, before the button is pressed.",
        "No speech, a few seconds; let the counter warm up first.",
    ),
    (
        box((30, 90, 90, 90), ["Hand-held", "set"]),
        lead("M50 90V14", "plain"),
        note(24, 40, "whip"),
        lead("M96 62a14 10 0 1 1 20 0a14 10 0 1 1 20 0", "plain"),
        note(112, 42, "two turns"),
        lead("M136 62H230"),
        lead("M96 62V80H230", "minus"),
        box((230, 40, 110, 64), ["Counter", "27.125"], "tool"),
        note(240, 150, "near, not touching"),
    ),
)
ANALYSER = Drawing(
    "The spectrum analyser at the dummy load",
    (
        "Dummy load on the set. The analyser never goes straight onto the aerial socket.",
        "Tap of the load, or an attenuator that bears the power, 40 dB or as the check says.",
        "Largest reference level first; press for a few seconds and read the lines.",
    ),
    (
        box((6, 30, 64, 60), ["Set"]),
        box((96, 30, 70, 60), ["Dummy", "load"]),
        lead("M70 60H96", "coax"),
        box((190, 42, 60, 36), ["40 dB"]),
        lead("M166 60H190M250 60H276V96", "coax"),
        box((210, 96, 140, 94), kind="tool"),
        box((222, 106, 116, 56), kind="screen"),
        lead("M230 156H330M250 156V114M282 156V136M312 156V146", "plain"),
        note(280, 182, "analyser"),
        note(90, 130, "never straight"),
        note(90, 148, "onto the socket"),
    ),
)
ANALYSER_INSIDE = Drawing(
    "The spectrum analyser inside the set",
    (
        "Never straight onto a point: through the resistor or small capacitor the check names.",
        "Or by a loop of two turns held near the coil, touching nothing.",
        "Earth of the lead first. Largest reference level first, so that nothing is burnt.",
    ),
    (
        box((10, 40, 120, 100), kind="tool"),
        box((20, 50, 100, 56), kind="screen"),
        lead("M26 100H114M44 100V60M70 100V80M94 100V90", "plain"),
        note(70, 130, "analyser"),
        box((210, 20, 140, 130), kind="board"),
        note(280, 42, "open set"),
        lead("M130 70H156M196 70H300V90"),
        box((156, 60, 40, 20)),
        note(160, 32, "1 kohm or loop", "small"),
        lead("M130 120H160V172H250V126", "minus"),
        tip(300, 90),
        tip(250, 126),
        note(304, 112, "point"),
        note(290, 140, "earth"),
    ),
)
DROP = Drawing(
    "Volts lost along the way",
    (
        "Knob on DC volts, a small range such as 2 V. The current must flow, as the check says.",
        "Both tips on the same wire: one before the joint, contact or lead, one behind it.",
        "A good one loses next to nothing; what the meter shows is lost there.",
    ),
    (
        meter(20, 20, "0.04", "V DC"),
        lead("M150 70H340", "coax"),
        box((216, 56, 60, 28), ["joint"]),
        lead("M92 140V190H310V70"),
        lead("M44 140V170H180V70", "minus"),
        tip(180, 70),
        tip(310, 70),
        note(246, 44, "the current flows"),
        note(246, 116, "both tips"),
        note(246, 134, "on one wire"),
    ),
)
ALTERNATING = Drawing(
    "AC volts on top of the DC",
    (
        "Knob on AC volts, the lowest range. Black tip on minus, red tip on plus.",
        "If the meter shows the DC as well: the small capacitor of the check in the red lead.",
        "What is read is ripple or whine, not the battery's own volts.",
    ),
    (
        meter(20, 20, "0.09", "V AC"),
        box((220, 40, 120, 80), ["Battery", "or supply"]),
        lead("M92 140V190H150M162 190H310V120"),
        lead("M150 178V202M162 178V202", "plain"),
        lead("M44 140V164H250V120", "minus"),
        tip(310, 120),
        tip(250, 120),
        note(310, 108, "plus"),
        note(250, 108, "minus"),
    ),
)
LIFTED = Drawing(
    "Measured with one end lifted",
    (
        "Set off and unplugged; wait a minute for the electrolytics. Mark which end was where.",
        "Unsolder one end, so that nothing beside the part is measured with it.",
        "Ohms or diode test, as the check says, across the part; then solder the end back.",
    ),
    (
        meter(20, 20, "4.7 k", "ohms"),
        box((190, 60, 160, 100), kind="board"),
        note(290, 150, "plug pulled"),
        box((235, 84, 70, 30), ["part"]),
        lead("M210 99H235", "plain"),
        lead("M305 99L332 40", "plain"),
        note(300, 34, "lifted"),
        lead("M92 140V196H354V40H332"),
        lead("M44 140V176H210V99", "minus"),
        tip(210, 99),
        tip(332, 40),
    ),
)
LEAK = Drawing(
    "Leakage of a part that was lifted",
    (
        "Set off. The part stands free: everything else that hangs on it is lifted.",
        "The volts of the check through 1 Mohm to the part, the meter across the part.",
        "Wait until the reading stops rising. What is missing of the supply leaks away.",
    ),
    (
        box((6, 50, 84, 60), ["Supply"], "tool"),
        box((112, 58, 72, 24), ["1 Mohm"]),
        lead("M90 70H112M184 70H214V80"),
        box((194, 80, 40, 40), ["part"]),
        lead("M90 100H110V160H214V120", "minus"),
        meter(256, 30, "4.9", "V DC"),
        lead("M328 150V184H356V16H214V80"),
        lead("M280 150V170H214V120", "minus"),
        tip(214, 80),
        tip(214, 120),
    ),
)
