"""The door between page and Python: text in, text out, whatever comes."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators import door
from calculators.catalogue import find
from calculators.desk.as_html import as_html
from calculators.desk.as_json import as_json, dumps
from calculators.desk.as_text import as_text
from calculators.desk.card import frames
from calculators.desk.links import fragment


def ask(name: str, inputs: object, wanted: str = "html", prefix: str = "p") -> dict:
    return json.loads(door.answer(name, json.dumps(inputs), wanted, prefix))


def test_the_door_gives_the_desks_own_renderings():
    result = find("memory.rate").run({"rate": "3600"})
    reply = ask("memory.rate", {"rate": "3600"}, "html,text,json,link")
    assert reply["html"] == as_html(result, "p")
    assert reply["text"] == as_text(result)
    assert dumps(reply["json"]) == dumps(as_json(result))
    assert reply["link"] == fragment(result)
    assert "errors" not in reply


def test_what_the_reader_can_mend_is_an_error_and_what_is_ours_a_fault():
    assert ask("memory.rate", {"rate": "0", "cas": ""})["errors"][1]["input"] == "cas"
    assert "did you mean memory.rate?" in ask("memory.rat", {})["fault"]
    for broken in ("", "[]", "7", "{", '"x"', "nul"):
        assert json.loads(door.answer("memory.rate", broken)) == {"fault": door.FAULT}


@given(st.text(max_size=30), st.text(max_size=60), st.text(max_size=12))
def test_nothing_whatever_comes_through_the_door_as_an_exception(name, inputs, wanted):
    json.loads(door.answer(name, inputs, wanted))
    json.loads(door.card(name, inputs, wanted))


@pytest.mark.parametrize("background", ["light", "dark", "transparent"])
def test_a_card_through_the_door_is_the_desks_own(background):
    code = [[True, False], [False, True]]
    options = {"background": background, "address": "https://answers.example/go/x", "code": code, "question": "Q?"}
    made = frames(
        find("memory.rate").run({}),
        background=background,
        address="https://answers.example/go/x",
        qr=lambda _: code,
        question="Q?",
    )
    reply = json.loads(door.card("memory.rate", "{}", json.dumps(options)))
    assert reply["frames"] == [{"name": f.name, "svg": f.svg} for f in made]


def test_a_card_of_wrong_inputs_or_options_is_told():
    assert json.loads(door.card("memory.rate", '{"rate": 0}'))["errors"][0]["input"] == "rate"
    assert json.loads(door.card("memory.rate", "{}", '{"background": "blue"}')) == {"fault": door.FAULT}
