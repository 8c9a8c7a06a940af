"""
Steps under the system with the drive letters: what to do, why, what to see, and how to go back. One step a key.

Written for version 10 from 2004 on and version 11. Commands: from the system maker's published reference,
pages and dates in tests/check_values/windows_commands.toml; menu paths are from memory. Last checked 2026-11-24.
COUNT in a command, and RESTARTS in a title, are replaced by the number of restarts that the plan asks for.
"""

from __future__ import annotations

from calculators.desk.answer import Step
from calculators.drivers.plans.shared_steps import NOTHING_TO_UNDO, SHARED, table

ADAPTERS = (
    "Get-CimInstance Win32_VideoController | Format-List Name, DriverVersion, DriverDate, InfFilename, PNPDeviceID"
)
PACKAGES = "pnputil /enum-drivers"
CONNECTED = "pnputil /enum-devices /class Display /connected"
BY_ITS_NUMBER = (
    "Give exactly the number of your own package. A star in its place would hit other devices, and the option that "
    "forces a removal can leave a device without any driver: use neither here."
)

WINDOWS = SHARED | table(
    (
        Step(
            key="wake",
            title="Ask the system to restart its picture",
            do=("Press Windows, Ctrl, Shift and B together, once. Wait ten seconds.",),
            why="It tells the display driver to start anew; nothing is installed or removed.",
            see="A beep or a flicker, then a picture.",
            otherwise="No reaction at all: go on.",
            back="Nothing changes here that stays.",
            tags=("tries", "needs:at_machine", "takes_picture"),
            minutes=(1, 2),
        ),
        Step(
            key="look",
            title="See which driver runs now",
            do=(
                "Type these. Note the driver's version and the oem number that stands with your card.",
                "'Which driver does each card run on?' on this site reads the output for you.",
            ),
            commands=(CONNECTED, ADAPTERS),
            why="Without knowing what was there, there is no way back to it.",
            see="One entry for each display adapter, with its driver's file name and version.",
            otherwise="Only a basic adapter in the list: the system has no driver of the maker in use, which is a "
            "finding, not an error.",
            back=NOTHING_TO_UNDO,
            tags=("tries", "needs:console", "reads", "checks:card", "checks:driver", "notes:version"),
            minutes=(2, 5),
        ),
        Step(
            key="events",
            title="See when it began",
            do=(
                "Open the reliability history and look at the first red day.",
                "Then list the last display events. Note date, and what was installed on that day.",
            ),
            commands=(
                "perfmon /rel",
                "Get-WinEvent -FilterHashtable @{LogName='System'; ProviderName='Display'} -MaxEvents 20",
            ),
            why="A driver that began to fail on the day of an update is a different case from a card that fails in "
            "the heat.",
            see="A day on which it started, or events spread over months.",
            otherwise="No display events at all: whatever crashes, it was not a display driver that was restarted.",
            back=NOTHING_TO_UNDO,
            tags=(
                "tries",
                "needs:console",
                "reads",
            ),
            minutes=(3, 10),
        ),
        Step(
            key="settings",
            title="Set the picture right first",
            do=(
                (
                    "Open the display settings. Choose the display at the top, then resolution, scale, and under "
                    "advanced display the refresh rate."
                ),
                "Confirm only what you can read.",
            ),
            commands=("start ms-settings:display",),
            why="A wrong size, rate or colour is more often a setting than a driver.",
            see="The picture as it should be; the display's own menu shows the same resolution and rate.",
            otherwise="The right value is not offered: cable and input decide what is offered. Try another cable, "
            "then go on.",
            back="Wait: a setting that you do not confirm is taken back after a few seconds.",
            tags=("tries", "needs:console", "needs:at_machine", "takes_picture", "sets:display"),
            minutes=(3, 10),
        ),
        Step(
            key="package",
            title="See whether it is the right package",
            do=(
                "Compare the package's page with your system's version and with your card: is it listed?",
                (
                    "Is there room on the disk, and is a restart pending from an update? Restarting waits until the "
                    "plan below asks for it."
                ),
            ),
            commands=("winver",),
            why="Installers refuse what does not fit, and say so badly.",
            see="System, version and card all stand on the package's page.",
            otherwise="One does not: fetch the package that fits, and try that first.",
            back=NOTHING_TO_UNDO,
            tags=(
                "tries",
                "needs:console",
                "reads",
            ),
            minutes=(3, 10),
        ),
        Step(
            key="key",
            title="Find the disk's recovery key, and match its number",
            do=(
                (
                    "The first command tells whether the disk is protected at all; if not, tick the steps about key "
                    "and protection and go on."
                ),
                "The second lists the key's number, in braces under numerical password. Note its first eight signs.",
                (
                    "On another device open the place where your key is kept (account page, printout, your "
                    "organisation) and find the key with the same number. See that you can read it there, away from "
                    "this machine."
                ),
            ),
            commands=("manage-bde -status C:", "manage-bde -protectors -get C:"),
            why="A change of card, firmware or start settings can make the disk ask for this key, and then this "
            "machine cannot show it to you.",
            see="The number on the other device begins as the one you noted.",
            otherwise="No key with this number anywhere: stop. Save a new one first from the system's own settings "
            "for device encryption, then begin again.",
            back=NOTHING_TO_UNDO,
            caution="The second command also prints the key itself. Never film, type or send it; on paper note only "
            "its number.",
            tags=("needs:console", "reads", "needs:admin", "gives:key", "matches:key", "notes:key_number"),
            minutes=(5, 20),
        ),
        Step(
            key="key_away",
            title="Find the disk's recovery key on another device",
            do=(
                "On another device open the place where your key is kept (account page, printout, your organisation).",
                "Pick the keys of this machine by its name and date. Note the first eight signs of each key number.",
                "Should the machine ask for the key, it shows a number: take the key whose number begins the same.",
            ),
            why="The next start may ask for this key, and the machine cannot show it to you.",
            see="At least one key that belongs to this machine, readable away from it.",
            otherwise="None at all: stop here. If the disk is encrypted and the key is lost, so are the files; ask "
            "whoever set the machine up.",
            back=NOTHING_TO_UNDO,
            caution="Never film, type or send the key; on paper note only its number.",
            tags=("reads", "gives:key", "matches:key", "notes:key_number"),
            minutes=(5, 20),
        ),
        Step(
            key="fetch",
            title="Fetch the new driver, and check its seal",
            do=(
                (
                    "From the card maker's own site (for a laptop first the machine maker's), on this "
                    "or another device, fetch the full package for the card that is to run and for your "
                    "system, not a small one that downloads the rest. Copy it to C:\\Driver on this machine."
                ),
                "In that folder check the signature, with the file's own name.",
            ),
            commands=("Get-AuthenticodeSignature C:\\Driver\\PACKAGE.exe | Format-List Status, SignerCertificate",),
            why="Once the old driver is gone, there may be no network to fetch the new one.",
            see="Status: Valid, and the card maker's name as the signer.",
            otherwise="Anything else: delete the file and fetch it again from the maker. Never install it.",
            back="Delete the folder.",
            tags=("needs:console", "gives:driver_file", "notes:package"),
            minutes=(5, 30),
        ),
        Step(
            key="fetch_here",
            title="Fetch the new driver while this machine still has its network",
            do=(
                (
                    "From the card maker's own site (for a laptop first the machine maker's) fetch the "
                    "full package for the card that is to run and for your system, not a small one that "
                    "downloads the rest, into C:\\Driver. A disc or stick that came with the card will do."
                ),
                "In that folder check the signature, with the file's own name.",
            ),
            commands=("Get-AuthenticodeSignature C:\\Driver\\PACKAGE.exe | Format-List Status, SignerCertificate",),
            why="No other device can fetch it later, so it must lie on this disk before anything is taken away.",
            see="Status: Valid, and the card maker's name as the signer.",
            otherwise="No package to be had: stop here; nothing has been removed.",
            back="Delete the folder.",
            tags=("needs:console", "gives:driver_file", "notes:package"),
            minutes=(5, 30),
        ),
        Step(
            key="restore",
            title="Make a restore point, and see that it exists",
            do=(
                "In the administrator's console start the system's own shell, then make the point and list all points.",
            ),
            commands=(
                "powershell",
                'Checkpoint-Computer -Description "Before the driver" -RestorePointType DEVICE_DRIVER_INSTALL',
                "Get-ComputerRestorePoint",
            ),
            why="It holds the drivers and settings of this moment, and can be used from the recovery menu too.",
            see="The list ends with your description and today's date.",
            otherwise='Said to be switched off: Enable-ComputerRestore -Drive "C:\\", then again. Made once within '
            "the last 24 hours: today's earlier point will do, if it stands in the list.",
            back="Use it: rstrui, or in the recovery menu Troubleshoot, Advanced options, System Restore.",
            tags=("needs:console", "needs:admin", "gives:restore_point", "checks:restore_point", "notes:restore_point"),
            minutes=(3, 10),
        ),
        Step(
            key="suspend",
            title="Suspend the disk's protection for RESTARTS",
            do=("Skip this only if nothing is encrypted: manage-bde -status C: tells.",),
            commands=("manage-bde -protectors -disable C: -RebootCount COUNT",),
            why="The plan below starts the system this often; suspended protection does not ask for the key then, and "
            "comes back by itself afterwards. The disk stays encrypted.",
            see="A line saying that the key protectors are disabled.",
            otherwise="Refused: your organisation may forbid it. Then keep the key at hand at every start.",
            back="manage-bde -protectors -enable C:",
            caution="Until it is on again, whoever has the disk can read it.",
            tags=("needs:console", "needs:admin", "gives:suspended"),
            minutes=(1, 2),
        ),
        Step(
            key="roll_back",
            title="If an update began it, go back one version",
            do=(
                (
                    "Open the device list, double-click the adapter under display adapters, and on the driver's page "
                    "choose to roll back. If the button is grey, or no update began it, tick this and go on."
                ),
            ),
            commands=("devmgmt.msc",),
            why="The system keeps the driver that it replaced; this is the shortest way back to it.",
            see="The older version and date on the same page.",
            otherwise="Grey button: no earlier driver is kept. Go on.",
            back="Install the newer package, which is in C:\\Driver.",
            tags=(
                "needs:console",
                "goes_back",
                "needs:admin",
                "needs:at_machine",
                "needs:driver_file",
                "needs:restore_point",
                "installs:driver",
                "takes_picture",
            ),
            minutes=(3, 10),
        ),
        Step(
            key="install",
            title="Install the maker's package",
            do=(
                (
                    "Close everything else. Start the package in C:\\Driver, agree to the administrator's question, "
                    "and let it finish. Answer 'later' if it asks for a restart."
                ),
            ),
            why="The package carries the driver that the card's maker has tested and signed for this card.",
            see="The picture blinks, then sharpens; the package says that it is done.",
            otherwise="It refuses: note its words. If it unpacked its files, the system can take them directly: "
            "pnputil /add-driver C:\\Driver\\*.inf /subdirs /install",
            back="In the device list roll back the driver, or use the restore point.",
            tags=(
                "needs:admin",
                "needs:at_machine",
                "needs:driver_file",
                "needs:restore_point",
                "installs:driver",
                "takes_picture",
            ),
            minutes=(5, 20),
        ),
        Step(
            key="restart",
            title="Restart",
            do=("Save what is open, then restart.",),
            commands=("shutdown /r /t 0",),
            why="Parts of a driver are exchanged only at a start.",
            see="Sign-in at the full resolution of the display.",
            otherwise="Dark after the logo: wait five minutes, then see 'How do I get into safe start when there is no "
            "picture?'. Asked for the key: compare the key number first.",
            back="A restart needs none.",
            tags=("needs:console", "needs:at_machine", "restarts", "takes_picture", "takes_network", "asks_for_key"),
            minutes=(2, 8),
        ),
        Step(
            key="export",
            title="Save the old driver to a folder",
            do=(
                (
                    "List the packages. Among those of class display find your old driver's: the name is oem, a "
                    "number, .inf. Note it, and use it in place of OEM-NUMBER."
                ),
            ),
            commands=(
                PACKAGES,
                "mkdir C:\\OldDriver",
                "pnputil /export-driver OEM-NUMBER.inf C:\\OldDriver",
            ),
            why="With this folder the old driver can be put back, whatever comes.",
            see="The words that the package was exported, and files in the folder.",
            otherwise="Not exported: do not remove it. Read the number again.",
            back="pnputil /add-driver C:\\OldDriver\\*.inf /subdirs /install puts the old driver back.",
            tags=("needs:console", "needs:admin", "gives:old_package", "notes:package"),
            minutes=(3, 8),
        ),
        Step(
            key="stand_in",
            title="Save all drivers: this stands in for a restore point",
            do=(
                ("A safe start makes no restore points, so save every installed package to a folder instead."),
                "List the packages, and note the number of your old display driver: oem, a number, .inf.",
            ),
            commands=(
                "mkdir C:\\OldDriver",
                "pnputil /export-driver * C:\\OldDriver",
                "dir C:\\OldDriver",
                PACKAGES,
            ),
            why="With this folder the old driver can be put back, whatever comes.",
            see="The folder lists a subfolder for each package.",
            otherwise="The folder is empty: remove nothing. In the recovery menu look whether an earlier restore point "
            "exists, and ask for help.",
            back="pnputil /add-driver C:\\OldDriver\\*.inf /subdirs /install puts the old drivers back.",
            tags=(
                "needs:console",
                "needs:admin",
                "gives:old_package",
                "gives:restore_point",
                "checks:restore_point",
                "notes:package",
            ),
            minutes=(5, 15),
        ),
        Step(
            key="hold",
            title="Take the network away for a while",
            do=("Pull the network cable and switch wireless off. It stays off until this plan says so.",),
            why="Else the system may fetch some driver by itself in the middle of the work.",
            see="The sign for 'no network' beside the clock.",
            otherwise="Still connected: switch the router's port or wireless off for these minutes.",
            back="Plug it in again.",
            tags=("needs:at_machine", "takes_network", "gives:held_off"),
            minutes=(1, 2),
        ),
        Step(
            key="uninstall",
            title="Uninstall the old maker's programs",
            do=(
                (
                    "Open the list of installed programs and uninstall what came with the old display driver, and "
                    "nothing else. Answer 'later' if it asks for a restart."
                ),
            ),
            commands=("appwiz.cpl",),
            why="The maker's own uninstaller knows best what it brought.",
            see="The entries are gone; the picture may turn coarse.",
            otherwise="An entry refuses to go: leave it and go on. Nothing there to uninstall: go on.",
            back="Use the restore point, or install the old package again from C:\\OldDriver.",
            tags=(
                "needs:console",
                "needs:admin",
                "needs:at_machine",
                "needs:driver_file",
                "needs:old_package",
                "needs:restore_point",
                "removes:driver",
                "takes_picture",
            ),
            minutes=(3, 10),
        ),
        Step(
            key="remove",
            title="Remove the old driver package by its number",
            do=(
                (
                    "Use the number that you noted and exported. Repeat for each older display package of the same "
                    "maker, each exported before."
                ),
            ),
            commands=("pnputil /delete-driver OEM-NUMBER.inf /uninstall", PACKAGES),
            why="What stays in the system's store can be chosen again at the next start.",
            see="The words that the package was deleted; the list no longer has it.",
            otherwise="Said to be in use: leave it. The next start, or the deeper plan, frees it.",
            back="pnputil /add-driver C:\\OldDriver\\*.inf /subdirs /install",
            caution=BY_ITS_NUMBER,
            tags=(
                "needs:console",
                "needs:admin",
                "needs:at_machine",
                "needs:driver_file",
                "needs:old_package",
                "needs:restore_point",
                "removes:driver",
                "takes_picture",
            ),
            minutes=(2, 8),
        ),
        Step(
            key="release",
            title="Give the network back",
            do=("Plug the network cable in and switch wireless on.",),
            why="The system should look after its drivers again; it was held off only for the work.",
            see="The sign for a network beside the clock.",
            otherwise="No network: the adapter's switch, the cable, then a restart of the router.",
            back="Not needed.",
            tags=("needs:at_machine", "ends:held_off"),
            minutes=(1, 2),
        ),
        Step(
            key="protect",
            title="See that the disk's protection is on again",
            do=("In the administrator's console switch it on and look. Skip it if nothing was encrypted.",),
            commands=("manage-bde -protectors -enable C:", "manage-bde -status C:"),
            why="Suspended protection protects nobody.",
            see="Protection status: protection on.",
            otherwise="Still off: restart once and look again. If it stays off, or asks for the key at every start, "
            "ask whoever manages the machine.",
            back="This is the way back.",
            tags=("needs:console", "needs:admin", "ends:suspended", "checks:protection"),
            minutes=(1, 3),
        ),
        Step(
            key="password",
            title="Try an administrator's password",
            do=(
                (
                    "List the administrators, pick your account, and start a console in its name; it asks for the "
                    "password. For an account of the system maker's service write MicrosoftAccount\\ before its "
                    "address."
                ),
            ),
            commands=("powershell Get-LocalGroupMember -SID S-1-5-32-544", "runas /user:ACCOUNT cmd"),
            why="In a safe start, and in another machine, a PIN, a face or a finger may not be accepted; then only the "
            "password opens the door.",
            see="A second console opens in that account's name.",
            otherwise="Refused: set a password that you know before you go on, and try it again.",
            back="Close the second console.",
            tags=("needs:console", "needs:at_machine", "gives:password", "notes:account"),
            minutes=(2, 5),
        ),
        Step(
            key="password_away",
            title="Try an administrator's password on another device",
            do=(
                (
                    "An account of the system maker's service: sign in to its page on another device with the "
                    "password, not with a PIN."
                ),
                "A local account: take one whose password you have typed lately. Note the account's name.",
            ),
            why="In a safe start, and in another machine, a PIN, a face or a finger may not be accepted; then only the "
            "password opens the door.",
            see="The page accepts the password.",
            otherwise="Refused or forgotten: answer 'no' to the question about the password above; that plan makes an "
            "account first.",
            back=NOTHING_TO_UNDO,
            tags=("reads", "gives:password", "notes:account"),
            minutes=(2, 8),
        ),
        Step(
            key="make_admin",
            title="Make a local administrator for the repair",
            do=(
                (
                    "No account has a password, so make one that has: choose the password when asked. It stays until "
                    "the end of this plan only."
                ),
            ),
            commands=(
                "net user repair * /add",
                "powershell Add-LocalGroupMember -SID S-1-5-32-544 -Member repair",
                "runas /user:repair cmd",
            ),
            why=(
                "In a safe start, and in another machine, a PIN, a face or a finger may not be accepted, "
                "and an account without a password may be refused."
            ),
            see="The last command asks for the new password, then opens a second console.",
            otherwise="The name is taken: choose another, and use it in all three lines.",
            back="net user repair /delete",
            tags=(
                "needs:console",
                "needs:admin",
                "needs:at_machine",
                "gives:extra_account",
                "gives:password",
                "notes:account",
            ),
            minutes=(3, 8),
        ),
        Step(
            key="drop_admin",
            title="Remove the account made for the repair",
            do=("Sign in with your own account, open an administrator's console, and delete the account again.",),
            commands=("net user repair /delete",),
            why="A forgotten administrator is an open door.",
            see="The words that the command completed.",
            otherwise="Refused: sign the account out first, or restart and try again.",
            back="net user repair * /add makes it anew.",
            tags=("needs:console", "needs:admin", "ends:extra_account"),
            minutes=(1, 3),
        ),
        Step(
            key="menu",
            title="Restart into the recovery menu",
            do=("Save what is open. This restarts at once, into a blue menu.",),
            commands=("shutdown /r /o /t 0",),
            why="The command is the same in every version; the way through the settings is not.",
            see="A menu with the entry Troubleshoot.",
            otherwise="The system starts as usual: hold Shift while you choose Restart.",
            back="Choose Continue in that menu.",
            tags=(
                "needs:console",
                "needs:at_machine",
                "needs:password",
                "restarts",
                "takes_picture",
                "takes_network",
                "asks_for_key",
            ),
            minutes=(2, 6),
        ),
        Step(
            key="safe",
            title="Choose one safe start",
            do=(
                "Troubleshoot, Advanced options, Startup Settings, Restart. In the list press 4.",
                "Sign in with the password that you tried.",
            ),
            why="In a safe start the system runs on its basic driver, so the maker's driver is not in use. This way it "
            "holds for one start only.",
            see="'Safe Mode' in the corners of a coarse picture.",
            otherwise="Startup Settings is not there: look under 'see more recovery options'. Password refused: "
            "restart, and the system starts as usual.",
            back="Restart: the next start is a usual one.",
            tags=(
                "needs:at_machine",
                "needs:password",
                "restarts",
                "gives:safe_start",
                "takes_picture",
                "takes_network",
                "asks_for_key",
            ),
            minutes=(3, 8),
        ),
        Step(
            key="stick",
            title="Make a start-up stick on another device",
            do=(
                (
                    "With the system maker's own tool for installation media, on another device, make a start-up stick "
                    "for the same version. From the card maker's own site fetch the full driver package for your card "
                    "and system, and copy it onto a second stick, or into a folder of the first."
                ),
            ),
            why="It opens the recovery tools without a picture from the installed system, and without cutting it off.",
            see="The stick appears with its files.",
            otherwise="No second device with that tool: a repair shop or a friend makes one in half an hour.",
            back="Erase the stick.",
            tags=("reads",),
            minutes=(20, 60),
        ),
        Step(
            key="stick_safe",
            title="Start from the stick, and ask for one safe start",
            do=(
                (
                    "Shut down with a short press of the power button. Plug the stick in, start, and open the "
                    "firmware's start menu with the key that the board's manual names. Choose the stick."
                ),
                (
                    "Choose to repair, not to install: Troubleshoot, then Command Prompt. Asked for a disk's key, you "
                    "may skip that drive. Type the line, close the window, choose Continue, pull the stick."
                ),
                "In the list that appears press 4, safe mode, and sign in with the password that you tried.",
            ),
            commands=("bcdedit /set {default} onetimeadvancedoptions on",),
            why="Here 'the current system' would mean the recovery tools, so the line names the default one. It holds "
            "for the next start only, so nothing has to be switched off afterwards.",
            see="'Safe Mode' in the corners of a coarse picture.",
            otherwise="The stick is not offered: the board's manual tells how to start from it. A password that the "
            "system refuses: restart, and the system starts as usual. No list: from the stick's prompt once more.",
            back="Restart: the next start is a usual one. Should safe start ever come again by itself, type at the "
            "stick's prompt: bcdedit /deletevalue {default} safeboot",
            caution="Do not start the installation: it offers to erase disks.",
            tags=(
                "needs:admin",
                "needs:at_machine",
                "needs:password",
                "restarts",
                "starts:elsewhere",
                "gives:safe_start",
                "takes_picture",
                "takes_network",
                "asks_for_key",
            ),
            minutes=(10, 30),
        ),
        Step(
            key="stick_once",
            title="Start from the stick, and ask for the start-up list once",
            do=(
                (
                    "Shut down with a short press of the power button. Plug the stick in, start, and open the "
                    "firmware's start menu with the key that the board's manual names. Choose the stick."
                ),
                (
                    "Choose to repair, not to install: Troubleshoot, then Command Prompt. Asked for a disk's key, you "
                    "may skip that drive. Type the line, close the window, choose Continue, pull the stick."
                ),
                "In the list press 3, low-resolution video, and sign in as you always do.",
            ),
            commands=("bcdedit /set {default} onetimeadvancedoptions on",),
            why="A usual start with a coarse picture takes your PIN, so an account with a password can be made there. "
            "The line holds for the next start only.",
            see="Your usual desktop, in a coarse picture.",
            otherwise="No picture with 3 either: stop. Borrow a card that works, or ask a technician; without a "
            "password a safe start might not let you in.",
            back="Restart: the next start is a usual one.",
            caution="Do not start the installation: it offers to erase disks.",
            tags=(
                "starts:elsewhere",
                "needs:admin",
                "needs:at_machine",
                "restarts",
                "takes_picture",
                "takes_network",
                "asks_for_key",
            ),
            minutes=(10, 30),
        ),
        Step(
            key="interrupt_once",
            title="Last resort: interrupt the start to reach the recovery menu",
            do=(
                (
                    "Only if nothing else opens the recovery menu. Start; when the logo with the turning dots shows, "
                    "hold the power button until the machine is off. Do this twice; the third start prepares a repair."
                ),
                (
                    "Then Advanced options, Troubleshoot, Advanced options, Startup Settings, Restart. In the list "
                    "press 3, low-resolution video, and sign in as you always do."
                ),
            ),
            why="After two failed starts in a row the system opens its recovery menu by itself. A usual start with a "
            "coarse picture takes your PIN, so an account with a password can be made there.",
            see="Your usual desktop, in a coarse picture.",
            otherwise="After three tries still nothing: stop, do not go on cutting the power. Borrow a card that "
            "works, or ask a technician.",
            back="Restart: the next start is a usual one.",
            caution="Cutting off a start can damage files and, rarely, the whole system. Never during an update. With "
            "an encrypted disk the key will be asked for.",
            tags=("needs:at_machine", "last_resort", "restarts", "takes_picture", "takes_network", "asks_for_key"),
            minutes=(10, 25),
        ),
        Step(
            key="copy_in",
            title="Copy the new driver to this machine, and check its seal",
            do=("Copy the package from the stick to C:\\Driver, then check the signature, with the file's own name.",),
            commands=("Get-AuthenticodeSignature C:\\Driver\\PACKAGE.exe | Format-List Status, SignerCertificate",),
            why="It must lie on this disk before anything is taken away.",
            see="Status: Valid, and the card maker's name as the signer.",
            otherwise="Anything else: delete the file and fetch it again from the maker. Never install it.",
            back="Delete the folder.",
            tags=("needs:console", "gives:driver_file", "notes:package"),
            minutes=(2, 8),
        ),
        Step(
            key="leave",
            title="Leave the safe start",
            do=("Restart. The basic driver now gives a picture in a usual start too.",),
            commands=("shutdown /r /t 0",),
            why="The maker's package installs properly only in a usual start.",
            see="A coarse picture, without 'Safe Mode' in its corners.",
            otherwise='Safe start again, though it was asked for once: bcdedit /deletevalue "{current}" safeboot, then '
            "restart. From the recovery prompt the same with {default}.",
            back="The recovery menu leads back into a safe start.",
            tags=(
                "needs:console",
                "needs:at_machine",
                "restarts",
                "ends:safe_start",
                "takes_picture",
                "takes_network",
                "asks_for_key",
            ),
            minutes=(2, 8),
        ),
        Step(
            key="photos",
            title="Photograph the firmware's settings",
            do=(
                "Save what is open; the line restarts into the firmware's menu.",
                (
                    "Photograph each page, above all how the disks are attached (the disk mode), secure "
                    "boot, start order and memory. Change nothing, and leave without saving."
                ),
            ),
            commands=("shutdown /r /fw /t 0",),
            why="Should the settings be lost or reset, a system may not start until the disk mode is as it was.",
            see="Pictures that you can read on your telephone.",
            otherwise="Refused: restart, and right after power-on tap the key that the board's manual names, often "
            "Del or F2.",
            back="Nothing changes here, as you leave without saving.",
            tags=(
                "needs:console",
                "needs:admin",
                "needs:at_machine",
                "restarts",
                "takes_picture",
                "takes_network",
                "asks_for_key",
                "gives:photos",
            ),
            minutes=(5, 15),
        ),
        Step(
            key="only_if_basic",
            title="Is it the basic driver? Only then go on",
            do=(
                (
                    "Compare with what you noted at the first step: display.inf is the system's basic "
                    "driver, an oem number is the maker's."
                ),
                (
                    "With the maker's driver in use, stop here: settings, cable and input decide the size, "
                    "not a new package."
                ),
            ),
            commands=(CONNECTED,),
            why="On the basic driver size and rate are fixed; on the maker's they are a setting.",
            see="display.inf, or no driver at all, for the card that the display hangs on.",
            otherwise="An oem number: go back to the display's settings, and leave the driver alone.",
            back=NOTHING_TO_UNDO,
            tags=("needs:console", "reads", "checks:card", "checks:driver"),
            minutes=(1, 3),
        ),
        Step(
            key="runs",
            title="Does it run already? Then you are done",
            do=(
                "Look at the picture and at the list. Is it sharp, and is the driver the maker's?",
                "If so, stop here; but switch the disk's protection on again, by the step below, if you suspended it.",
            ),
            commands=(CONNECTED,),
            why="A package that was here before may list this card, and then nothing has to be installed.",
            see="Your card, started, on an oem driver.",
            otherwise="A coarse picture, or the basic driver in the list: go on with the next step.",
            back=NOTHING_TO_UNDO,
            tags=("needs:console", "reads", "checks:card", "checks:driver"),
            minutes=(2, 5),
        ),
        Step(
            key="check",
            title="Check that it worked",
            do=(
                "Which card, which driver, which version: compare with what you noted and with the package's page.",
                "Then do for ten minutes what used to fail.",
            ),
            commands=(CONNECTED, ADAPTERS),
            why="A picture alone proves little: the basic driver shows one too.",
            see="Your card, started, on an oem driver with the version that you wanted.",
            otherwise="It did not work: go on with the next heading below; it says what is left.",
            back=NOTHING_TO_UNDO,
            tags=("needs:console", "reads", "checks:card", "checks:driver", "checks:version", "notes:version"),
            minutes=(5, 15),
        ),
    )
)
