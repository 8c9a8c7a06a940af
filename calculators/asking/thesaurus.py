"""
Words of one field: what people say who mean nearly the same. A list to be read and mended; knows no page.

Two words of a field need not mean the same (that is `words.py`): a text that holds one is a little nearer to a page
that holds another.
"""

from __future__ import annotations

import re
from functools import lru_cache

from calculators.asking.words import plain, root

# Common practice, no source: how viewers speak.
_FIELDS = {
    "sticks": (
        "stick memory ram module kit pair bar dimm sodimm capacity soldered slots slot modules dual channel "
        "kits sets bank banks gigabytes matched density chips article"
    ),
    "kitnumbers": (
        "timing timings cas cl latency nanoseconds ns subtimings tighter looser primary label sticker "
        "numbers digits figures stand meaning volts volt clock third read decode spec specs specification "
        "loose cheaper c14 c16 c18 c28 c30 c32 c36 c40"
    ),
    "rated": (
        "rated sold advertised packaging profile advertises rating labelled sticker ordered paid promised "
        "specs supposed nominal carton listing shop seller product profiles jedec"
    ),
    "reads": (
        "lists reads reports displays task manager properties monitor tool listed claims states reading "
        "reported info information utility tab overview details bootscreen dashboard firmware bios"
    ),
    "slower": (
        "slower slow drops lower reduced throttled falls downclocked limits crawl crawls sluggish half "
        "default fallback stock stays refuses downgrade frequency rate running"
    ),
    "enough": (
        "enough plenty sufficient suffice upgrade jump overkill waste feel benefit notice necessary short "
        "starved future useful invest pay minimum recommended comfortable swap swapping paging outgrow"
    ),
    "many": (
        "tabs browser programs retouching virtual machines multitasking vm containers development compiling apps "
        "multitask streaming recording chat background emulator web developer"
    ),
    "nostart": (
        "boot start post beeps beep bootloop loops restarts powers freeze crash bluescreen errors unstable "
        "lamp led code jumper cmos reset beeping blinking reboot reboots stuck hangs stuttering fail fails "
        "failed dead standby cycles cycling training diagnostic test tests tested pass passes "
        "addresses warranty bad faulty stable"
    ),
    "mixing": (
        "mix mixing mixed combine beside alongside add adding compatible match matching pairs different "
        "harm run brand brands vendor asymmetric flex odd extra additional existing remaining leftover"
    ),
    "four": (
        "four quad populate populated fill filled slots full dimms remaining third fourth two-stick daisy "
        "topology pair kits per channel identical six eight"
    ),
    "driver": (
        "driver drivers software package installer graphicscard card gpu graphics control adapter vendor "
        "update updated version rollback older newer latest"
    ),
    "clean": (
        "clean remove leftovers remains residue wipe purge scratch zero uninstall traces previous fresh "
        "reinstall undo uninstaller revert roll rollback downgrade corrupted broken format reset refresh "
        "completely won't opens incompatible fails aborts errors"
    ),
    "exchange": (
        "swap exchange replace change newer sell sold camp team maker brand gift upgrading upgraded trade "
        "replaced replacing generation vendor pull pulling insert inserting"
    ),
    "othermachine": (
        "friend transplant cloned clone moved secondhand brother's donor rebuild pc hard migrate migrated "
        "migrating transfer transferred board motherboard rebuilt family"
    ),
    "nopicture": (
        "black blank signal picture dead lights fans spin standby sleeping asleep detected undetected chime "
        "boots seated pci"
    ),
    "safe": (
        "safe recovery repair mode f8 advanced startup blind shift undo invisible stick installer hold "
        "press keys key boot entry grub tty ssh nomodeset blindly forced three"
    ),
    "crash": (
        "crash freeze recovered recover timeout stopped responding restarted log event blinks returned hang "
        "notification bubble balloon hangs stutters flicker flickers twice hour logs viewer error tdr "
        "device unexpectedly bluescreen blue overclock undervolt unstable random randomly"
    ),
    "which": (
        "loaded kernel module command active lspci identify runs weak integrated onboard dedicated find "
        "currently render discrete internal dgpu igpu processors hybrid switchable offload "
        "proprietary in-tree"
    ),
    "range": (
        "range limited full black blacks grey crushed levels level contrast washed shadow shadows whites "
        "pale blown dark swallowed blob ramp hair smoky smoke clipped clipping detail details night "
        "unplayable gloomy bleached chalky pitch dull hazy legal rgb low auto automatic setting player"
    ),
    "bits": (
        "bit bits bpc depth banding gradient gradients steps sky posterised billion colours dithering "
        "sunset deep lines bars rings blotches blocky smooth smoother transition background wallpaper "
        "dithers frc photo photos hdr10 stream information recorder"
    ),
    "letters": (
        "text letters fonts font words edges fringes coloured lines thin spreadsheet spreadsheets writing "
        "chewed smear red blue readable chroma subsampling 4:2:2 4:4:4 4:2:0 print rainbow pink green "
        "magenta sharp sharpness edge fuzzy ink tint bleeding bleed halo icons cursor desktop "
        "ycbcr ycbcr444 rgb format formats"
    ),
    "hdr": (
        "hdr dynamic pale washed milky bland dim sdr brightness curtain veil clips shine bright highlights "
        "saturation saturated oled whites strong faded mapping calibration calibrate peak nits slider "
        "wallpaper"
    ),
    "offered": (
        "offered offers lists listed choose chosen dropdown entry option selectable available missing stuck "
        "highest ends pick refuses accept accepts unable won't higher greyed vanished drop-down properties "
        "rates advertised capable supports"
    ),
    "hz": (
        "hz refresh rate 60 120 144 165 170 180 240 360 fast fps rates hertz smooth smoother fluid frames "
        "30 50 75 90 100 280 480 540"
    ),
    "carries": (
        "cable lead carry bandwidth length version certified handle enough push compression dsc resolution "
        "metre fibre passive port drop dropout dropouts flickers sparkles snow purple cuts chained daisy "
        "chain wide ultrawide bargain gbps 18 32 1.4 2.0 2.1 dual link capacity"
    ),
    "between": (
        "adapter dongle converter passive active hub dock vga dvi analogue direction trapezoid cables plug "
        "convert converts electronics dvi-d dvi-i mini micro tablet projector beamer usb-c kvm "
        "scaler one-way bidirectional"
    ),
    "announces": (
        "edid declares declaration announces claims dump save file export read store tells bin binary maker "
        "fake dummy emulator override loaded extract identification identify block copied tool dumped "
        "remote serial"
    ),
    "buzz": (
        "buzz noise hum whine hiss squeal chirp chirping whistle electrical interference crackle beeping "
        "ticking drone noises audible electronic picks pickup radio mosquito frequencies sparks load "
        "trackpad mouse scroll scrolling wireless moving"
    ),
    "listen": (
        "headphones cans earphones earbuds headset ears over-ear in-ear studio sound audio phones earpiece "
        "pair wear wearing over-ears closed iems buds monitors hifi"
    ),
    "front": (
        "front case top tower rear motherboard button header hd audio connector noisy jack lid chassis "
        "ports plug"
    ),
    "heard": (
        "microphone mic speak voice talk talking hear silent mute muted teammates mates transmit transmits "
        "lobby pin recognised recognized detected speaking input combined combo splitter pole ring record "
        "recording recorder team no-one noone hears"
    ),
    "blind": (
        "blind test difference abx honest golden hear prove proof settle bet swears swear snake placebo "
        "imagine imagination fooling audible lossless lossy cd quality mp3 flac bitrate argue argument "
        "flatmate fair method compare comparison distinguish apart statistics trials luck chance expensive "
        "dac converter"
    ),
    "exposure": (
        "hours daily week loud db decibel ears hearing damage ringing stuffed safe harm sensible fatigue "
        "nine five watch warns doctor concert music hear health dose noise factory rest recovery quieter "
        "tinnitus child teenager"
    ),
    "sides": (
        "left sides swapped mirrored reversed opposite channel channels stereo footsteps steps wired round "
        "direction flies moves inverted reverse pan panned image balance crossed cup cups ear ears speaker "
        "speakers rear front centre surround helicopter mono tone"
    ),
    "old": (
        "vintage inherited father grandpa eighties nineties seventies ancient attic pads crumbling restore "
        "uncle aunt mother grandfather mint condition sell 1970s 1980s 1990s 1978 1985 recable pad foam "
        "broadcast engineer refurbish legacy"
    ),
    "plug": (
        "plug jack socket hole adapter pin pole ring rings connector quarter inch thick fat thin tip sleeve "
        "female male extension convert piano mixer guitar interface aux instrument fit fits connectors lead "
        "splitter pins 3-pin 4-pin"
    ),
    "volume": (
        "volume loud quiet barely knob slider amp amplifier ohm impedance weak juice planar sensitive max "
        "high low output level sensitivity loudest maximum percent gain drives classical dac interface "
        "voltage volts milliwatts quieter control turned"
    ),
    "call": (
        "call chat meeting conference talk telephone bluetooth wireless tin muffled quality bad unmute "
        "party mush lobby speaking talking headset a2dp hands-free profile mono mic microphone"
    ),
    "input": (
        "mouse keyboard polling controller click aim shooter reaction delay typing clicks keypress "
        "keystroke keys receiver report dpi hz polled wired wireless dongle sensor latency lag responsive "
        "response sluggish"
    ),
    "films": (
        "film films movie series cinema panning pan credits judder stutter jerk crawl football broadcast "
        "broadcasts sport hops jumps jumpy jerks jerky ticker scroll playback player 23.976 29.97 25 frames "
        "pulldown smooth anime cutscene cutscenes"
    ),
    "lowrange": (
        "flicker brightness pulses flashes vrr range below minimum lower blink adaptive menus menu "
        "loading pulsates pulsating pulsing oled va compensation floor lowest 48"
    ),
    "worth": (
        "visible notice difference step eye human overkill age paying pay sense useful point diminishing "
        "perceive noticeable placebo percent"
    ),
    "smear": (
        "smear ghost trail blur streaks response pixel overdrive motion shadow 1ms millisecond scrolling "
        "double letters boasts ms strobing strobe backlight persistence moving sample hold fuzzy unclear "
        "ghosts"
    ),
    "tear": (
        "tearing tear sync vsync cap limiter adaptive limit variable line 141 138 capped uncapped "
        "tears ripped halves unlimited triple buffering stutter"
    ),
    "two": (
        "second mixed displays monitors dual left dragging window drag primary main side-by-side multiple "
        "three"
    ),
    "otherroom": (
        "room living lounge sofa couch bedroom cellar basement attic upstairs downstairs floor wall study "
        "office garage kitchen walls meters metres television console hobby hall loft children's rooms"
    ),
    "streams": (
        "stream streaming remote network wifi lan play pixel mush blocky stutter packet ping host client "
        "encoder decoder bitrate compressed blurry macroblocks controller handheld tablet mbit"
    ),
    "airnet": (
        "mesh repeater extender powerline router wifi wire drill access point satellite signal electrician "
        "cat6 cat6a cat7 three-pack boxes thick walls house node nodes backhaul hop coax moca cabling"
    ),
    "linkrate": (
        "gigabit mbit mbps 940 950 94 95 100 megabytes throughput download copy nas transfer switch cat "
        "speed file server copying copies broken tcp mtu negotiates autonegotiation 112 110 117 414 "
        "measured overhead slower capacity port router"
    ),
    "late": (
        "late delay behind lag after apart lips mouth sync voice early echo offset tap click later match "
        "doesn't singer mouths speech song earlier milliseconds seconds ahead slow"
    ),
    "longcable": (
        "length run far wall extension optical fibre active booster survive survives metres metre vr "
        "headset repeater hub conduit hdbaset"
    ),
    "loop": (
        "hum drone earth ground loop mains hi-fi connected battery aerial tone outlet outlets share shared "
        "speakers fed grounding isolator transformer antenna satellite laptop charger supply"
    ),
    "decode": (
        "decode decoder codec h264 h265 hevc av1 camera clips footage files playback timeline stutter slide "
        "proxies drone videos video pictures cutting action cam mirrorless 5.4k 6k 8k 4:2:2 10-bit laggy "
        "choppy scrub scrubbing preview"
    ),
    "lanes": (
        "lanes lane x8 x16 x4 pcie slot gen bus riser m.2 half gen3 gen4 gen5 generation board seller loss "
        "performance gt/s m2 third full-length measured peak bandwidth"
    ),
    "diskspeed": (
        "disk ssd hdd drive external sata nvme speed mb/s streams cameras multicam stalls portable cut "
        "directly raw footage throughput megabytes bitrate codec 6k 8k records recording continuous "
        "sustained network"
    ),
    "cores": (
        "cores core threads clock ghz compile compiling simulation physics single parallel processor beat "
        "baking bake lightmaps strong weak weaker stronger single-core multithread compositing compositor "
        "nodes simulate scaling workers"
    ),
    "vram": (
        "vram memory card textures polygons scene render fit closes error errors models hit allocate "
        "allocation buffer geometry hair viewport"
    ),
    "both": (
        "machine modelling sculpting 3d cad cutting editing grading computer wedding weddings films product "
        "visualisation visualisations animation animate architect freelance photography all-round jobs"
    ),
    "keep": (
        "archive backup originals copies copy safety store scratch cache previews project spread distribute "
        "clips exports export disks drives hard structure organise 3-2-1 nas cloud external"
    ),
    "first": (
        "buy money spend budget upgrade gain euro bottleneck weakest priority export exports graphics "
        "processor replace invest years limited"
    ),
    "carry": (
        "laptop notebook portable desktop tower travel workstation mobile carry battery heat throttle fan "
        "studying student stationary decide train trips site client heavy throttles quiet docking"
    ),
}  # fmt: skip


