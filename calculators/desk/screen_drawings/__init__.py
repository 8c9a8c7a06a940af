"""
Drawings made for the screen: thick lines, few labels, scaled to the room a card gives them. Knows no subject.

Each function returns a drawing for a width, a height and a size of type, as a card's declaration wants it; what does
not fit in that size gives None. Everything proportional starts at zero and ends at one scale, so that lengths compare.
One colour, mark, is the viewer's own; what it is compared with stays pale; fill-3 is what is not known exactly; and
only what is lost, broken or forbidden has the colour of no.

A drawing builds up as its card does: names, scale and what is compared stand from the first step on, the viewer's own
and what is worked out come with the answer. That is the rule where nothing is said (OWN); `step` of a Row, Pin, Zone
or Beat says otherwise: 0 from the first step on, 1 with the answer, 2 on the step behind. A drawing of one's own does
the same by `with sketch.later():` about what comes with the answer.
"""
