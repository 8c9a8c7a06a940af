"""Texts for injection tests: each closes the markup that may stand around it (an end), then runs or loads something."""

from __future__ import annotations

# What may stand around a text, ended too early.
ENDS = (
    "", '"', "'", ">", '">', "'>", "</title>", "</script>", "</style>", "</textarea>", "-->", "]]>", "</article>",
    "</a></li></ul>", "</text></svg>", "\\", "`", "\u2028",
)  # fmt: skip

# What would run, load, lead away or change the page if it were taken for markup. Each names `ran`, or `far.example`.
DEEDS = (
    "<script>ran()</script>",
    "<SCRIPT SRC=//far.example/a.js></SCRIPT>",
    "<img src=x onerror=ran()>",
    "<svg/onload=ran()>",
    "<iframe srcdoc='<script>ran()</script>'>",
    '<a href="javascript:ran()">here</a>',
    "[here](javascript:ran())",
    "![x](https://far.example/a.png)",
    'x" autofocus onfocus="ran()',
    "<base href=//far.example/>",
    '<meta http-equiv=refresh content="0;url=//far.example">',
    "<style>@import '//far.example/a.css'</style>",
    '<form action="//far.example"><button>go</button></form>',
    '<article class="md-content__inner md-typeset"><b onclick=ran()>',
    "{{ ran() }}{% raw %}",
)

# Some that need no end, and some that are only odd.
ALONE = (
    "&lt;script&gt;ran()&lt;/script&gt;", "&#60;script&#62;ran()&#60;/script&#62;", "<!--<script>ran()",
    "<![CDATA[<b>]]>",
    "\u202eran()\u202c", "${ran()}", "<b", "&", "&amp", "<?php ran() ?>", "%3Cscript%3Eran()%3C/script%3E",
    "a <b onmouseover=ran()>b</b> c", "0:00 ran", "//far.example", "javascript:ran()",
    "data:text/html,<script>ran()</script>",
    "*ran*", "<ran-element>", "…</title\t><script\t>ran()</script\t>",
)  # fmt: skip

TEXTS = tuple(f"{end}{deed}" for end in ENDS for deed in DEEDS) + ALONE
