"""
Steps that are the same under every system: hands, cables, files and people. One step a key; no order, no choice.

Written for desktop computers with a card in a slot. Last checked 2026-11-24 against the sources that
reset.py lists; what has no document behind it is common practice.
"""

from __future__ import annotations

from collections.abc import Iterable

from calculators.desk.answer import Step

NOTHING_TO_UNDO = "Nothing changes here, so there is nothing to undo."


def table(steps: Iterable[Step]) -> dict[str, Step]:
    """Steps by their key; a key used twice is a mistake of ours."""
    by_key: dict[str, Step] = {}
    for step in steps:
        if step.key in by_key:
            raise ValueError(f"two steps are called {step.key}")
        by_key[step.key] = step
    return by_key


SHARED = table(
    (
        Step(
            key="data",
            title="Copy what you cannot lose",
            do=(
                "Copy documents, pictures and saved work to a disk that you then unplug, or to another machine.",
                "Open one copied file there to see that it is whole.",
            ),
            why="A driver seldom costs data, a hurried repair sometimes does.",
            see="The copied file opens from the other disk.",
            otherwise="Stop here and get the copy done first; everything else can wait.",
            back="The copy only adds; the originals stay where they are.",
            tags=("gives:backup",),
            minutes=(5, 30),
        ),
        Step(
            key="display",
            title="Check what hangs on the cable",
            do=(
                "Is the display on, and set in its own menu to the input that the cable is in?",
                "Push both ends of the cable in, then try another cable. Leave one display connected.",
            ),
            why="The commonest missing picture is a cable, an input or a socket, and none of them needs a repair.",
            see="A picture, or the display saying which input it is looking at.",
            otherwise="Try the display and its cable on another machine: a dark display there is your answer.",
            back="Nothing changes here: put the cable back where it was.",
            tags=("tries", "moves:cables", "needs:at_machine"),
            minutes=(2, 10),
        ),
        Step(
            key="sockets",
            title="Try the other sockets",
            do=(
                (
                    "The sockets low down, in a row of slots, are the card's; those up beside USB are the "
                    "board's, for the graphics in the processor."
                ),
                (
                    "With one display connected, try each of the card's sockets, then one of the board's; wait "
                    "ten seconds at each."
                ),
            ),
            why="Two graphics chips, two sets of sockets: a display in the wrong set shows nothing, or hangs on the "
            "weaker chip.",
            see="A picture, from one of the card's sockets.",
            otherwise="Only from the board's: answer 'yes' to the question about another output. None at all: go on.",
            back="Nothing changes here: put the cable back where it was.",
            tags=("tries", "moves:cables", "needs:at_machine"),
            minutes=(2, 6),
        ),
        Step(
            key="sockets_laptop",
            title="Try the laptop's own screen and an outside display",
            do=(
                (
                    "A laptop's own screen mostly hangs on the processor's graphics; some of its sockets "
                    "may hang on the second chip. The maker's manual says which."
                ),
                (
                    "Take all displays off and look at its own screen. Then connect one display, at one "
                    "socket after the other, and wait ten seconds at each."
                ),
            ),
            why="It tells which of the two chips still shows a picture, without opening anything.",
            see="A picture on one of them: work with that one.",
            otherwise="None at all: go on.",
            back="Nothing changes here: put the cables back where they were.",
            tags=("tries", "moves:cables", "needs:at_machine"),
            minutes=(2, 6),
        ),
        Step(
            key="cool",
            title="Look for heat, dust and a loose lead, from outside",
            do=(
                (
                    "Nothing is opened. Do the fans turn under load, is an opening hot, covered or full of "
                    "dust? Clear the openings."
                ),
                ("Push in the leads that you reach from outside, let it cool, then do again what crashed."),
            ),
            why="A card that is too hot or short of air stumbles first, and looks like a bad driver.",
            see="It holds now: heat it was, or a lead. Clean it thoroughly, and leave the driver alone.",
            otherwise="It crashes while cool as well: go on.",
            back="Nothing changes here that would have to go back.",
            caution="Fingers and brushes stay out of turning fans.",
            tags=("tries", "moves:cables", "needs:at_machine"),
            minutes=(5, 20),
        ),
        Step(
            key="fits",
            title="See that the card fits",
            do=(
                (
                    "Read in the manuals of card, supply and case: power enough, the leads that the card "
                    "asks for, a free slot, and room for its length?"
                ),
            ),
            why="A card without its power or its room gives no picture, and no driver changes that.",
            see="Every one of the four is answered with yes.",
            otherwise="One is not: stop here, with the old card still in.",
            back=NOTHING_TO_UNDO,
            tags=("tries", "reads", "needs:at_machine"),
            minutes=(5, 15),
        ),
        Step(
            key="logo_again",
            title="Look for the logo once more",
            do=(
                (
                    "You see what goes wrong, or that nothing does, so there is a picture: card, cable and "
                    "display can show one. The logo is merely hidden, by a quick start or by a display that "
                    "wakes slowly."
                ),
                "Answer 'yes' or 'not sure' to the question about the logo; then the plan for your trouble appears.",
            ),
            why="Only a screen that is dark from power-on points away from the driver.",
            see="A plan that begins with what goes wrong.",
            otherwise="The screen really is dark from power-on: answer 'no picture' to what goes wrong.",
            back=NOTHING_TO_UNDO,
            tags=("tries", "reads", "checks:logo"),
            minutes=(1, 3),
        ),
        Step(
            key="photos_keys",
            title="Photograph the firmware's settings",
            do=(
                (
                    "Restart, or start, and right after power-on tap the key that the board's manual names, "
                    "often Del or F2."
                ),
                (
                    "Photograph each page: above all how the disks are attached (the disk mode), secure boot, "
                    "start order, memory. Leave without saving."
                ),
            ),
            why="Should the settings be lost or reset, a system may not start until the disk mode is as it was.",
            see="Pictures that you can read on your telephone.",
            otherwise="No menu: tap earlier and more often. No picture there either: answer 'no' about the logo.",
            back="Nothing changes here, as you leave without saving.",
            tags=("needs:at_machine", "restarts", "takes_picture", "takes_network", "asks_for_key", "gives:photos"),
            minutes=(5, 15),
        ),
        Step(
            key="machine_maker",
            title="See what the machine's own maker offers",
            do=(
                (
                    "On the page of the laptop's maker, find your exact model and its display drivers: one "
                    "for the processor's graphics, and one for the second chip if it has one."
                ),
                (
                    "Take these first, in the order that the maker gives, else the processor's graphics "
                    "first. A package of the chip's maker comes only after that."
                ),
            ),
            why="Both chips share one screen, keys and power saving, and the machine's maker has fitted the drivers "
            "to that; a general package may refuse, or lose some of it.",
            see="Your model, your system's version, and a driver for each chip.",
            otherwise="Nothing for your version: ask the maker before you take another package.",
            back=NOTHING_TO_UNDO,
            tags=("reads", "checks:makers_page", "notes:package"),
            minutes=(5, 15),
        ),
        Step(
            key="borrow",
            title="Get a second device first, if you can",
            do=(
                (
                    "Borrow a computer with a network for an hour, or ask somebody to fetch files and write a "
                    "stick; then answer 'yes' to the question about another device."
                ),
                (
                    "There you can also set a new password for an account of the system maker's service, though "
                    "not for a local one."
                ),
            ),
            why="Without a picture, a password and a second device only the last resort is left, and it can damage "
            "files.",
            see="A device that fetches files, or a password that you know.",
            otherwise="Neither is to be had: go on, slowly.",
            back=NOTHING_TO_UNDO,
            tags=("reads", "asks:second_device"),
            minutes=(5, 15),
        ),
        Step(
            key="old_card",
            title="Put the old card back, as a test",
            do=(
                (
                    "Touch bare metal of the case, and keep touching it now and then. Take the new card out straight, "
                    "and put the old one back on its own leads. No old card? Leave the slot empty and use the board's "
                    "socket, if the processor has graphics."
                ),
            ),
            why="It tells the new card, its leads and the supply from everything else.",
            see="A picture after the next step: the new card, its power or its driver is the cause.",
            otherwise="Dark as before: display, cable, slot or supply. Ask a technician with a spare of each.",
            back="Power off as before, and put the new card back in.",
            caution="Only leads that came with this supply: another's can carry the wrong voltage on the same plug.",
            tags=("needs:at_machine", "needs:power_off", "touches:card", "asks_for_key", "goes_back"),
            minutes=(10, 30),
        ),
        Step(
            key="new_card",
            title="Put the new card in again",
            do=(
                (
                    "Touch bare metal. Old card out, new one in until the latch closes, leads fully home. Is the old "
                    "card all that gives a picture? Leave it in until just before the installation."
                ),
            ),
            why="The driver below is for the new card, and its package refuses if it finds another.",
            see="The latch has closed, no gap shows at the plugs.",
            otherwise="No logo with it: not the driver; answer 'no' about the logo.",
            back="Power off as before, and the old card back.",
            tags=("needs:at_machine", "needs:power_off", "touches:card", "asks_for_key"),
            minutes=(10, 30),
        ),
        Step(
            key="logo",
            title="Watch the first ten seconds",
            do=(
                "Press the power button once, briefly. Wait until the machine is off; give it five minutes.",
                "Switch it on and watch: does the maker's logo or any text come before the system starts?",
            ),
            why="The firmware draws its logo without the system's driver. A logo clears cable, card and display.",
            see="A logo or text, then the picture is lost: that points to the driver, so go on.",
            otherwise="No logo, with one display connected and awake: it is not the driver. Answer 'no' above "
            "and follow the plan for that.",
            back="The machine has merely been restarted.",
            caution="A short press asks the system to shut down. Holding the button cuts it off and can damage files.",
            tags=("needs:at_machine", "restarts", "takes_picture", "takes_network", "asks_for_key", "checks:logo"),
            minutes=(3, 8),
        ),
        Step(
            key="power_off",
            title="Take the power away",
            do=(
                (
                    "Shut the system down; under Windows hold Shift meanwhile, so that it shuts down fully. If there "
                    "is no picture, press the power button once, briefly, and wait."
                ),
                (
                    "Turn the switch of the power supply off, pull the mains lead, then press the power button for ten "
                    "seconds to empty what is left."
                ),
            ),
            why="The slot stays under power while the mains is connected, even when the machine looks off.",
            see="No light on the board, no fan.",
            otherwise="A light still glows: another lead feeds it. Find it, unplug it, wait until the light is out.",
            back="Plug in, switch on, start.",
            caution="Never open the power supply itself; it can hold a dangerous charge.",
            tags=("needs:at_machine", "gives:power_off", "restarts", "takes_picture", "takes_network"),
            minutes=(2, 5),
        ),
        Step(
            key="power_off_both",
            title="Take the power away from both machines",
            do=(
                (
                    "Both machines, the one that the disk comes out of and the one that it goes into: shut the system "
                    "down, under Windows with Shift held, so that it shuts down fully."
                ),
                (
                    "Turn the switch of the power supply off, pull the mains lead, then press the power button for ten "
                    "seconds. A laptop: pull the mains lead, and press only once its battery is off, as its manual "
                    "shows; before that it would start."
                ),
            ),
            why="Board and disk stay under power while mains or battery is connected, even when the machine looks off.",
            see="No light on either board, no fan.",
            otherwise="A light still glows: another lead feeds it. Find it, unplug it, wait until the light is out.",
            back="Battery and mains back, switch on, start.",
            caution="Never open a power supply or a battery; either can hold a dangerous charge.",
            tags=("needs:at_machine", "gives:power_off", "restarts", "takes_picture", "takes_network"),
            minutes=(3, 10),
        ),
        Step(
            key="seat",
            title="Seat the card and its power leads",
            do=(
                (
                    "Touch bare metal of the case, and keep touching it now and then. Open the slot's latch, lift the "
                    "card out straight, look for dust, press it in until the latch closes."
                ),
                "Push every power lead of the card fully home, without a bend close to the plug.",
            ),
            why="A card that hangs a little, or a power lead not fully seated, gives no picture and can overheat.",
            see="The latch has closed, the card sits level, no gap shows at the plugs.",
            otherwise="If latch, slot or plug is damaged, stop and take the machine to a technician.",
            back="The card is where it was.",
            caution="Only leads that came with this supply: another's can carry the wrong voltage on the same plug.",
            tags=("needs:at_machine", "needs:power_off", "touches:card", "asks_for_key"),
            minutes=(5, 15),
        ),
        Step(
            key="without_card",
            title="Start once without the card, if the board has a socket",
            do=(
                "Processor with graphics of its own? Leave the card out and connect the display to the board's socket.",
                "No such socket or processor? Put in a card that is known to work, or skip this step.",
            ),
            why="It tells the card from everything else.",
            see="A logo now: the card, its slot or its power is the cause.",
            otherwise="Still no logo: board, memory, processor or display. The board's manual explains its lamps and "
            "beeps.",
            back="Power off as before, then put the card back.",
            tags=("needs:at_machine", "needs:power_off", "touches:card", "asks_for_key"),
            minutes=(5, 15),
        ),
        Step(
            key="power_on",
            title="Bring the machine back",
            do=(
                "Connect the display to the socket you mean to use, plug in the mains, switch on, start.",
                "Give it a few minutes: a first start with other hardware takes longer.",
            ),
            why="The system must meet the hardware as it now stands.",
            see="The firmware's logo, then a picture, possibly coarse: that is the system's own basic driver.",
            otherwise="No logo: power off again and check seat, leads and cable. Asked for the recovery key: "
            "compare the key number, then type the key.",
            back="Power off as before and put back what was there.",
            tags=("needs:at_machine", "ends:power_off", "asks_for_key"),
            minutes=(3, 10),
        ),
        Step(
            key="swap",
            title="Change the card",
            do=(
                "Touch bare metal of the case, and keep touching it now and then.",
                "Undo screw and latch, lift the old card out straight; press the new one in until the latch closes.",
                "Connect the power leads that the card's maker asks for, each fully home, then the screw.",
            ),
            why="A card changed without power, on its own leads, is a card changed once.",
            see="The latch has closed, the card sits level, no gap shows at the plugs.",
            otherwise="It does not fit, or a lead is missing: put the old card back and read the maker's manual.",
            back="Power off as before, and put the old card back.",
            caution="Only leads that came with this supply: another's can carry the wrong voltage on the same plug.",
            tags=("needs:at_machine", "needs:power_off", "touches:card", "asks_for_key"),
            minutes=(10, 30),
        ),
        Step(
            key="move_disk",
            title="Move the system's disk",
            do=(
                "Touch bare metal of the case, and keep touching it now and then.",
                (
                    "Take the disk out of the old machine and mount it in the other, as both manuals show. "
                    "In a laptop the battery comes off first, as its manual shows; where no manual shows "
                    "it, ask its maker."
                ),
            ),
            why="The system and all its drivers live on this disk.",
            see="The disk sits firmly; the firmware's list of drives shows it.",
            otherwise="Not in the list: check its lead or its screw, and whether that socket shares its lanes. In the "
            "list, but it does not start: compare the disk mode with your photograph of the old machine's.",
            back="Power off as before, and put the disk back.",
            caution="An encrypted disk will almost certainly ask for its recovery key in another machine.",
            tags=("needs:at_machine", "needs:power_off", "touches:disk", "asks_for_key"),
            minutes=(10, 40),
        ),
        Step(
            key="calm",
            title="Take the strain off the card",
            do=(
                "In a tuning program put the card's settings back to their defaults.",
                (
                    "In the firmware's menu put back what is tuned of processor and memory, the rated profile "
                    "included, one by one. Do not reset everything; leave the disk mode alone."
                ),
                "Then do again what crashed.",
            ),
            why="A driver that stops answering is often a card that is too hot, too fast or short of power.",
            see="It holds: one of these it was, and no driver needs to go.",
            otherwise="It still crashes at its defaults: go on.",
            back="Set each one again, as your photographs show it.",
            caution="Settings of the firmware take a restart, after which the disk may ask for its recovery key.",
            tags=("needs:at_machine", "sets:defaults", "restarts", "takes_picture", "takes_network", "asks_for_key"),
            minutes=(10, 60),
        ),
        Step(
            key="ask_admin",
            title="Ask whoever looks after this machine",
            do=(
                "Give them what you noted: which card, which driver, which version, and what goes wrong since when.",
                "Show them this plan with your own answer for administrator set to yes.",
            ),
            why="Drivers run in the heart of the system, so the system lets only an administrator change them.",
            see="An appointment, or the rights for this one job.",
            otherwise="If nobody looks after it, the account that set the machine up is the administrator.",
            back=NOTHING_TO_UNDO,
            tags=("reads",),
            minutes=(5, 15),
        ),
        Step(
            key="ask_there",
            title="Ask somebody who is at the machine",
            do=(
                (
                    "Read to them over the phone: is the display on and set to the right input; is the cable in the "
                    "card's socket and not in the board's; does a logo come in the first ten seconds?"
                ),
                "Everything beyond that needs the mains unplugged, and so hands that know how.",
            ),
            why="Without the firmware's logo the cause is a cable, a socket, a lead or the card; none of them can be "
            "reached from afar.",
            see="An answer to each of the three questions.",
            otherwise="Nobody is there: leave it as it is until somebody is.",
            back=NOTHING_TO_UNDO,
            tags=("tries", "reads"),
            minutes=(5, 15),
        ),
        Step(
            key="check_picture",
            title="Check that the picture is back",
            do=(
                "Does the firmware's logo come at power-on, and the system's picture after it?",
                "If both come, you are done: note which cable, socket or seat it was.",
            ),
            why="Here a cable, a socket or a seat was at fault, so the picture itself is the proof.",
            see="The logo, then the system. A coarse picture is the system's basic driver, and only now is a driver "
            "the question: answer 'yes' about the logo above for its plan.",
            otherwise="No logo even now: the next step says what to report, and to whom.",
            back=NOTHING_TO_UNDO,
            tags=("reads", "checks:logo"),
            minutes=(2, 5),
        ),
        Step(
            key="report",
            title="If it still does not work, report this",
            do=(
                (
                    "The system and its version; the card's maker and its two PCI numbers; the driver's name and "
                    "version before and now."
                ),
                (
                    "What you see and when: from power-on, at sign-in, under load. What changed last. Which step of "
                    "this plan failed, with its message word for word."
                ),
                "To whom: the card maker's support; under Linux the distribution's own bug list.",
                "No keys, no passwords, no serial numbers.",
            ),
            why="With these facts, somebody who was not there can go on where you stopped.",
            see="A text short enough to be read, and a case number back.",
            otherwise="If card or machine is under guarantee, ask the seller; else a technician with a spare card.",
            back=NOTHING_TO_UNDO,
            tags=("reads", "reports"),
            minutes=(5, 20),
        ),
    )
)
