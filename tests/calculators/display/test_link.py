"""display.link: what it says in words beside its numbers."""

from calculators.catalogue import find

LINK = find("display.link")


def run(**inputs):
    return LINK.run(inputs).answer


def test_the_verdict_answers_in_words_and_says_how_narrow_an_edge_is():
    edge = run(refresh=120, blanking="cvt-rb2", link="dp-hbr3").verdict
    assert edge.said() == "Only just, if at all."
    assert "fits by less than half a percent" in edge.reason  # 25.82 of 25.92 Gb/s
    assert run(refresh=60, link="dp-hbr3").verdict.said() == "It fits."
    assert run(refresh=240, link="dp-hbr3").verdict.said() == "It does not fit."


def test_compression_that_lowers_the_payload_is_explained():
    titles = [n.title for n in run(refresh=240, depth=10, link="dp-hbr3", compressed="yes").notes]
    assert "Why 25.3 Gb/s here and 25.92 Gb/s elsewhere" in titles
    titles = [n.title for n in run(refresh=240, depth=10, link="dp-uhbr10", compressed="yes").notes]
    assert not any(t.startswith("Why ") and "elsewhere" in t for t in titles)
