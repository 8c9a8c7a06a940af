"""The one kind of error that people see from the commands: a sentence that says what to do."""


class Trouble(RuntimeError):
    """
    The work cannot go on for a reason that the person at the keyboard can mend.

    Its text is one line: what is wrong, and what to do. The commands print it and nothing else.
    """


class PassingTrouble(Trouble):
    """
    Something outside the work has stopped it: a full disk, no memory left, a program that was ended from elsewhere.

    The next try may succeed, so nothing may be concluded from it, and nothing kept.
    """
