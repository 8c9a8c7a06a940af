"""
Words of one field: what people say who mean nearly the same. A list to be read and mended; knows no page.

Two words of a field need not mean the same (that is `words.py`): a text that holds one is a little nearer to a page that
holds another.
"""

from __future__ import annotations

import re
from functools import lru_cache

from calculators.asking.words import plain, root

# Common practice, no source: how viewers speak.
_FIELDS = {
    "sticks": "stick memory ram module kit pair bar dimm sodimm capacity soldered slots slot modules dual channel",
    "kitnumbers": "timing timings cas cl latency nanoseconds ns subtimings tighter looser primary label sticker",
    "rated": "rated sold advertised box packaging profile advertises rating labelled sticker bought ordered paid",
    "reads": "shows lists reads reports says displays task manager properties monitor tool listed claims states",
    "slower": "slower slow drops lower only reduced throttled falls downclocked limits crawl crawls sluggish",
    "enough": "enough plenty sufficient worth suffice upgrade jump overkill waste feel benefit notice necessary",
    "many": "tabs browser windows office programs photoshop virtual machines multitasking",
    "nostart": "boot start post beeps beep bootloop loops restarts powers freeze crash bluescreen errors unstable black "
               "dark lamp led code jumper cmos reset",
    "mixing": "mix mixing mixed combine together beside alongside add adding compatible match matching pairs different "
              "same both get along harm run",
    "four": "four quad populate populated fill filled all slots full dimms",
    "driver": "driver drivers software package installer graphicscard card gpu",
    "clean": "clean remove leftovers remains residue wipe purge scratch zero uninstall traces previous fresh reinstall",
    "exchange": "swap exchange replace change newer sell sold camp team maker brand give gives gift going",
    "othermachine": "friend transplant cloned clone moved used secondhand brother's donor rebuild build other pc",
    "nopicture": "black dark blank nothing signal picture output dead lights fans spin",
    "safe": "safe recovery repair mode f8 advanced startup menu console blind shift",
    "crash": "crash freeze recovered recover timeout stopped responding restarted log event blinks returned hang "
             "notification bubble balloon",
    "which": "loaded kernel module command active command lspci identify in use runs uses weak integrated onboard dedicated",
    "range": "range limited full black blacks grey crushed levels level contrast washed shadow shadows whites pale blown "
             "dark swallowed blob ramp steps hair",
    "bits": "bit bits bpc depth banding gradient gradients steps sky posterised billion colours dithering sunset",
    "letters": "text letters fonts font words edges fringes coloured lines thin spreadsheet spreadsheets writing chewed "
               "smear red blue readable chroma subsampling 4:2:2 4:4:4 4:2:0",
    "hdr": "hdr dynamic pale washed milky grey bland dim sdr brightness curtain veil",
    "offered": "offered offers lists listed choose chosen dropdown menu entry option selectable available missing limit stuck "
               "highest ends",
    "hz": "hz refresh rate 60 120 144 165 170 180 240 360 fast fps",
    "carries": "cable lead carry bandwidth length version certified handle enough push compression dsc resolution "
               "metre fibre passive port",
    "between": "adapter dongle converter passive active hub dock vga dvi analogue connector direction trapezoid",
    "announces": "edid declares declaration announces claims dump save file export read store tells",
    "buzz": "buzz noise hum whine hiss squeal chirp chirping whistle electrical interference crackle beeping ticking drone",
    "listen": "headphones cans earphones earbuds headset ears over-ear in-ear studio sound audio",
    "front": "front case top panel tower rear back motherboard",
    "heard": "microphone mic speak voice talk talking hear silent mute muted others teammates mates nobody",
    "blind": "blind test difference abx honest golden hear guess prove proof settle bet swears swear snake placebo imagine imagination "
             "fooling audible lossless",
    "exposure": "hours daily week loud db decibel ears hearing damage ringing stuffed safe harm sensible fatigue",
    "sides": "left right side sides swapped mirrored reversed opposite wrong other channel channels stereo footsteps steps "
             "wired way round",
    "old": "old vintage inherited father grandpa eighties nineties seventies ancient attic keep worth pads crumbling restore",
    "plug": "plug jack socket hole adapter pin pole ring rings connector quarter inch big small thick",
    "volume": "volume loud quiet barely knob slider amp amplifier power ohm impedance weak drive juice planar sensitive max",
    "call": "call chat meeting conference talk telephone bluetooth wireless tin muffled quality bad unmute party",
    "input": "mouse keyboard polling controller click aim shooter reaction delay",
    "films": "film films movie series cinema 24 panning pan credits judder stutter jerk crawl video",
    "lowrange": "flicker brightness pulses flashes vrr range below minimum drops lower lfc blink adaptive",
    "worth": "worth visible notice see difference step eye human upgrade overkill age",
    "smear": "smear ghost trail blur streaks response pixel overdrive grey motion shadow 1ms millisecond",
    "tear": "tearing tear sync vsync cap limiter adaptive gsync limit variable line",
    "two": "two second other both side different mixed displays monitors dual",
    "otherroom": "room living lounge sofa couch bedroom cellar basement attic upstairs downstairs floor wall study office "
                 "garage kitchen through",
    "streams": "stream streaming remote network wifi lan game play pixel mush blocky stutter packet ping",
    "airnet": "mesh repeater extender powerline router wifi wire drill access point satellite signal",
    "linkrate": "gigabit mbit mbps 940 950 94 95 100 megabytes throughput download copy nas transfer switch cat cable speed",
    "late": "late delay behind lag after before apart lips mouth sync voice early echo offset",
    "longcable": "long length run far wall extension optical fibre active booster",
    "loop": "hum drone earth ground loop mains amplifier hi-fi stereo connected battery aerial",
    "decode": "decode decoder codec h264 h265 hevc av1 camera clips footage files playback timeline stutter slide proxies",
    "lanes": "lanes lane x8 x16 x4 pcie slot gen bus riser m.2 half",
    "diskspeed": "disk ssd hdd drive external sata nvme usb speed mb/s streams cameras multicam stalls",
    "cores": "cores core threads clock ghz compile compiling simulation physics single parallel processor",
    "vram": "vram video memory card textures polygons scene out render fit",
    "both": "both one machine same modelling sculpting 3d cad cutting editing grading build",
    "keep": "archive backup originals copies copy safety store scratch cache previews lost project where spread",
    "first": "first buy money spend budget upgrade part most gain euro bottleneck best weakest priority",
    "carry": "laptop notebook portable desktop tower travel workstation mobile carry battery heat throttle fan",
}  # fmt: skip


