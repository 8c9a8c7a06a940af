"""
Runs inside the browser's runtime while the site is built: writes down what calculators are asked, to `/questions`.

What no question here reaches is cut from the machine code that a reader gets. So every common case is asked for in
every form and as every card, and every input by chance, with something wrong in one of eight; texts are also asked for
in scripts and lengths that nobody foresaw. `/random_inputs.py` lies beside this file; the seed is the build's own.
`/calculators.whl` has the calculators' byte code, `/source.whl` their source.
"""

from __future__ import annotations

import builtins
import json
import re
import sys
import types
import zipfile
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from calculators.desk.calculator import Calculator

sys.path[:0] = ["/calculators.whl", "/"]

from calculators.catalogue import find, names  # noqa: E402  # from there

SEED = 8191  # the tests have others
BY_CHANCE = 40  # a calculator
EVERY = 3  # of the strange texts, so many calculators later the same comes again
A_PASTED_TEXT = 80  # characters; what is longer nobody types
FORMS = "html,text,json,link"
A_CODE = ["101", "010", "111"]
CARDS = (
    {"question": "How fast is it?", "address": "https://example.org/a/", "code": A_CODE},
    {"shape": "upright", "background": "dark"},
    {"background": "none", "font_css": "@font-face{}"},
)
# Latin, Greek, Cyrillic, Arabic, Devanagari, Han, beyond the first plane, joined, turned about, not to be drawn.
STRANGE = (
    "é", "ß", "Ω", "Ж", "ع", "क", "測", "𝟛", "👩‍💻", "e\u0301", "\u202e1", "\x01", "\ud800", "٣", "1\u00a0000", "−5",
    "1" * 400, "x" * 5000, "測" * 5000, "1_000", "+7", ".5", "1e5", "1E-400", "0" * 50 + "7", "\r\n\t", "1/3", "5 GHz",
)  # fmt: skip


