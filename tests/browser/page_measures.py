"""What is measured on a page of the site, in the browser's own terms, and what a page's first screen must hold to."""

from __future__ import annotations

from typing import Any

WIDTH, SCREEN = 390, 844
IN_APP = 664  # what an application's own browser leaves of such a screen
SCREENS, SCREENS_OF_A_PLAN = 9, 11
FIRST_SCREEN = """() => {
    const top = (e) => e ? Math.round(e.getBoundingClientRect().top + scrollY) : null;
    const bottom = (e) => e ? Math.round(e.getBoundingClientRect().bottom + scrollY) : null;
    const find = (s) => document.querySelector(s);
    const headline = find('.wa-headline');
    const strip = find('.wa-glance:not([hidden])');
    return {
        height: document.documentElement.scrollHeight,
        width: document.documentElement.scrollWidth,
        headlineTop: top(headline),
        headlineLine: headline ? parseFloat(getComputedStyle(headline).lineHeight) : 0,
        headline: bottom(headline),
        verdict: bottom(find('.wa-verdict')),
        caution: bottom(find('.wa-gravest')),
        doubt: bottom(find('.wa-doubt > button:last-of-type')),
        action: top(find('.wa-part-do li, .wa-part-do > p, .wa-plan .wa-step')),
        ifNot: top(find('.wa-part-if-not')),
        plan: find('.wa-plan .wa-tick') !== null,
        strip: strip !== null,
        shortAnswer: (find('.wa-short-answer')?.textContent ?? '').trim().split(/\\s+/).length,
        headlineWords: (headline?.textContent ?? '').trim().split(/\\s+/).length,
        reasonWords: [...(find('.wa-verdict')?.childNodes ?? [])].filter(n => n.nodeName !== 'STRONG')
            .map(n => n.textContent).join(' ').trim().split(/\\s+/).filter(Boolean).length,
    };
}"""
# Words that stick out of the page, of a drawing, or of what holds and cuts them. A box that scrolls shows all of it.
STICKS_OUT = """() => {
    const told = [];
    const page = document.documentElement;
    if (page.scrollWidth > page.clientWidth) told.push(`the page is ${page.scrollWidth} wide`);
    const name = each => `${each.tagName} "${each.textContent.trim().slice(0, 30)}"`;
    for (const text of document.querySelectorAll('main svg text')) {
        const [own, all] = [text, text.closest('svg')].map(each => each.getBoundingClientRect());
        const inside = own.left >= all.left - 1 && own.right <= all.right + 1 && own.bottom <= all.bottom + 1;
        if (own.width && !inside) told.push(`${name(text)} leaves its drawing`);
    }
    const words = 'p, li, dt, dd, button, summary, label, h1, h2, h3, a, th, td';
    for (const each of document.querySelectorAll(`main :is(${words})`)) {
        const { left, right, width } = each.getBoundingClientRect();
        if (!width || each.closest('svg, .wa-silent, .wa-table, .wa-picture-box, .wa-moving, pre')) continue;
        if (getComputedStyle(each).clipPath !== 'none') continue;
        if (right > page.clientWidth + 1 || left < -1) told.push(`${name(each)} from ${left} to ${right}`);
    }
    return told;
}"""
CUT_OFF = """() => [...document.querySelectorAll('main .wa-field input[type=text]')]
    .filter(each => each.clientWidth && each.value && each.scrollWidth > each.clientWidth + 1)
    .map(each => `${each.name}: ${each.value} needs ${each.scrollWidth} px of ${each.clientWidth}`)"""
# Calculators that a reader cannot use.
ASLEEP = """() => [...document.querySelectorAll('section.wa-calculator')].filter(each => {
    const copy = [...each.querySelectorAll('button')].find(button => button.textContent.trim() === 'Copy link');
    const shown = copy?.checkVisibility({ visibilityProperty: true }) && copy.getClientRects().length;
    return !each.querySelector('fieldset.wa-inputs:enabled') || !shown;
}).map(each => each.dataset.calculator)"""
OPEN_ALL = """() => {
    window.opened = [...document.querySelectorAll('main details:not([open])')];
    window.opened.forEach(each => each.open = true);
}"""
CLOSE_AGAIN = "() => window.opened.forEach(each => each.open = false)"


def faults(path: str, seen: dict[str, Any]) -> list[str]:
    """What a page's measures do not hold to."""
    most = (SCREENS_OF_A_PLAN if seen["plan"] else SCREENS) * SCREEN
    told = []
    if seen["height"] > most:
        told.append(f"{seen['height'] / SCREEN:.1f} screens long, at most {most / SCREEN:.0f}")
    if seen["width"] > WIDTH:
        told.append(f"{seen['width']} px wide")
    if seen["headline"] is not None:
        if seen["headline"] > SCREEN or seen["strip"]:
            told.append(f"the headline ends at {seen['headline']}")
        if seen["doubt"] is None or seen["doubt"] - seen["headline"] > SCREEN:
            told.append(f"'this is wrong' ends at {seen['doubt']}")
        if (seen["caution"] or 0) > SCREEN:
            told.append(f"the caution ends at {seen['caution']}")
        first_line = seen["headlineTop"] + seen["headlineLine"]
        if first_line > IN_APP:
            told.append(f"the headline's first line ends at {first_line:.0f} of {IN_APP}")
        if seen["headlineWords"] > 25:
            told.append(f"a headline of {seen['headlineWords']} words")
        if seen["reasonWords"] > 15:
            told.append(f"a verdict's reason of {seen['reasonWords']} words")
    if seen["action"] is None or seen["action"] > 2 * SCREEN:
        told.append(f"the first action begins at {seen['action']}")
    if seen["shortAnswer"] > 40:
        told.append(f"a short answer of {seen['shortAnswer']} words")
    return [f"{path}: {each}" for each in told]