# Turns of phrase whose single words say little. Common practice, no source: how viewers speak.
_TURNS = (
    ("sides", r"(?:other|wrong|opposite) (?:side|ear|channel)|wrong way round|(?:swap|mix)\w* (?:the )?(?:sides|ears)"
              r"|left\b[^.!?]{0,40}\bright\b|right\b[^.!?]{0,40}\bleft\b"),
    ("between", r"\b(?:displayport|dp|usb-?c|hdmi|dvi|vga|thunderbolt)\b(?: (?:out|port|socket))? (?:to|into|onto|->) "
                r"(?:an? |the )?(?:displayport|dp|usb-?c|hdmi|dvi|vga)\b"
                r"|only (?:has |have )?(?:an? )?(?:displayport|dp|usb-?c|hdmi|dvi|vga)\b[^.!?]{0,40}\bonly\b"),
    ("first", r"most for (?:the|my|your) money|bang for|where (?:to|do i|should i) spend|(?:buy|upgrade|get|replace) first"
              r"|first (?:upgrade|purchase)|which (?:part|component)|to spend\b|(?:got|have) \d{2,4} (?:euros? )?(?:left|to spend|and a)"),
    ("range", r"(?:washed|faded|pale|gr[ea]y|crushed|contrast\w*)\b[^.!?]{0,25}\b(?:over|on|via|with|through|by) (?:the )?"
              r"(?:hdmi|dp|displayport)"),
    ("diskspeed", r"(?:ssd|hdd|disk|drive|nvme|nas) (?:be |fast )?enough|how fast [^.!?]{0,24}\b(?:ssd|hdd|disk|drive|nvme)"
                  r"|(?:cameras|angles|streams|layers)\b[^.!?]{0,30}\bat once"),
    ("films", r"(?:film|movie|series|broadcast|video|programme)s? (?:at|in|with) (?:23|24|25|30)\b|2[345] (?:frames|fps)"
              r"|jump(?:y|s|ing)? (?:on|at) (?:my|the) \d{2,3}"),
    ("worth", r"night and day|worth (?:it|the)|would i (?:see|notice|feel)|see (?:a|any|the) difference|can one even see"),
    ("hz", r"coming from (?:a )?\d{2,3}\b|step up (?:from|to)"),
    ("tear", r"(?:rips?|torn|tears?|cut|splits?) (?:apart|in (?:two|half)|across)|line (?:across|through|in the middle)"
             r"|halves do not match|horizontal (?:cut|line|break)"),
    ("cores", r"\b(?:slow|fast|quick|weak|strong|slower|faster|quicker|weaker|stronger) (?:ones|cores)"),
    ("crash", r"(?:comes?|came|coming|come) back|back again after|for (?:a|one|two|three|some|\d) seconds?"),
    ("othermachine", r"out of (?:my|the|his|her|a|an|another) [^.!?]{0,24}\b(?:pc|computer|machine)|into (?:my|the|another|a "
                     r"different) (?:pc|computer|machine|build)"),
    ("exchange", r"(?:other|different|same|another) (?:maker|make|brand|manufacturer|camp|team)"
                 r"|from \w+ (?:team )?to (?:the )?\w+ team"),
    ("four", r"(?:all|every|fill\w*) (?:the )?(?:four|4) |\b(?:four|4) (?:sticks|dimms|modules|bars|slots)|second slot pair"),
    ("kitnumbers", r"\b\d\d-\d\d-\d\d|\bcl ?\d\d\b|\d{4} ?c\d\d"),
    ("enough", r"\b(?:is|are|will) \d{1,3} ?(?:gb|gigs?)? (?:of \w+ )?enough|from \d{1,2} to \d{1,3} ?(?:gb|gigs?)"
               r"|\d{1,3} (?:gb|gigs?) (?:over|or|instead of|rather than) \d"),
    ("blind", r"(?:hear|tell) (?:a|any|the) difference|right out of|(?:\d+|times) (?:right )?(?:of|out of) \d+"
              r"|settle (?:this|it|the)|just (?:imagin|luck)"),
    ("listen", r"on my head|over my ears|in my ears"),
    ("late", r"(?:behind|before|after) (?:the |his |their |its )?(?:picture|video|lips|mouth|image|flash|bang)"),
    ("nostart", r"no(?:t|thing)? (?:post|boot|start|happens)|won'?t (?:post|boot|start)|screen stays (?:dark|black|blank)"),
    ("linkrate", r"\b9[0-9] (?:mbit|mbps|megabit)|of (?:1000|a gigabit|1 gbit)|\b11(?:[.,]\d)? (?:mb|megabytes)"),
    ("otherroom", r"(?:other|another|next|different) (?:room|floor)|one floor (?:up|down)|on the couch|pc (?:is |stands )?\d+ ?(?:m|met(?:re|er)s?) away"),
    ("keep", r"(?:where|what) (?:should|do|does|to) [^.!?]{0,30}\b(?:live|go|goes|put|store|keep)\b"),
    ("offered", r"(?:only|just) (?:offers?|lists?|shows?|goes to|lets|gets?|up to)|no(?:t| other| higher) (?:entry|option|"
                r"offered)|stuck (?:at|on)|not (?:in the list|selectable)"),
)  # fmt: skip
_FOR_A_TURN = 1.5


@lru_cache(maxsize=1)
def _by_root() -> dict[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for field, said in _FIELDS.items():
        for word in said.split():
            mine = found.setdefault(root(word), [])
            if field not in mine:
                mine.append(field)
    return {word: tuple(fields) for word, fields in found.items()}


def fields_of(word: str) -> tuple[str, ...]:
    """The fields that a word's root belongs to."""
    return _by_root().get(word, ())


@lru_cache(maxsize=1)
def _turns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((field, re.compile(said)) for field, said in _TURNS)


def turns_in(text: str) -> dict[str, float]:
    """The fields that a text's turns of phrase speak for, and how strongly."""
    small = plain(text)
    return {field: _FOR_A_TURN for field, said in _turns() if said.search(small)}
