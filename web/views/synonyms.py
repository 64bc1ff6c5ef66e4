"""Other words for what a symptom says: people look for the word that they would use."""

# If one of the first words stands in a symptom, it is found by the second ones as well.
ALSO = (
    (("sign of life",), "dead nothing works broken lights light no power will not switch on"),
    (("lamp", "figures", "display"), "light lights lit bulb dark glow"),
    (
        ("silent", "hears nobody", "no hiss", "loudspeaker"),
        "no sound silent mute deaf quiet speaker",
    ),
    (("hears nobody", "hear near stations"), "receive reception receiving deaf"),
    (("hiss",), "static noise rush"),
    (("hum", "whine", "growl"), "buzz noise alternator"),
    (("rough", "rasp", "muffled", "clipped"), "distorted distortion garbled unclear crackle bad"),
    (("quiet", "faint", "weak", "close by"), "weak low soft range distance far"),
    (("others", "button", "transmit"), "nobody hears me transmits sending talk speak tx"),
    (("button", "microphone"), "mike mic ptt push to talk key"),
    (("fuse",), "dead blown blows burnt"),
    (("channel",), "frequency off wrong"),
    (("squelch",), "mute silent sq"),
    (("hot",), "warm burns smell overheats"),
    (("aerial", "swr"), "antenna whip cable coax"),
    (("voice", "speech"), "modulation talk words"),
    (("comes and goes", "come and go"), "intermittent sometimes loose cuts out"),
)


def synonyms(words: str) -> str:
    """Return what else a symptom with these words may be looked for by.

    >>> synonyms("the fuse blows")
    'dead blown blows burnt'
    """
    return " ".join(also for signs, also in ALSO if any(sign in words for sign in signs))
