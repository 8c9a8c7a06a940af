"""Invented outputs of an invented machine, for presets and tests: numbers nobody owns, and Makers A and B."""

from __future__ import annotations

WINDOWS_LEFT_OVER = r"""Microsoft PnP Utility

Instance ID:                PCI\VEN_A1A1&DEV_0001&SUBSYS_00010001&REV_A1\4&0&0008
Device Description:         Maker A Adapter 1
Class Name:                 Display
Class GUID:                 {4d36e968-e325-11ce-bfc1-08002be10318}
Manufacturer Name:          Maker A
Status:                     Started
Driver Name:                oem31.inf

Instance ID:                PCI\VEN_B2B2&DEV_0002&SUBSYS_00020002&REV_01\3&0&10
Device Description:         Maker B Adapter 2
Class Name:                 Display
Class GUID:                 {4d36e968-e325-11ce-bfc1-08002be10318}
Manufacturer Name:          Maker B
Status:                     Started
Driver Name:                oem12.inf

Published Name:     oem12.inf
Original Name:      maker_b.inf
Provider Name:      Maker B
Class Name:         Display adapters
Class GUID:         {4d36e968-e325-11ce-bfc1-08002be10318}
Driver Version:     03/15/2026 10.0.2.7
Signer Name:        Invented Signer

Published Name:     oem7.inf
Original Name:      maker_a.inf
Provider Name:      Maker A
Class Name:         Display adapters
Class GUID:         {4d36e968-e325-11ce-bfc1-08002be10318}
Driver Version:     01/20/2024 20.1.4.1
Signer Name:        Invented Signer

Published Name:     oem31.inf
Original Name:      maker_a.inf
Provider Name:      Maker A
Class Name:         Display adapters
Class GUID:         {4d36e968-e325-11ce-bfc1-08002be10318}
Driver Version:     09/02/2026 21.3.0.5
Signer Name:        Invented Signer

Published Name:     oem40.inf
Original Name:      sound_c.inf
Provider Name:      Maker C
Class Name:         Sound, video and game controllers
Class GUID:         {4d36e96c-e325-11ce-bfc1-08002be10318}
Driver Version:     05/05/2025 6.0.1.1
Signer Name:        Invented Signer
"""

# The labels are German in manner, as an example of a language that the reader does not know: it goes by the values.
WINDOWS_OTHER_LANGUAGE = r"""Microsoft-PnP-Dienstprogramm

Instanz-ID:                 PCI\VEN_A1A1&DEV_0003&SUBSYS_00030003&REV_A1\4&0&0008
Gerätebeschreibung:         Grundlegender Grafikadapter
Klassenname:                Display
Klassen-GUID:               {4d36e968-e325-11ce-bfc1-08002be10318}
Herstellername:             (Standard)
Status:                     Gestartet
Treibername:                display.inf

Veröffentlichter Name:      oem9.inf
Originalname:               maker_a.inf
Anbietername:               Maker A
Klassenname:                Grafikkarten
Klassen-GUID:               {4d36e968-e325-11ce-bfc1-08002be10318}
Treiberversion:             20.01.2024 20.1.4.1
Name des Signaturgebers:    Invented Signer
"""

WINDOWS_VERSIONS = r"""
Name          : Maker A Adapter 1
DriverVersion : 21.3.0.5
DriverDate    : 9/2/2026 2:00:00 AM
InfFilename   : oem31.inf
PNPDeviceID   : PCI\VEN_A1A1&DEV_0001&SUBSYS_00010001&REV_A1\4&0&0008

Name          : Maker B Adapter 2
DriverVersion : 10.0.2.7
DriverDate    : 6/21/2006 2:00:00 AM
InfFilename   : display.inf
PNPDeviceID   : PCI\VEN_B2B2&DEV_0002&SUBSYS_00020002&REV_01\3&0&10

"""

LINUX_TWO = """00:02.0 VGA compatible controller [0300]: Maker B Adapter 2 [b2b2:0002] (rev 01)
\tSubsystem: Maker B Board [b2b2:1002]
\tKernel driver in use: maker_b
\tKernel modules: maker_b
01:00.0 3D controller [0302]: Maker A Adapter 1 [a1a1:0001] (rev a1)
\tSubsystem: Maker A Board [a1a1:1001]
\tKernel driver in use: maker-a
\tKernel modules: maker_a_free, maker_a
01:00.1 Audio device [0403]: Maker A Sound [a1a1:2001] (rev a1)
\tKernel driver in use: snd_invented
Module                  Size  Used by
maker_a              57344000  12
maker_a_free          2306048  0
maker_b               3526656  8
snd_invented            45056  2
"""

LINUX_PLAIN = """01:00.0 VGA compatible controller [0300]: Maker A Adapter 4 [a1a1:0004] (rev a1)
\tSubsystem: Maker A Board [a1a1:1004]
\tKernel modules: maker_a_free, maker_a
"""
