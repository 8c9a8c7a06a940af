"""
Dangers that a question may tell of, such as smoke, an electric shock or lost files: a fixed sentence for each, which
comes before any answer.

Each kind is a list of patterns that a person can read; harmless phrases that look alike are taken out first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from calculators.asking.words import plain


@dataclass(frozen=True, slots=True)
class Danger:
    """kind: its name. sentence: what is said, whatever else is answered. words: what it was read from."""

    kind: str
    sentence: str
    words: str


_SENTENCES = {
    "smoke": "Switch the power off only if you can reach it safely, keep away from smoke, and do not start the machine "
    "again; if it burns, leave and call the fire brigade.",
    "shock": "Do not touch the case again: take the plug out of the wall only if you can do it without touching metal, "
    "and have an electrician look at socket and machine.",
    "liquid": "Take the power away if you can do it with dry hands, do not start the machine again, and have it dried "
    "and looked at before it is used.",
    "battery": "Do not charge, press or open a swollen battery: switch off, keep the device away from what burns, and "
    "have its maker or a workshop take the battery out.",
    "supply": "Never open a power supply: it can hold a dangerous charge long after it is unplugged. Have it replaced.",
    "files": "Stop writing to that disk now and leave it off: every minute of use can overwrite what is lost. A "
             "copy, or "
    "a recovery service, comes first.",
    "hearing": "Take the headphones off. Sudden loss of hearing needs a doctor today; pain or ringing that stays needs "
    "a doctor too.",
}  # fmt: skip

# What sounds alike and is harmless: taken out of the text before the patterns below are tried.
_HARMLESS = re.compile(
    r"burn(?:ing|ed|t)?[- ]?(?:in\b|test|(?:a |some |4k |my |the )*(?:discs?|dvds?|cds?|blu-?rays?|isos?|images?"
    r"|question))"
    r"|like (?:\w+ ){0,2}(?:spilled|spilt|poured|put|threw) \w+"
    r"|(?:will|would|can|could) (?:i|it|this|that|you) (?:go|get|make me|become) deaf"
    r"|smoke test|no smoke|smoke[sd]? (?:the competition|detector)|vaporwave"
    r"|ring(?:ing|s)?(?: the)? bell|rings? on (?:the|a|its) plug|liquid (?:crystal|cool\w*|metal)|water[- "
    r"]?(?:cool\w*|proof)(?![^.!?]{0,25}\bleak)"
    r"|sparks? (?:my |an? |your |some )?(?:interest|idea|joy|curiosity|discussion)|pain in the (?:neck|ass|butt)"
    r"|painful(?:ly)? slow"
    r"|pain(?:s|ful)? to (?:set|install|use|configure)|click(?:ing|s|ed)? (?:on|the (?:button|mouse|link)|through)"
    r"|mouse click\w*|(?:key|mouse|switch)\w* (?:that |is |are )?click\w*|delet\w+ (?:the |my |all |old |any "
    r")*(?:driver|drivers|browser|history|cache|temp|account|partition table of)"
    r"|(?:old |your |the )?drivers? (?:was |were |is )?deleted|shock(?:ed|ing)?(?:ly)? (?:at|by|how|to (?:see"
    r"|hear)|bad|good|price)"
    r"|crypto burn|burn(?:ing|t)? (?:through|money|out)|smok(?:e|ing) (?:hot|fast)"
)

_PATTERNS: tuple[tuple[str, str], ...] = (
    ("smoke", (r"\bsmok(?:e|es|ed|ing|y)\b|\bburn(?:ing|t|ed|s)? (?:\w+ ){0,2}(?:smell|odou?r|plastic|cable|wire"
              r"|smelling|stink)")),
    ("smoke", (r"\b(?:smell|smells|smelled|smelt|stink|stinks|stank|stench|reek|reeks)\b[^.!?]{0,30}\b(?:burn\w*"
              r"|plastic|electric\w*|fire|scorched|melt\w*|singed|hot)")),
    ("smoke", (r"\b(?:caught|catch|on) fire\b|\bflames?\b|\bspark(?:s|ed|ing)?\b|\bmelt(?:ed|ing|s)?"
              r"\b|\bscorch\w*|\bcharred\b|\bfizz(?:ed|ing|les?|led)?\b")),
    ("smoke", (r"\b(?:went|goes|made a|with a|loud) (?:\w+ ){0,2}(?:bang|pop)\b|\bexplo(?:ded|des|sion|ding)"
              r"\b|\bblew up\b")),
    ("shock", (r"\btingl\w+|\belectric(?:al)? shock\w*|\b(?:got|get|gets|gave me|gives me|felt|feel) (?:\w+ "
              r"){0,3}(?:shock\w*|zap\w*|jolt\w*)|\b(?:shocks|zaps|zapped|shocked) me"
              r"\b|\bprickl\w+[^.!?]{0,30}\b(?:case|metal|touch)")),
    ("shock", r"\bcase (?:is |feels )?(?:live|under voltage|electrified)\b|\belectrocut\w+"),
    ("liquid", (r"\b(?:spilled|spilt|spill|poured|dropped|knocked|dripped|leak(?:ed|s"
               r"|ing)?)\b[^.!?]{0,40}\b(?:water|coffee|tea|cola|coke|beer|juice|wine|milk|drink|liquid|soda"
               r"|coolant|soup)\b")),
    ("liquid", (r"\b(?:water|coffee|tea|cola|beer|juice|wine|milk|drink|liquid|coolant"
               r"|soda)\b[^.!?]{0,30}\b(?:spilled|spilt|leak\w*|into|inside|over|got in|ran|dripp\w*|all over) "
               r"(?:the |my |it|keyboard|laptop|pc|board|card)")),
    ("liquid", r"\b(?:loop|cooler|cooling|radiator|tube)\b[^.!?]{0,25}\bleak\w*"),
    ("battery", (r"\bbatter(?:y|ies)\b[^.!?]{0,40}\b(?:swollen|swell\w*|bulg\w*|bloated|puff\w*|expand\w*|blown "
                r"up|thick|bent)|\b(?:swollen|bulging|bloated|puffed|puffy|expanding)\b[^.!?]{0,30}\bbatter")),
    ("battery", (r"\b(?:trackpad|touchpad|back|bottom|lid)\b[^.!?]{0,30}\b(?:pushed up|lifted"
                r"|bulg\w*)[^.!?]{0,30}\bbatter")),
    ("supply", (r"\b(?:open|opened|opening|unscrew\w*|took apart|take apart|dismantl\w*|inside|into|repair|fix"
               r"|solder\w*)\b[^.!?]{0,25}\b(?:power supply|power supplies|psu)\b|\b(?:power supply"
               r"|psu)\b[^.!?]{0,25}\b(?:opened|open|lid off|apart|cover off|capacitor)")),
    ("files", (r"\b(?:click(?:s|ing)?|grind(?:s|ing)?|scrap(?:es|ing)|ticking|knocking"
              r"|beeping)\b[^.!?]{0,30}\b(?:disk|drive|hdd|hard ?disk|hard ?drive)\b|\b(?:disk|drive|hdd|hard "
              r"?disk|hard ?drive)\b[^.!?]{0,30}\b(?:click(?:s|ing)?|grind(?:s|ing)?|scrap(?:es|ing)|ticking"
              r"|knocking)\b")),
    ("files", (r"\b(?:deleted|erased|formatted|wiped|overwr\w+|lost|gone|recover|get back|disappeared"
              r"|vanished)\b[^.!?]{0,35}\b(?:files?|photos?|pictures|documents?|videos?|folders?|thesis|data"
              r"|partitions?|wrong (?:disk|drive|partition))\b")),
    ("files", (r"\b(?:files?|photos?|pictures|documents?|folders?|thesis|data"
              r"|partitions?)\b[^.!?]{0,25}\b(?:deleted|erased|formatted|wiped|lost|gone|disappeared|vanished)\b")),
    ("files", r"\bformatted (?:the |my )?(?:wrong|backup|external|old|usb)\b"),
    ("hearing", (r"\b(?:ears?|hearing|head)\b[^.!?]{0,30}\b(?:ring\w*|hurt\w*|pain\w*|ach(?:e|es|ing)|bleed\w*"
                r"|whistl\w*|deaf|muffled|numb|beep\w*|gone|lost|buzz\w*)\b")),
    ("hearing", (r"\b(?:ringing|pain|hurts?|whistling|tinnitus|ache|deaf\w*|beeping)\b[^.!?]{0,25}\b(?:ears?"
                r"|hearing)\b|\btinnitus\b|\bdeaf\b|\bear ?ache\b")),
    ("hearing", (r"\b(?:can'?t|cannot|can not|don'?t|barely|hardly|stopped) hear(?:ing)?\b[^.!?]{0,40}\b(?:one"
                r"|left|right|my|either|that) ear\b|\b(?:lost|losing|loss of) (?:my |the )?hearing\b")),
)  # fmt: skip
_COMPILED = tuple((kind, re.compile(pattern)) for kind, pattern in _PATTERNS)


def dangers(text: str) -> list[Danger]:
    """
    The dangers a text tells of, each kind once, in the order of their gravity.

    Args:
        text: As typed. [text]

    Returns:
        Dangers; none where the text tells of none. [list]

    Source:
        Common practice, no source: power off before all else, no writing to a disk whose files are lost. Sudden loss of
        hearing as an emergency: from memory of clinical guidance; not looked up again.

    Example:
        >>> [danger.kind for danger in dangers("there is smoke coming out of the back")], dangers("burning a 4K disc")
        (['smoke'], [])
    """
    small = _HARMLESS.sub(lambda match: " " * len(match.group()), plain(text))
    by_kind: dict[str, Danger] = {}
    for kind, pattern in _COMPILED:
        if kind not in by_kind and (match := pattern.search(small)):
            by_kind[kind] = Danger(kind, _SENTENCES[kind], text[match.start() : match.end()])
    return [by_kind[kind] for kind in _SENTENCES if kind in by_kind]
