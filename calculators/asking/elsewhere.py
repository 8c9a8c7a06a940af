"""
Themes that people ask about and that no page answers: they are told so, and are not sent to the nearest page.

A list to be read and mended: a theme whose answer is written one day is taken out.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Theme:
    """title: as it is told. phrases: each a set of words that together tell the theme. weight: how surely they do."""

    title: str
    phrases: tuple[str, ...]
    weight: float = 1.0


# Phrases of the themes below that people also write around a question, out of politeness: where a text says enough
# besides, they do not count.
COURTESIES = frozenset(
    ("love show", "love the show", "love your", "great video", "great episode", "greetings", "thanks for all",
     "your voice", "next episode", "subscribe", "you wear"),
)  # fmt: skip


THEMES = (
    Theme(
        "Printers and scanners",
        (
            "printer", "print page", "scanner", "toner", "cartridge", "ink",
        ),
        1.6,
    ),
    Theme(
        "Batteries of telephones",
        (
            "laptop battery only", "laptop battery last", "battery replace", "battery lasts", "phone battery",
            "battery drain", "drains battery", "battery life", "phone charger", "tablet charger",
            "charger cable chew", "kettle", "toaster", "trips breaker", "doorbell", "phone charge", "tablet charge",
            "watch charge", "charge overnight", "power bank", "charger over night", "battery health",
            "laptop battery hours",
        ),
    ),
    Theme(
        "Which make or model to buy",
        (
            "brand best", "which processor buy", "which cpu buy", "which card should buy", "which ssd buy",
            "recommend", "which brand", "best card for money", "which model buy", "recommend brand",
            "which laptop buy", "best laptop", "which monitor buy", "best gpu budget", "recommend monitor",
            "which card buy", "brand recommend", "best tv", "best budget", "best phone", "best graphics card",
        ),
        1.8,
    ),
    Theme(
        "Activation and accounts",
        (
            "not activated", "activation", "activate windows", "licence key", "product key", "password",
            "account login", "cancel subscription", "newsletter", "two factor", "passkey", "asks for pin",
            "asking for pin", "forgot pin", "unlock pin", "move licence", "windows licence", "software keys",
            "locked out account", "login code",
        ),
        1.6,
    ),
    Theme(
        "Updates of the system that fail",
        (
            "windows update error", "windows update failing", "windows update stuck", "update error code",
            "update fails percent", "update 0 x", "upgrade windows 11",
        ),
        1.4,
    ),
    Theme(
        "A disk that is not found",
        (
            "disk not recognised", "disk not recognized", "drive not recognised", "hard disk explorer",
            "inch disk fit", "inch disk laptop", "inch ssd laptop", "clone disk size", "disk not shown",
            "ssd doesnt explorer", "ssd explorer", "disk detected", "drive detected", "disk recognised",
            "drive letter", "disk partition", "partition",
        ),
        1.6,
    ),
    Theme(
        "Moving a system to another disk",
        (
            "move system ssd", "move windows ssd", "move system disk", "clone ssd", "clone disk", "clone drive",
            "move installation", "system new ssd", "without installing everything",
        ),
        1.4,
    ),
    Theme(
        "How long a disk lives",
        (
            "ssd health", "disk health", "drive health", "tb written", "terabytes written", "tbw", "ssd lifespan",
            "disk lifespan", "drive wear", "ssd wear", "ssd live", "disk live",
        ),
        1.6,
    ),
    Theme(
        "Dust, paste and cleaning",
        (
            "dust", "vacuum cleaner", "thermal paste", "clean fan", "compressed air",
        ),
        1.6,
    ),
    Theme(
        "Cooling",
        (
            "fan scream", "fan loud", "pc loud", "fan noise", "fans loud", "processor degree", "degrees shuts down",
            "shuts down gaming", "overheat", "temperature processor", "hot gaming", "cooler", "cpu temps",
            "case fan", "processor hot", "water cooling", "new paste", "paste", "degrees games", "degrees cpu",
            "fan curve", "airflow",
        ),
        1.2,
    ),
    Theme(
        "Power supplies",
        (
            "power supply watt", "w enough", "is it psu",
            "turns off games", "just turns off", "power supply enough", "watts enough",
            "psu enough",
            "power supply size", "power supply fan", "power supply noise", "psu fan", "watt supply",
            "which psu", "psu size", "psu wattage", "new psu", "replace psu",
        ),
        1.6,
    ),
    Theme(
        "The line to the internet",
        (
            "router drops internet", "internet provider", "internet slow evening", "connection internet",
            "loses internet", "internet evening", "wifi slow phone", "ghz not shown", "internet drops",
            "router restart", "internet disconnect", "provider", "internet slow", "internet fast",
            "internet slower",
        ),
        1.3,
    ),
    Theme(
        "Mail and browsers",
        (
            "email", "browser history", "spam", "browser bookmark", "ad blocker", "block ads", "banking app",
            "online banking", "app crashes login",
        ),
        1.6,
    ),
    Theme(
        "Keyboards, chairs, cameras",
        (
            "webcam", "keyboard types", "key stuck", "mechanical keyboard", "keyboard recommend",
            "mouse double click", "space bar", "key sticks", "pointer jump", "mouse jump", "cursor jump", "chair",
            "desk chair", "mouse pad", "keyboard key broken", "broken key", "keyboard letters", "keyboard layout",
            "mechanical keyboard quiet", "switches quiet keyboard", "mouse pair", "keyboard pair", "standing desk",
            "wrist rest", "desk lamp", "monitor arm", "camera upside down",
        ),
        1.4,
    ),
    Theme(
        "The programme itself",
        (
            "love show", "love the show", "love your", "great video", "your voice", "greetings", "next episode",
            "subscribe", "what do you use", "thanks for all", "intro song", "intro music", "intro game",
            "intro play", "music in intro", "your camera cost", "do you sell", "you wear", "your shirt", "t shirt",
            "merch", "great episode", "your studio", "review phone", "sponsor",
        ),
        1.4,
    ),
    Theme(
        "Leaving a machine plugged in",
        (
            "plugged in all the time", "leave plugged in", "charge to 80",
        ),
        1.4,
    ),
    Theme(
        "Things that are broken or worn",
        (
            "leather peel", "hinge broken", "broken hinge", "cracked screen", "screen cracked", "dead pixel",
            "pixel dead", "coffee stain", "scratch screen", "sticky key", "loose screw", "case panel bent",
        ),
        1.4,
    ),
    Theme(
        "Files, mails and programs",
        (
            "deleted photo", "recover photo", "deleted file", "recover file", "startup program",
            "desktop background", "spreadsheet formula", "text document", "pdf", "font install", "photos sort",
            "calendar", "office program licence", "file extension", "zip file", "rename files", "desktop icons",
        ),
        1.3,
    ),
    Theme(
        "Sleep",
        (
            "wont sleep", "not sleep", "sleep mode",
        ),
        1.8,
    ),
    Theme(
        "Coins",
        (
            "mining", "coins", "crypto",
        ),
        1.5,
    ),
    Theme(
        "Printing in three dimensions",
        (
            "3 d printer", "filament",
        ),
        1.6,
    ),
    Theme(
        "Viruses",
        (
            "virus", "infected", "pop up telephone", "scam call", "scam mail", "scam message", "phishing",
            "suspicious link", "firewall", "malware", "hacked", "ransomware", "antivirus",
        ),
        1.4,
    ),
    Theme(
        "Telephones",
        (
            "phone listen", "phone contacts", "phone car", "phone connects car", "phone cracked", "phone case",
            "phone photos", "smart watch", "smartwatch", "phone storage", "phone screen broken", "phone slow",
            "sim card", "phone update",
        ),
        1.2,
    ),
)  # fmt: skip