# Turns of phrase whose single words say little: patterns, one a line, a plus where one goes on.
# Common practice, no source: how viewers speak.
_PHRASES = {
    "nostart": r"""
        (?:refus|fail|declin)\w* to (?:come up|start|boot|turn on|post|power)
        (?:does|do|did|will|can|would)(?:n'?t| not) (?:even )?(?:come up|start|boot|turn on|post|power up)
        (?:goes|falls|went) back to (?:default|stock)
        each (?:one|stick|module|pair|kit)? ?(?:alone|on its own|by itself|is (?:fine|ok))
        one (?:alone|at a time)
        (?:either|both) (?:alone|by (?:itself|themselves))
        on their own
        in slot [ab]\d
        errors? (?:in|on|at|after|come)
        (?:memory|ram) test
        gave up
        (?:light|led|lamp)s? (?:is|comes|stays|goes|are) on
        (?:closes|crash\w*|freez\w*|restarts?|bluescreens?|unstable)\b[^.!?]{0,60}\b(?:profile|sticks?|memory
        + |ram|kit)
        (?:profile|sticks?|memory|ram|kit)\b[^.!?]{0,60}\b(?:clos\w+|crash\w*|freez\w*|unstable|errors?)\b
        (?:turns?|switch\w*|powers?) (?:itself )?(?:on and off|off (?:again|after|every))
        every (?:few|\w+) seconds?[^.!?]*off
        no(?:t|thing)? (?:post|boot|start|happens)
        won'?t (?:post|boot|start)
        screen stays (?:dark|black|blank)
    """,
    "mixing": r"""
        (?:two|2) (?:different|unequal|other)
        (?:give|gave|got|found|free)[^.!?]{0,24}\b(?:stick|module|bar|gb)s?
        (?:put|stick|plug|add|use|run)\w* [^.!?]{0,40}\b(?:together|beside|next to|with (?:my|the) (?:old|existing))
        does it matter
        remaining (?:two|four|slots?)
        same (?:size|brand|make) (?:but|with)
        \b[12]r\b[^.!?]{0,30}\b[12]r\b
    """,
    "enough": r"""
        (?:would|does|will|is) (?:doubl|more|twice|a second)\w*
        doubling
        am i short
        too little (?:memory|ram)
        \d ?(?:%|percent) of (?:my |the )?(?:8|12|16|24|32|64) ?(?:gb|gigs?|ram|memory)?
        \bgo (?:for |to |up to )?(?:16|24|32|48|64|96|128)(?: ?(?:gb|gigs?))?\b(?! ?(?:hz|fps|bit|m\b))
        (?:has|have|with|got) (?:only )?(?:4|8|12|16|24|32) ?(?:gb|gigs?)?(?= (?:in|and|now|at|of|total|right)
        + |[.,?!])
        single (?:16|8|32|stick|module)[^.!?]{0,60}\b(?:dual|lose|slower|built)
        (?:\d+ ?(?:gb|gigs?)?|memory|ram|it) (?:is full|fills up|runs out)
        next step\b
        \b(?:is|are|will) \d{1,3} ?(?:gb|gigs?)? (?:of \w+ )?enough
        from \d{1,2} to \d{1,3} ?(?:gb|gigs?)
        \d{1,3} (?:gb|gigs?) (?:over|or|instead of|rather than) \d
    """,
    "rated": r"""
        (?:runs?|running|stays?|stuck|shows?|listed|reads?|says?|reports?|boots?) (?:up )?(?:as|at|only
        + |it)?[^.!?]{0,12}\b(?:1600|1800|2133|2400|2666|2800|3000|3200|4800|5200)\b
        (?:instead of|not) (?:the )?\d{4}\b
        half (?:of )?(?:it|that|the speed)
        which (?:is|one is) (?:correct|right|true)
        (?:is|bought|have) (?:a )?\d{4}\b[^.!?]{0,60}\b(?:tells?|shows?|says?|reports?|claims?
        + |gives?) (?:me )?(?:only )?\d{4}\b
        (?:my|the) \d{4} (?:memory|ram|kit|sticks)
        bought as
        sold as
        says \d{4} on the
    """,
    "kitnumbers": r"""
        \d{4} ?(?:c|cl ?)\d\d\b[^.!?]{0,50}\b\d{4} ?(?:c|cl ?)\d\d\b
        \bcl ?\d\d\b[^.!?]{0,40}\bcl ?\d\d\b
        how many ns
        (?:lower|bigger|higher|smaller) (?:cl|latency|timings|numbers)
        (?:which|what) (?:one )?(?:is|responds|are) (?:the )?(?:quicker|faster|better)[^.!?]*$
        \d\d-\d\d-\d\d\b.{0,40}\d\d-\d\d-\d\d
        \b\d\d-\d\d-\d\d
        \bcl ?\d\d\b
        \d{4} ?c\d\d
    """,
    "four": r"""
        (?:two|2) more of (?:the|those|them)
        other two
        all four
        four (?:modules|in)
        fully populated
        half (?:of )?the slots
        (?:all|every|fill\w*) (?:the )?(?:four|4)\s
        \b(?:four|4) (?:sticks|dimms|modules|bars|slots)
        second slot pair
    """,
    "exchange": r"""
        (?:new|bought|buying|get|getting|newer|another|different) (?:graphics )?(?:card|gpu)\b
        competition
        swapp\w+ (?:my|the) (?:card|gpu)
        (?:replac|upgrad|chang)\w+ (?:my|the|a|an|from|to)[^.!?]{0,24}\b(?:card|gpu)
        (?:other|different|same|another) (?:maker|make|brand|manufacturer|camp|team)
        from \w+ (?:team )?to (?:the )?\w+ team
        (?:going|coming|moving|changing|switching) from (?:an? |my |the )?(?:\w+ )?(?:card|gpu) to
    """,
    "othermachine": r"""
        (?:card|gpu|disk|drive|ssd|windows) (?:of|from|out of) (?:my|a|an|the|his|her) (?:old|other|previous
        + |used|friend|brother|mate|son)\w*
        (?:used|second ?hand|auctioned) (?:graphics )?(?:card|gpu)
        (?:new|other|different) (?:board|mainboard|motherboard|build)\b
        old (?:card|gpu) in(?:to)? (?:the|my|a) new
        (?:took|take|put|moved|pulled)[^.!?]{0,12}\b(?:ssd|disk|drive|windows)\b[^.!?]{0,80}\b(?:in|into
        + |to) (?:my|the|another|a)
        out of (?:my|the|his|her|a|an|another) [^.!?]{0,24}\b(?:pc|computer|machine)
        into (?:my|the|another|a different) (?:pc|computer|machine|build)
    """,
    "nopicture": r"""
        no (?:signal|picture|image|input|display|video)
        (?:screen|monitor|display)s? (?:stays?|is|remains?|goes|went|turns?) (?:black|dark|blank|off|to standby)
        nothing on (?:the|any|my) (?:screen|monitor)
        (?:put|built|install|plug|stuck)\w*[^.!?]{0,30}\b(?:card|gpu)[^.!?]{0,60}\b(?:black|nothing|no )
    """,
    "safe": r"""
        safe (?:mode|start)
        (?:how|where)[^.!?]{0,40}\b(?:without|with no|blind)
        can(?:'?t|not) see
        recovery (?:key|mode|menu)
        black (?:screen )?(?:after|since) (?:the |an |a )?(?:update|login|logo)
        after (?:the )?(?:logo|login)[^.!?]{0,30}\bblack
        text console
        (?:long|bitlocker) key
    """,
    "clean": r"""
        (?:progress|setup|installer|installation|package)\b[^.!?]{0,50}\b(?:stands|stuck|hang|abort|fail|quit
        + |stop|error)\w*
        roll(?:ed|ing)? back
        (?:went|go|going) back (?:two|one|to)
        from (?:scratch|zero)
        leftovers?
        get rid of
        (?:fps|performance|slower) (?:is |are |got )?(?:lower|worse|less|slower)? ?(?:than|after|since)
        (?:won'?t|does not|doesn'?t) open
        since the (?:newest|latest|last|new) (?:driver|update)
        (?:state|way it was) before
        tidy
        before any (?:graphics|driver|software)
    """,
    "crash": r"""
        (?:driver|display|gpu|graphics|card)\b[^.!?]{0,40}\b(?:reset|recovered|restart\w*|stopped|timed? ?out
        + |crash\w*)
        (?:goes|went|turns?) black (?:for|and (?:then )?(?:comes?|back))
        (?:now and (?:then|again)|once (?:an|or)|every (?:few|now))[^.!?]{0,40}\b(?:black|freez\w+|hang\w*)
        (?:comes?|came|coming|come) back
        back again after
        for (?:a|one|two|three|some|\d) seconds?
    """,
    "which": r"""
        (?:which|what) (?:driver|card|gpu|chip|module|one)[^.!?]{0,30}\b(?:run|use|load|render|active|on)\w*
        (?:is|are) (?:really )?(?:in use|being used|loaded|active)
        how to be sure (?:the|that)
        llvmpipe
        software rendering
        open (?:driver|module)
    """,
    "range": r"""
        black(?:s|ness)?\b[^.!?]{0,30}\b(?:gr[ea]y|washed|milky|crushed|clipped|lost|lift\w*|pale|smoky)
        gr[ea]y(?:ish)? blacks?
        (?:full|limited|partial|legal|low|normal) (?:range|rgb|and (?:full|limited|partial|low|normal)|level)
        black level
        lose (?:stars|detail|shadow)
        (?:too|very) dark[^.!?]{0,40}\b(?:record|capture|game|tv)
        can(?:'?t|not) see a thing
        (?:washed|faded|pale|gr[ea]y|crushed|contrast\w*)\b[^.!?]{0,25}\b(?:over|on|via|with|through
        + |by) (?:the )?(?:hdmi|dp|displayport)
    """,
    "bits": r"""
        \b(?:8|10|12|6) ?(?:-)?bits?\b(?! of)
        \bbpc\b
        colou?r depth
        (?:bands|steps|lines|stripes|rings)\b[^.!?]{0,30}\b(?:sky|dark|gradient|background|sunset|fog|blue
        + |wallpaper)
    """,
    "letters": r"""
        4:?4:?4
        4:?2:?2
        4:?2:?0
        (?:small|fine|red|gr[ea]y|coloured) (?:text|print|letters|lines|fonts?|writing)
        (?:text|letters|words|fonts?|icons)\b[^.!?]{0,40}\b(?:edge|fringe|shadow|colou?r|halo|smear|ugly|blurr
        + |rainbow|fuzzy|chewed)\w*
    """,
    "hdr": r"""
        \bhdr\b[^.!?]{0,60}\b(?:gr[ea]y|pale|dull|washed|milk|flat|dim|dark|bland|paper|faded|wrong|off)\w*
        nits
    """,
    "offered": r"""
        (?:no|lost|missing|without) (?:entry|option|choice)
        (?:entry|option|mode)s? (?:disappears?|is gone|are gone|missing|vanish\w*)
        (?:only|just|max\w*) (?:\d{2,3} ?hz|60|30|120|100)\b
        (?:monitor|screen|panel|display|tv) (?:does|is|can|has) (?:a )?\d{3}
        all i get is
        nothing above
        no (?:more|higher) than
        capped at
        (?:only|just) (?:offers?|lists?|shows?|goes to|lets|gets?|up to)
        no(?:t| other| higher) (?:entry|option|offered)
        stuck (?:at|on)
        not (?:in the list|selectable)
        get to (?:pick|choose)
        ends at
        (?:refuse|reject|den)\w* (?:more than|anything above)
        shows up as
    """,
    "carries": r"""
        (?:hdmi|displayport|dp|cable|lead)\b[^.!?]{0,24}\b\d{1,2} ?(?:m|met(?:re|er)s?|ft|feet)\b
        \b\d{1,2} ?(?:m|met(?:re|er)s?|ft|feet)\b[^.!?]{0,16}\b(?:hdmi|displayport|dp|cable|lead)
        (?:picture|screen|image|signal)\b[^.!?]{0,20}\b(?:drops? out|cuts? out|goes off|sparkl\w*|flicker\w*) for?
        (?:will|can|does|do|enough for) [^.!?]{0,40}\b(?:4k|1440p|8k|\d{4}x\d{3,4})
        dock
        daisy
    """,
    "between": r"""
        \b(?:active|passive)\b[^.!?]{0,20}\b(?:one|adapter|cable|dongle|dp|displayport|dvi|hdmi|converter)
        adapter
        dongle
        converter
        (?:only|just) (?:has )?(?:a )?(?:vga|dvi)
        \b(?:displayport|dp|usb-?c|hdmi|dvi|vga)\b(?: (?:out|port|socket))? (?:to|into|onto
        + |->) (?:an? |the )?(?:displayport|dp|usb-?c|hdmi|dvi|vga)\b
        only (?:has |have )?(?:an? )?(?:displayport|dp|usb-?c|hdmi|dvi|vga)\b[^.!?]{0,40}\bonly\b
    """,
    "announces": r"""
        \bedid\b
        (?:descriptor|identification|declar\w+|announce\w*)\b
        what (?:my|the|a) (?:monitor|display|tv|screen) (?:tells|says|claims)
        hex dump
        (?:read|dump|save|copy|export)\w* [^.!?]{0,24}\b(?:from|of) (?:my|the|a) (?:monitor|display|tv|screen
        + |projector)
    """,
    "buzz": r"""
        (?:sound|noise|zzz|buzz|hum|whine|hiss|crackl|squeal)\w*[^.!?]{0,40}\b(?:game|load|mouse|scroll|gpu
        + |charger|fps|sleep|usb)\w*
        (?:mouse|scroll|charger|gpu|load)\w*[^.!?]{0,40}\b(?:noise|buzz|hum|whine|hiss|crackl|squeal|static)\w*
        (?:i|can) hear (?:my|the|it|every)[^.!?]{0,20}\b(?:mouse|pc|computer|disk|gpu|card|screen)
    """,
    "front": r"""
        front (?:jack|socket|panel|port|header|audio|output)
        (?:socket|jack|connection|port|hole)s? (?:on|in|at) (?:the )?(?:front|case|top|tower|lid)
        (?:near|beside|next to) the power button
        (?:rear|back) (?:one|ones|jack|socket|is|are)
        on the back
    """,
    "heard": r"""
        (?:can(?:'?t| not|not)|don'?t|doesn'?t|do not|does not|nobody|no ?one|none|never) (?:\w+ )?hears? me
        hear me
        (?:mic|microphone)\b[^.!?]{0,30}\b(?:not|dead|silent|doesn|won|isn|never|nothing)
        only (?:lets|let) me listen
        (?:one|single) plug
        pink and green
    """,
    "blind": r"""
        really prefer
        how many (?:rounds|trials|times)
        must be (?:correct|right)
        in a blind
        without knowing
        (?:hear|tell) (?:a|any|the) difference
        right out of
        (?:\d+|times) (?:right )?(?:of|out of) \d+
        settle (?:this|it|the)
        just (?:imagin|luck)
    """,
    "exposure": r"""
        \d{2,3} ?db\b[^.!?]{0,30}\b(?:hour|h|day|week|minute)
        (?:hours?|h|minutes?)\b[^.!?]{0,30}\b\d{2,3} ?db\b
        ears? (?:ring|feel|hurt)
        on the safe side
        (?:how|too) loud
        how long (?:can|may|is)
        times? a week
    """,
    "sides": r"""
        (?:rear|front|centre|center|left|right)\b[^.!?]{0,40}\b(?:interchanged|swapped|mixed|reversed|wrong)
        (?:wrong|other) direction
        one (?:ear|side) (?:only|is|dead|quiet)
        (?:other|wrong|opposite) (?:side|ear|channel)
        wrong way round
        (?:swap|mix)\w* (?:the )?(?:sides|ears)
        left\b[^.!?]{0,40}\bright\b
        right\b[^.!?]{0,40}\bleft\b
    """,
    "old": r"""
        (?:old|vintage|inherited|heritage|made (?:in )?19\d\d
        + |from (?:the )?(?:19)?[6-9]0'?s)\b[^.!?]{0,60}\b(?:headphones|cans|phones|pair|ohms?)
        (?:use|keep) or (?:sell|throw|replace)
        (?:sell|keep|throw) (?:it|them|away)
    """,
    "plug": r"""
        \b(?:6[.,]3\d?|3[.,]5|4[.,]4|2[.,]5)(?: ?mm)?\b[^.!?]{0,40}\b(?:plug|jack|socket|adapter|cable|to|connector)
        (?:big|fat|thick|small|thin|wrong) (?:plug|jack|connector|socket|hole)
        (?:plug|jack|connector)\b[^.!?]{0,30}\b(?:fit|go in)
        what can i connect
        \btrrs?\b
        \bxlr\b
        \brca\b
    """,
    "volume": r"""
        (?:too|way|barely|hardly|so) (?:quiet|loud|low|high|weak|audible)
        at a whisper
        (?:first|lowest) (?:notch|step|click)
        (?:volume|slider|knob)\b[^.!?]{0,30}\b(?:max|full|100|up|end|lowest|zero)
        (?:need|buy|want) (?:an? )?amp
        \d{2,3} ?ohms?\b[^.!?]{0,40}\b(?:loud|quiet|drive|enough|amp)
    """,
    "call": r"""
        (?:bluetooth|wireless|headset|headphones|buds|earbuds)\b[^.!?]{0,80}\b(?:call|chat|meeting|lobby|mic
        + |microphone|speak|talk|unmute)\w*
        (?:call|chat|meeting|lobby|mic|microphone)\b[^.!?]{0,60}\b(?:bluetooth|wireless)
        (?:am|old) radio
        tin can
        like a (?:tele)?phone
    """,
    "first": r"""
        most for (?:the|my|your) money
        bang for
        where (?:to|do i|should i) spend
        (?:buy|upgrade|get|replace) first
        first (?:upgrade|purchase)
        which (?:part|component)
        to spend\b
        (?:got|have) \d{2,4} (?:euros? )?(?:left|to spend|and a)
    """,
    "diskspeed": r"""
        (?:ssd|hdd|disk|drive|nvme|nas) (?:be |fast )?enough
        \b(?:is|are|will|would|can) (?:an? |my |the |one )?(?:\w+ )?(?:ssd|hdd|hard disk|drive|nvme|nas)\b(?: \w+){0,2}?
        + \s(?:ok|okay|enough|fine|good|do|keep up|cope|handle)\b
        how fast [^.!?]{0,24}\b(?:ssd|hdd|disk|drive|nvme)
        (?:cameras|angles|streams|layers)\b[^.!?]{0,30}\bat once
    """,
    "films": r"""
        (?:film|movie|series|broadcast|video|programme)s? (?:at|in|with) (?:23|24|25|30)\b
        2[345] (?:frames|fps)
        jump(?:y|s|ing)? (?:on|at) (?:my|the) \d{2,3}
    """,
    "worth": r"""
        night and day
        worth (?:it|the)
        would i (?:see|notice|feel)
        see (?:a|any|the) difference
        can one even see
    """,
    "hz": r"""
        coming from (?:a )?\d{2,3}\b
        step up (?:from|to)
    """,
    "tear": r"""
        (?:rips?|torn|tears?|cut|splits?) (?:apart|in (?:two|half)|across)
        line (?:across|through|in the middle)
        halves do not match
        horizontal (?:cut|line|break)
    """,
    "cores": r"""
        \b(?:slow|fast|quick|weak|strong|slower|faster|quicker|weaker|stronger) (?:ones|cores)
    """,
    "listen": r"""
        on my head
        over my ears
        in my ears
    """,
    "late": r"""
        (?:behind|before|after) (?:the |his |their |its )?(?:picture|video|lips|mouth|image|flash|bang)
    """,
    "linkrate": r"""
        (?:link|connect\w*|negotiat\w*)\b[^.!?]{0,40}\b(?:measur\w*|speed ?test|transfer|copy|get)\b
        \bonly (?:see|get|gets|reach|measure)\w* (?:9[0-9]|9[0-9]{2}|2[34][0-9]{2})\b(?! ?(?:hz|fps|p\b))
        \b9[0-9] (?:mbit|mbps|megabit)
        of (?:1000|a gigabit|1 gbit)
        \b11(?:[.,]\d)? (?:mb|megabytes)
    """,
    "two": r"""
        \bone \d{2,3} ?(?:hz)?[^.!?]{0,12} and (?:one|an?) \d{2,3}
        side by side
        (?:second|left|right|small|other|main) (?:screen|monitor|display)
        from one (?:screen|monitor|display)? ?to the other
    """,
    "input": r"""
        \d{3,4} ?hz (?:polling|mouse|keyboard|receiver)
        polling
    """,
    "otherroom": r"""
        (?:other|another|next|different) (?:room|floor)
        one floor (?:up|down)
        on the couch
        pc (?:is |stands )?\d+ ?(?:m|met(?:re|er)s?) away
    """,
    "keep": r"""
        (?:where|what) (?:should|do|does|to) [^.!?]{0,30}\b(?:live|go|goes|put|store|keep)\b
    """,
}  # fmt: skip
_FOR_ONE_PHRASE = 1.0
_FOR_SEVERAL = 1.5
_GOES_ON = re.compile(r"\n\s*\+ ")


@lru_cache(maxsize=1)
def _by_root() -> dict[str, tuple[str, ...]]:
    by_root: dict[str, list[str]] = {}
    for field, words in _FIELDS.items():
        for word in words.split():
            mine = by_root.setdefault(root(word), [])
            if field not in mine:
                mine.append(field)
    return {word: tuple(fields) for word, fields in by_root.items()}


def fields_of(word: str) -> tuple[str, ...]:
    """The fields that a word's root belongs to."""
    return _by_root().get(word, ())


@lru_cache(maxsize=1)
def _phrase_patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    whole = {name: _GOES_ON.sub("", lines).strip() for name, lines in _PHRASES.items()}
    return tuple((name, re.compile(line.strip())) for name, lines in whole.items() for line in lines.split("\n"))


def phrase_fields(text: str) -> dict[str, float]:
    """The fields that a text's turns of phrase speak for, and how strongly."""
    small = plain(text)
    weights: dict[str, float] = {}
    for name, pattern in _phrase_patterns():
        if pattern.search(small):
            weights[name] = _FOR_SEVERAL if name in weights else _FOR_ONE_PHRASE
    return weights
