"""The small words of English that carry grammar: who speaks, what is denied, where it ends."""

import re


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


NEGATORS = _words("not no never without nothing nobody none neither nor cannot cant noone nowhere")
NO_ONE = _words("nobody noone none")
SHORTENED = re.compile(
    r"(?:do|doe|does|dos|did|is|are|was|were|wo|ca|could|would|has|have|had)n'?t"
)
BARELY = _words("hardly barely scarcely")  # say that there is little, not that there is none
BREAKS = _words("but although though however yet whereas except nor")
# "And" ends a clause only before one of these: "the lamp and the meter" stays together.
STARTERS = _words(
    "they i he she we people others everybody everyone nobody no not it it's its then now when if "
    "that my only can cannot still also never"
)
SPEAKER = _words("i i'm i've i'll i'd we we're me us")
OBJECT = _words("me us my our")
NUMERALS = _words(
    "five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen twenty thirty forty fifty hundred"
)
BEING = _words("am are is be been being was were get gets got i'm we're")
STOP = _words(
    "a an the this that these those it its it's itself i i'm i've i'll me my mine we us our you "
    "your of in on at to for from by with as into about is are am be been being was were do does "
    "did has have had will would can could should may might shall so too very just quite really "
    "and or if then than there here what when whenever where who which how why some any all also "
    "again ever even please thanks thank hello hi gets got get go goes going went because since "
    "till until them they he she his her him hers their one ones now more much many lot lots bit "
    "little rather pretty say says said like seems seem make makes made give gives let same own "
    "way other others thing things always up out over down off while during "
)


def is_negator(word: str) -> bool:
    """Say whether a word denies what follows it.

    >>> is_negator("doesn't"), is_negator("dont"), is_negator("note")
    (True, True, False)
    """
    return word in NEGATORS or SHORTENED.fullmatch(word) is not None


def stem(word: str) -> str:
    """Return a word without its common endings, so that its forms meet.

    A few of the rules of step 1 in Porter, An algorithm for suffix stripping, Program 14 (3), 1980.

    >>> stem("moves"), stem("moving"), stem("moved"), stem("hiss"), stem("stopped")
    ('mov', 'mov', 'mov', 'hiss', 'stop')
    """
    word = word.removesuffix("'s")
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    for ending in ("ing", "ed"):
        if word.endswith(ending) and len(word) > len(ending) + 2:
            word = word.removesuffix(ending)
            if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "lsz":
                word = word[:-1]
            break
    return word.removesuffix("e") if len(word) > 3 else word