def otherwise(text: str) -> Iterator[str]:
    """A pasted text as other programs would have given it, or somebody has copied it."""
    yield text.upper()
    yield text.replace("\n", "\r\n")
    yield "\ufeff" + text.replace(" ", "\t")
    yield text[: len(text) // 2]
    yield "\n".join(reversed(text.splitlines()))
    digits = "".join(text.split())
    if set(digits.lower()) <= set("0123456789abcdef") and len(digits) % 2 == 0:
        from base64 import b64encode

        raw = bytes.fromhex(digits)
        yield b64encode(raw).decode()
        rows = [raw[at : at + 16] for at in range(0, len(raw), 16)]
        yield "\n".join(f"{16 * at:08x}  {row.hex(' ')}" for at, row in enumerate(rows))
        yield "\n".join(f"{16 * at:04X}: {row.hex(' ', 2)}  |................|" for at, row in enumerate(rows))
        yield ", ".join(f"0x{byte:02X}" for byte in raw)


def asked(number: int, name: str, calculator: Calculator) -> Iterator[tuple[str, str, str, str]]:
    """Every question about one calculator: its name, the inputs, what is wanted, and the prefix."""
    cases: list[dict[str, Any]] = [{}, *(dict(preset.inputs) for preset in calculator.presets)]
    for at, case in enumerate(cases):
        yield name, json.dumps(case), FORMS, "p-1"
        yield name, json.dumps(case), "card", json.dumps(CARDS[at % len(CARDS)])
    keys = [entry.key for entry in calculator.inputs]
    if not keys:
        return
    from random_inputs import WRONG, random_inputs

    for inputs in random_inputs(calculator, BY_CHANCE, SEED):
        yield name, json.dumps(inputs), FORMS, "p-2"
    for entry in calculator.inputs:
        for at, option in enumerate(getattr(entry, "options", ())):
            yield name, json.dumps({**cases[at % len(cases)], entry.key: option.value}), "html,text", "p-6"
    for case in cases:
        for key, text in case.items():
            for other in otherwise(text) if isinstance(text, str) and len(text) > A_PASTED_TEXT else ():
                yield name, json.dumps({**case, key: other}), FORMS, "p-5"
    for at, wrong in enumerate((*STRANGE, *WRONG)):
        if at % EVERY == number % EVERY:
            yield name, json.dumps({keys[at % len(keys)]: wrong}), "html,text", "p-3"
    for wrong in ("", "?"):
        yield name, json.dumps(dict.fromkeys(keys, wrong)), "html", "p-4"
        yield name, json.dumps(dict.fromkeys(keys, wrong)), "card", "{}"


READER = "asking.reader"  # the reader's bundle (scout.py)
DANGERS = ("there is smoke coming out of my computer", "i deleted my files by mistake", "burning 4K discs all day")


def index_of(known: list[Calculator]) -> dict[str, Any]:
    """An index as build_tools makes it of the answer pages; here each calculator is a page."""
    pages = [
        {
            "page": each.name.replace(".", "/"),
            "title": each.title,
            "question": each.title,
            "subject": each.name.partition(".")[0],
            "words": [entry.label for entry in each.inputs],
            "asked": [preset.label for preset in each.presets],
            "fields": [each.name.partition(".")[0]],
            "short": " ".join(preset.label for preset in each.presets),
            "calculators": [each.name],
        }
        for each in known
    ]
    return {"pages": pages, "decisive": {each.name: [entry.key for entry in each.inputs] for each in known}}


def in_words(calculator: Calculator, inputs: dict[str, Any]) -> str:
    """A case as somebody would type it: its question and, of each input, name and value."""
    said = [calculator.title.lower()]
    for entry in calculator.inputs:
        if entry.key in inputs and not entry.private:
            try:
                said.append(f"{entry.label.lower()} {entry.say(entry.read(inputs[entry.key]))}")
            except ValueError:
                said.append(str(inputs[entry.key]))
    return ", ".join(said)


def orders(known: list[Calculator]) -> Iterator[dict[str, Any]]:
    """What the reader of whole questions is asked: texts, dangers, listings, labels put right, and texts for a form."""
    yield {"text": "", "index": index_of(known)}
    texts = [*DANGERS, *STRANGE]
    for calculator in known:
        cases = [dict(preset.inputs) for preset in calculator.presets]
        texts += [in_words(calculator, case) for case in cases]
        for case in cases:
            page = calculator.name.replace(".", "/")
            yield {"page": page, "calculator": calculator.name, "inputs": {key: str(case[key]) for key in case}}
            for text in case.values():
                if isinstance(text, str) and len(text) > A_PASTED_TEXT:
                    texts.append(text)
                    yield {"form": calculator.name, "text": text}
    kits = (
        "got 2x8 gb ddr4 3200 c16, want to add 2x16 gb 3600",
        "DDR5-6000 CL30-38-38-96 1.35V 2x16GB",
        "2k 144 hdmi 2.0",
    )
    ways = (
        str.upper,
        lambda text: text.replace(" ", "  ").replace(",", " and"),
        lambda text: text[: len(text) * 2 // 3],
    )
    for at, text in enumerate((*kits, *texts)):
        yield {"text": text if at % 2 else ways[at // 2 % len(ways)](text)}
    yield {"text": "x" * 70_000}


questions = [question for at, name in enumerate(names()) for question in asked(at, name, find(name))]
for inputs in ("{", "[]", "null", '"x"', "", "\\", '{"a":' * 400, '{"a": 1e999}', '{"\\ud800": "\\udfff"}'):
    questions += [(name, inputs, wanted, "{") for name in names()[:2] for wanted in ("html", "card")]
questions += [("no.such", "{}", "html", ""), ("", "{}", "", ""), ("測.試", "{}", "card", "{}")]
everything = [find(name) for name in names()]
questions += [(READER, json.dumps({"mark": "m", **order}), "ask", "") for order in orders(everything)]
questions += [(READER, "{", "ask", "")]
with open("/questions", "w", encoding="utf-8") as file:
    json.dump(questions, file)


# What types do stands in tables of functions, which nobody calls by number: two sets may be subtracted in a branch that
# no question here takes. So of the types that calculators work with everything stays that an operator can lead to, and
# of methods and functions those whose name stands in the calculators' source.
NEVER = {"__import__", "breakpoint", "compile", "eval", "exec", "input", "open"}  # no calculator may, or can


def words_of_the_source() -> set[str]:
    """Every name in the calculators' source."""
    with zipfile.ZipFile("/source.whl") as archive:
        source = b"\n".join(archive.read(name) for name in archive.namelist() if name.endswith(".py"))
    return set(re.findall(r"[A-Za-z_]\w*", source.decode()))


words = words_of_the_source()
modules = [module for name, module in sys.modules.items() if name.partition(".")[0] in words | {"builtins"}]


def types_at_work() -> set[type]:
    """The types of C that values of calculators have, and what their operators and loops give."""
    some: list[Any] = [
        None,
        NotImplemented,
        ...,
        True,
        1,
        1.5,
        "a",
        b"a",
        [1],
        (1,),
        {1: 1},
        {1},
        frozenset({1}),
        range(2),
    ]
    some += [slice(1), enumerate([1]), zip([1]), map(str, [1]), filter(None, [1]), reversed([1]), property(), super]
    some += [iter("a"), iter(b"a"), iter([1]), iter((1,)), iter({1: 1}), iter({1}), iter(range(2)), reversed({1: 1})]
    some += [{}.keys(), {}.values(), {}.items(), iter({}.values()), iter({}.items()), reversed(range(2)), "é", "測"]
    some += [
        (each for each in [1]),
        types_at_work,
        len,
        "".join,
        str.join,
        str.__add__,
        re.compile("a"),
        type,
        object(),
    ]
    some += [re.match("a", "a"), re.finditer("a", "a"), vars(str), json, staticmethod(len)]
    some += [10**30, "1".isdigit]
    exceptions = [
        each for each in vars(builtins).values() if isinstance(each, type) and issubclass(each, BaseException)
    ]
    of_modules = [each for module in modules for each in vars(module).values() if isinstance(each, type)]
    return {type(each) for each in some} | {*exceptions, *of_modules, type, object, super}


functions = [
    id(function)
    for module in modules
    for name, function in vars(module).items()
    if isinstance(function, types.BuiltinFunctionType) and name in words - NEVER
]
at_work = types_at_work()
# How a method is called stands in the method itself, not in its type.
functions += [
    id(method) for each in at_work for name, method in vars(each).items() if name in words and callable(method)
]
with open("/at_work", "w", encoding="utf-8") as file:
    json.dump({"types": sorted(map(id, at_work)), "functions": functions, "words": sorted(words)}, file)
