"""Cases near the limits of the wiring rules, written down from the standards and not from the pages that answer them.

Each says its article of NEC 2023 (NFPA 70) or part of IEC 60364, or the sum that its tables make. `no` where a rule is
broken by a little; where it is just kept, go or tight.
"""

from __future__ import annotations

import pytest

from calc.catalogue import check_called
from calc.form import defaults, fill

ALLOWED = ("go", "tight")
W = {"volts": "120 V", "run_length": "3 ft", "carrying": "2", "ambient": "30 °C", "terminals": "60 °C", "insulation": "90 °C", "lay": "raceway or cable", "feeds": "one load", "circuit": "one-phase", "metal": "copper", "continuous_current": "0", "other_current": "0"}
IW = {"volts": "230 V", "run_length": "1 m", "ambient": "30 °C", "circuits": "1", "loaded": "2", "insulation": "PVC 70 °C", "terminals": "70 °C", "device": "circuit-breaker", "circuit": "one-phase", "metal": "copper", "continuous_current": "0", "other_current": "0"}
B = {"carrying": "2", "ambient": "30 °C", "terminals": "60 °C", "insulation": "90 °C", "lay": "raceway or cable", "feeds": "one load", "circuit": "one-phase", "metal": "copper", "continuous_current": "0", "other_current": "0"}
IB = {"ambient": "30 °C", "circuits": "1", "loaded": "2", "insulation": "PVC 70 °C", "terminals": "70 °C", "circuit": "one-phase", "metal": "copper", "continuous_current": "0", "other_current": "0"}

CASES = (
    # wire/wire-for-run, nec
    ("wire/wire-for-run", "nec", W | {"continuous_current": "16", "size": "12 AWG", "breaker": "20"}, ("tight",), "310.16 12 AWG 20 A; 210.19, 210.20: 1.25 · 16=20"),
    ("wire/wire-for-run", "nec", W | {"continuous_current": "16.1", "size": "12 AWG", "breaker": "20"}, ("no",), "1.25 · 16.1=20.1>20"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "continuous_current": "16", "size": "12 AWG", "breaker": "25"}, ("no",), "240.4(D)(5)"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "12", "size": "14 AWG", "breaker": "20"}, ("no",), "240.4(D)(3)"),
    ("wire/wire-for-run", "nec", W | {"continuous_current": "24", "size": "10 AWG", "breaker": "30"}, ("tight",), "1.25 · 24=30"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "32", "size": "10 AWG", "breaker": "35"}, ("no",), "240.4(D)(7)"),
    ("wire/wire-for-run", "nec", W | {"other_current": "39", "size": "8 AWG", "breaker": "50"}, ("no",), "60 C: 40 A; next standard up is 40"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "continuous_current": "40", "size": "8 AWG", "breaker": "50"}, ("tight",), "75 C: 50"),
    ("wire/wire-for-run", "nec", W | {"other_current": "55", "size": "6 AWG", "breaker": "60"}, ("tight",), "55 A; 240.4(B) next up 60"),
    ("wire/wire-for-run", "nec", W | {"feeds": "several receptacles", "other_current": "50", "size": "6 AWG", "breaker": "60"}, ("no",), "240.4(B)(1)"),
    ("wire/wire-for-run", "nec", W | {"ambient": "50 °C", "terminals": "75 °C", "other_current": "61", "size": "6 AWG", "breaker": "70"}, ("tight",), "75 · .82=61.5 -> 70"),
    ("wire/wire-for-run", "nec", W | {"ambient": "51 °C", "terminals": "75 °C", "other_current": "60", "size": "6 AWG", "breaker": "60"}, ("no",), "75 · .76=57"),
    ("wire/wire-for-run", "nec", W | {"carrying": "10", "other_current": "12", "size": "12 AWG", "breaker": "20"}, ("no",), "30 · .5=15"),
    ("wire/wire-for-run", "nec", W | {"carrying": "9", "other_current": "16", "size": "12 AWG", "breaker": "20"}, ALLOWED, "30 · .7=21"),
    ("wire/wire-for-run", "nec", W | {"ambient": "45 °C", "insulation": "60 °C", "other_current": "21", "size": "10 AWG", "breaker": "25"}, ("tight",), "30 · .71=21.3, next up 25"),
    ("wire/wire-for-run", "nec", W | {"ambient": "45 °C", "insulation": "60 °C", "other_current": "22", "size": "10 AWG", "breaker": "25"}, ("no",), "22>21.3"),
    ("wire/wire-for-run", "nec", W | {"metal": "aluminium", "other_current": "10", "size": "12 AWG", "breaker": "20"}, ("no",), "240.4(D)(4) Al 12: 15 A"),
    ("wire/wire-for-run", "nec", W | {"metal": "aluminium", "other_current": "22", "size": "10 AWG", "breaker": "25"}, ALLOWED, "Al 10: 25 A"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "metal": "aluminium", "other_current": "22", "size": "10 AWG", "breaker": "30"}, ("no",), "240.4(D)(6) Al 10: 25"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "84", "size": "4 AWG", "breaker": "90"}, ALLOWED, "85, next up 90"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "84", "size": "4 AWG", "breaker": "100"}, ("no",), "85 -> 90 max"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "125", "size": "1 AWG", "breaker": "150"}, ALLOWED, "130 -> next up 150 (240.6(A): 125,150)"),
    ("wire/wire-for-run", "nec", W | {"ambient": "56 °C", "insulation": "60 °C", "other_current": "10", "size": "12 AWG", "breaker": "20"}, ("no", "not known"), "60 C insulation ends at 55 C air"),
    ("wire/wire-for-run", "nec", W | {"carrying": "4", "ambient": "40 °C", "terminals": "75 °C", "insulation": "75 °C", "other_current": "32", "size": "8 AWG", "breaker": "40"}, ALLOWED, "50 · .88 · .8=35.2 -> next 40"),
    ("wire/wire-for-run", "nec", W | {"carrying": "4", "ambient": "40 °C", "terminals": "75 °C", "insulation": "75 °C", "other_current": "36", "size": "8 AWG", "breaker": "40"}, ("no",), "36>35.2"),
    ("wire/wire-for-run", "nec", W | {"run_length": "120 ft", "other_current": "16", "size": "12 AWG", "breaker": "20"}, ("no",), "16 A · 2 · 120 · 1.98/1000=7.6 V = 6.3 %>5"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "insulation": "60 °C", "other_current": "39", "size": "8 AWG", "breaker": "50"}, ("no",), "60 insulation in 75 lugs: 40"),
    ("wire/wire-for-run", "nec", W | {"ambient": "60 °C", "terminals": "75 °C", "insulation": "75 °C", "other_current": "37", "size": "6 AWG", "breaker": "40"}, ALLOWED, "65 · .58=37.7 next 40"),
    ("wire/wire-for-run", "nec", W | {"ambient": "60 °C", "terminals": "75 °C", "insulation": "75 °C", "other_current": "37", "size": "6 AWG", "breaker": "45"}, ("no",), "max 40"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "lay": "single in free air", "other_current": "49", "size": "8 AWG", "breaker": "60"}, ("no",), "lugs 50 whatever the air"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "lay": "single in free air", "other_current": "49", "size": "8 AWG", "breaker": "50"}, ALLOWED, "lugs 50"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "95", "size": "3 AWG", "breaker": "110"}, ("no",), "100 A: next standard is 100"),
    ("wire/wire-for-run", "nec", W | {"terminals": "75 °C", "other_current": "110", "size": "2 AWG", "breaker": "125"}, ALLOWED, "115 -> 125"),
    ("wire/wire-for-run", "nec", W | {"other_current": "110", "size": "2 AWG", "breaker": "125"}, ("no",), "95 at 60"),
    ("wire/wire-for-run", "nec", W | {"metal": "aluminium", "other_current": "20", "size": "10 AWG", "breaker": "30"}, ("no",), "Al 10 25"),
    ("wire/wire-for-run", "nec", W | {"metal": "aluminium", "other_current": "33", "size": "8 AWG", "breaker": "40"}, ("no",), "Al 8: 35 A; 35 is standard"),
    ("wire/wire-for-run", "nec", W | {"carrying": "3", "ambient": "10 °C", "insulation": "60 °C", "other_current": "20", "size": "12 AWG", "breaker": "20"}, ALLOWED, "20, no credit for cold"),
    ("wire/wire-for-run", "nec", W | {"carrying": "20", "terminals": "75 °C", "insulation": "75 °C", "other_current": "15.5", "size": "12 AWG", "breaker": "20"}, ("no",), "25 · .5=12.5"),
    ("wire/wire-for-run", "nec", W | {"carrying": "21", "other_current": "13", "size": "12 AWG", "breaker": "20"}, ("no",), "30 · .45=13.5 -> next standard is 15"),
    ("wire/wire-for-run", "nec", W | {"volts": "48 V", "run_length": "20 ft", "terminals": "75 °C", "circuit": "dc", "other_current": "50", "size": "6 AWG", "breaker": "60"}, ALLOWED, "dc 6 AWG .51 ohm/kft: 50 · 40 · .51/1000=1.02 V 2.1 %; 55/65"),
    ("wire/wire-for-run", "nec", W | {"volts": "12 V", "run_length": "15 ft", "terminals": "75 °C", "circuit": "dc", "other_current": "50", "size": "6 AWG", "breaker": "60"}, ("no",), "50 · 30 · .51/1000=.77 V = 6.4 %"),
    # protect/breaker-for-circuit, nec
    ("protect/breaker-for-circuit", "nec", B | {"continuous_current": "13", "size": "12 AWG", "breaker": "15"}, ("no",), "210.20: 16.25>15"),
    ("protect/breaker-for-circuit", "nec", B | {"terminals": "75 °C", "feeds": "several receptacles", "other_current": "50", "size": "6 AWG", "breaker": "60"}, ("no",), "210.3/210.21: no 60 A receptacle circuit"),
    ("protect/breaker-for-circuit", "nec", B | {"terminals": "75 °C", "feeds": "several receptacles", "other_current": "18", "size": "12 AWG", "breaker": "25"}, ("no",), "240.4(D), 210.3"),
    ("protect/breaker-for-circuit", "nec", B | {"terminals": "75 °C", "circuit": "dc", "other_current": "50", "size": "6 AWG", "breaker": "60", "highest_volts": "58.4", "dc_volts": "58", "short_stated": "5000", "interrupting": "10000"}, ("no",), "58.4 V on a 58 V breaker"),
    ("protect/breaker-for-circuit", "nec", B | {"terminals": "75 °C", "circuit": "dc", "other_current": "50", "size": "6 AWG", "breaker": "60", "highest_volts": "57", "dc_volts": "80", "short_stated": "10001", "interrupting": "10000"}, ("no",), "110.9"),
    ("protect/breaker-for-circuit", "nec", B | {"continuous_current": "19", "size": "12 AWG", "breaker": "20", "full_rated": "yes"}, ("no",), "wire needs 1.25 · 19=23.75 (210.19(A)(1) excepts only with a 100 % assembly)"),
    # protect/breaker-for-circuit, nec
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "1", "motor_volts": "115 V", "size": "14 AWG", "breaker": "40", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "430.22: 1.25 · 16=20 > 15"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "1", "motor_volts": "115 V", "size": "12 AWG", "breaker": "45", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("tight",), "430.52: 40 by table; up to 400 % = 64 -> 60"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "1", "motor_volts": "115 V", "size": "12 AWG", "breaker": "70", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "400 % of 16 = 64"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "3/4", "motor_volts": "115 V", "size": "12 AWG", "device": "time-delay fuse", "breaker": "35", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "225 % of 13.8=31.05"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one welder", "welder_largest": "50", "welder_effective": "22.5", "size": "12 AWG", "breaker": "40", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "630.11: 22.5>20"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one welder", "welder_largest": "50", "welder_effective": "22.5", "size": "10 AWG", "breaker": "70", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "630.12(B): 200 % of 30=60"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "3", "motor_volts": "230 V", "size": "12 AWG", "breaker": "40", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "17 · 1.25=21.25 > 20"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "3", "motor_volts": "230 V", "size": "10 AWG", "breaker": "45", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ALLOWED, "250%: 42.5 -> 45"),
    ("protect/breaker-for-circuit", "nec", {"feeds": "one motor", "motor_size": "3", "motor_volts": "230 V", "size": "10 AWG", "breaker": "15", "terminals": "60 °C", "ambient": "30 °C", "carrying": "2"}, ("no",), "below 115 % of 17"),
    # wire/ground-wire, nec
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "60", "size": "6 AWG", "ground_size": "10 AWG", "terminals": "75 °C"}, ALLOWED, "250.122 60 A: 10 AWG"),
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "60", "size": "6 AWG", "ground_size": "12 AWG", "terminals": "75 °C"}, ("no",), "250.122"),
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "20", "size": "8 AWG", "ground_size": "10 AWG"}, ("no",), "250.122(B): 12 to 8 grows the ground to 8"),
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "20", "size": "8 AWG", "ground_size": "8 AWG"}, ALLOWED, "250.122(B)"),
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "100", "size": "1 AWG", "metal": "aluminium", "ground_metal": "aluminium", "ground_size": "8 AWG", "terminals": "75 °C"}, ("no",), "250.122 Al 100 A: 6"),
    ("wire/ground-wire", "nec", {"use": "branch wiring", "breaker": "70", "size": "4 AWG", "ground_size": "10 AWG", "terminals": "75 °C"}, ("no",), "over 60: 8 AWG"),
    # wire/extension-cord, nec
    ("wire/extension-cord", "nec", {"cord": "16 AWG", "cord_length": "10 ft", "carrying": "two", "plate_amps": "13", "lasting": "no", "plug": "15", "breaker": "15", "tool_volts": "120 V"}, ("tight",), "400.5 16 AWG two carrying 13 A"),
    ("wire/extension-cord", "nec", {"cord": "16 AWG", "cord_length": "10 ft", "plate_amps": "13.1", "lasting": "no", "plug": "15", "breaker": "15", "tool_volts": "120 V"}, ("no",), "13.1>13"),
    ("wire/extension-cord", "nec", {"cord": "14 AWG", "cord_length": "10 ft", "plate_amps": "15.5", "lasting": "no", "plug": "15", "breaker": "20", "tool_volts": "120 V"}, ("no",), "plug 15 A"),
    ("wire/extension-cord", "nec", {"cord": "12 AWG", "cord_length": "10 ft", "plate_amps": "16.5", "lasting": "yes", "plug": "20", "breaker": "20", "tool_volts": "120 V"}, ("no",), "1.25 · 16.5>20"),
    ("wire/extension-cord", "nec", {"cord": "16 AWG", "cord_length": "10 ft", "plate_amps": "8", "lasting": "no", "plug": "30", "breaker": "30", "tool_volts": "120 V"}, ("no",), "240.5(B)(2): 16 AWG on 20 A"),
    # protect/panel-fuses, nec
    ("protect/panel-fuses", "nec", {"short_amps": "10", "fuse_limit": "20", "count": "4", "series": "1", "fuse": "15 A", "open_volts": "40", "fuse_volts": "600", "size": "10 AWG", "ambient": "30 °C"}, ("no",), "690.8/690.9: 1.56 · 10=15.6"),
    ("protect/panel-fuses", "nec", {"short_amps": "9.7", "fuse_limit": "15", "count": "4", "series": "1", "fuse": "20 A", "open_volts": "40", "fuse_volts": "600", "size": "10 AWG", "ambient": "30 °C"}, ("no",), "above the module's maximum series fuse"),
    ("protect/panel-fuses", "nec", {"short_amps": "9", "fuse_limit": "25", "count": "6", "series": "2", "fuse": "20 A", "open_volts": "45", "fuse_volts": "150", "size": "14 AWG", "ambient": "30 °C"}, ("no",), "14 AWG 20 A fuse 240.4(D)"),
    ("protect/panel-fuses", "nec", {"short_amps": "12", "fuse_limit": "25", "count": "6", "series": "2", "fuse": "20 A", "open_volts": "45", "fuse_volts": "150", "size": "12 AWG", "ambient": "75 °C"}, ("no",), "30 · .5=15 -> fuse 20 > next standard 15"),
    ("protect/panel-fuses", "nec", {"short_amps": "9", "fuse_limit": "20", "count": "6", "series": "3", "fuse": "15 A", "open_volts": "45", "volts_slope": "-0.3", "coldest": "-25 °C", "fuse_volts": "150", "size": "10 AWG", "ambient": "30 °C"}, ("no",), "3 · 45 · 1.15=155>150"),
    # wire/battery-cable, nec
    ("wire/battery-cable", "nec", {"load": "amps known", "amps": "140", "size": "2/0 AWG", "ambient": "30 °C", "length": "2 ft", "terminals": "75 °C", "insulation": "90 °C"}, ("tight",), "1.25 · 140=175"),
    ("wire/battery-cable", "nec", {"load": "amps known", "amps": "140.1", "size": "2/0 AWG", "ambient": "30 °C", "length": "2 ft", "terminals": "75 °C", "insulation": "90 °C"}, ("no",), "175.1>175"),
    ("wire/battery-cable", "iec", {"load": "amps known", "amps": "250", "size": "50 mm2", "method": "C", "insulation": "PVC 70 °C", "terminals": "70 °C", "ambient": "30 °C", "length": "1 m", "parallel": "2"}, ("no",), "523.7: two pairs are two circuits, 168 · .8=134 < 125 · 1.22"),
    ("wire/battery-cable", "iec", {"load": "amps known", "amps": "215", "size": "50 mm2", "method": "C", "insulation": "PVC 70 °C", "terminals": "70 °C", "ambient": "30 °C", "length": "1 m", "parallel": "2"}, ALLOWED, "168 · .8=134 > 107.5 · 1.22"),
    ("wire/battery-cable", "nec", {"load": "amps known", "amps": "120", "size": "2/0 AWG", "ambient": "30 °C", "length": "2 ft", "terminals": "75 °C", "insulation": "90 °C", "carrying": "7"}, ("no",), "310.15(C)(1): 195 · .7=136.5 < 120 · 1.22"),
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "100", "size": "2/0 AWG", "rating": "175", "ambient": "30 °C", "dc_volts": "125", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "20000", "terminals": "75 °C", "insulation": "90 °C", "carrying": "7"}, ("no",), "195 · .7=136.5, next size up 150"),
    # protect/battery-fuse, nec
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "100", "size": "2/0 AWG", "rating": "125", "ambient": "30 °C", "dc_volts": "58", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "20000"}, ("no",), "240.60/110.4: 58 V dc < 58.4 V"),
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "100.5", "size": "2/0 AWG", "rating": "125", "ambient": "30 °C", "dc_volts": "125", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "20000"}, ("no",), "215.3: 125.6>125"),
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "60", "size": "4 AWG", "rating": "100", "ambient": "30 °C", "dc_volts": "125", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "20000", "terminals": "75 °C"}, ("no",), "240.4(B): 85 -> 90"),
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "60", "size": "4 AWG", "rating": "90", "ambient": "30 °C", "dc_volts": "125", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "21000", "interrupting": "20000", "terminals": "75 °C"}, ("no",), "110.9"),
    ("protect/battery-fuse", "nec", {"load": "amps known", "amps": "60", "family": "aR semiconductor", "size": "2/0 AWG", "rating": "125", "dc_volts": "500", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "100000", "ambient": "30 °C", "terminals": "75 °C"}, ("no",), "aR gives no overload protection"),
    # protect/adapter, nec
    ("protect/adapter", "nec", {"outlet": "14-50", "plug": "L5-30", "needs": "120 V", "breaker": "50", "own_breaker": "none", "cord": "10 AWG", "load_amps": "20", "lasting": "no"}, ("no",), "210.21(B): 30 A behind 50"),
    ("protect/adapter", "nec", {"outlet": "5-20", "plug": "5-15", "needs": "120 V", "breaker": "20", "own_breaker": "none", "cord": "12 AWG", "load_amps": "12", "lasting": "no"}, ALLOWED, "210.21(B)(3)"),
    ("protect/adapter", "nec", {"outlet": "6-30", "plug": "L5-30", "needs": "120 V", "breaker": "30", "own_breaker": "none", "cord": "10 AWG", "load_amps": "12", "lasting": "no"}, ("no",), "no neutral in 6-30"),
    ("protect/adapter", "nec", {"outlet": "10-30", "plug": "14-30", "needs": "120 and 240 V", "breaker": "30", "own_breaker": "none", "cord": "10 AWG", "load_amps": "12", "lasting": "no"}, ("no",), "10-30 has no ground"),
    ("protect/adapter", "nec", {"outlet": "TT-30", "plug": "5-20", "needs": "120 V", "breaker": "30", "own_breaker": "none", "cord": "12 AWG", "load_amps": "10", "lasting": "no"}, ("no",), "20 A pattern behind 30"),
    ("protect/adapter", "nec", {"outlet": "14-30", "plug": "L5-30", "needs": "120 V", "breaker": "30", "own_breaker": "none", "cord": "10 AWG", "load_amps": "24.5", "lasting": "yes"}, ("no",), "1.25 · 24.5>30"),
    ("protect/adapter", "nec", {"outlet": "5-15", "plug": "5-20", "needs": "120 V", "breaker": "15", "own_breaker": "none", "cord": "14 AWG", "load_amps": "16", "lasting": "no"}, ("no",), "16 of a 5-15"),
    # wire/wire-for-run, iec
    ("wire/wire-for-run", "iec", IW | {"other_current": "20", "size": "2.5 mm2", "method": "B2", "breaker": "20"}, ALLOWED, "B.52.4... 23 >= 20"),
    ("wire/wire-for-run", "iec", IW | {"other_current": "20", "size": "2.5 mm2", "method": "B2", "breaker": "25"}, ("no",), "433.1: 25>23"),
    ("wire/wire-for-run", "iec", IW | {"other_current": "20.1", "size": "2.5 mm2", "method": "B2", "breaker": "20"}, ("no",), "433.1: Ib<=In"),
    ("wire/wire-for-run", "iec", IW | {"other_current": "15", "size": "1.5 mm2", "method": "C", "breaker": "20"}, ("no",), "19.5<20"),
    ("wire/wire-for-run", "iec", IW | {"device": "gG fuse", "other_current": "15", "size": "1.5 mm2", "method": "B2", "breaker": "16"}, ("no",), "1.6 · 16>1.45 · 16.5"),
    ("wire/wire-for-run", "iec", IW | {"device": "gG fuse", "other_current": "18", "size": "2.5 mm2", "method": "B2", "breaker": "20"}, ALLOWED, "1.6 · 20=32<=1.45 · 23=33.35"),
    ("wire/wire-for-run", "iec", IW | {"circuits": "2", "other_current": "15", "size": "2.5 mm2", "method": "B1", "breaker": "20"}, ("no",), "24 · .8=19.2"),
    ("wire/wire-for-run", "iec", IW | {"ambient": "40 °C", "other_current": "20", "size": "4 mm2", "method": "B2", "breaker": "25"}, ALLOWED, "30 · .87=26.1"),
    ("wire/wire-for-run", "iec", IW | {"ambient": "45 °C", "other_current": "20", "size": "4 mm2", "method": "B2", "breaker": "25"}, ("no",), "30 · .79=23.7"),
    ("wire/wire-for-run", "iec", IW | {"insulation": "XLPE 90 °C", "other_current": "25", "size": "2.5 mm2", "method": "C", "breaker": "32"}, ("no",), "terminals of 70 C: 27"),
    ("wire/wire-for-run", "iec", IW | {"insulation": "XLPE 90 °C", "terminals": "90 °C", "other_current": "28", "size": "2.5 mm2", "method": "C", "breaker": "32"}, ALLOWED, "33"),
    ("wire/wire-for-run", "iec", IW | {"run_length": "50 m", "other_current": "16", "size": "2.5 mm2", "method": "B2", "breaker": "16"}, ("no",), "2 · 0.0225 · 50/2.5 · 16=14.4 V = 6.3 %"),
    ("wire/wire-for-run", "iec", IW | {"metal": "aluminium", "other_current": "50", "size": "16 mm2", "method": "B2", "breaker": "63"}, ("no",), "Al 16 B2 53"),
    ("wire/wire-for-run", "iec", IW | {"metal": "aluminium", "other_current": "45", "size": "16 mm2", "method": "B2", "breaker": "50"}, ALLOWED, "53"),
    ("wire/wire-for-run", "iec", IW | {"metal": "aluminium", "other_current": "10", "size": "6 mm2", "method": "B2", "breaker": "20"}, ("no", "not known"), "52.2: Al from 10"),
    ("wire/wire-for-run", "iec", IW | {"ambient": "61 °C", "other_current": "10", "size": "2.5 mm2", "method": "B2", "breaker": "16"}, ("no", "not known"), "PVC ends at 60"),
    ("wire/wire-for-run", "iec", IW | {"other_current": "10", "size": "2.5 mm2", "method": "A2", "breaker": "20"}, ("no",), "18.5"),
    ("wire/wire-for-run", "iec", IW | {"loaded": "3", "other_current": "18", "size": "2.5 mm2", "method": "B2", "breaker": "20"}, ALLOWED, "20=20"),
    ("wire/wire-for-run", "iec", IW | {"circuits": "6", "other_current": "10", "size": "2.5 mm2", "method": "E", "breaker": "16"}, ALLOWED, "30 · .57=17.1"),
    ("wire/wire-for-run", "iec", IW | {"circuits": "8", "other_current": "10", "size": "2.5 mm2", "method": "E", "breaker": "16"}, ("no",), "30 · .52=15.6"),
    ("wire/wire-for-run", "iec", IW | {"circuits": "10", "other_current": "10", "size": "2.5 mm2", "method": "E", "breaker": "10"}, ALLOWED, "30 · .45=13.5"),
    ("wire/wire-for-run", "iec", IW | {"ambient": "55 °C", "device": "gG fuse", "other_current": "10", "size": "2.5 mm2", "method": "B2", "breaker": "10"}, ALLOWED, "23 · .61=14.03; 1.9 · 10=19<=20.3"),
    ("wire/wire-for-run", "iec", IW | {"ambient": "50 °C", "device": "gG fuse", "other_current": "9", "size": "1.5 mm2", "method": "B2", "breaker": "10"}, ("no",), "16.5 · .71=11.7: 1.9 · 10=19>16.99"),
    # protect/breaker-for-circuit, iec
    ("protect/breaker-for-circuit", "iec", IB | {"other_current": "12", "size": "2.5 mm2", "method": "B2", "breaker": "16", "device": "circuit-breaker, type C", "far_fault_known": "measured or worked out", "far_fault": "159"}, ("no",), "411.4.4: 160 A"),
    ("protect/breaker-for-circuit", "iec", IB | {"other_current": "12", "size": "2.5 mm2", "method": "B2", "breaker": "16", "device": "circuit-breaker, type B", "far_fault_known": "measured or worked out", "far_fault": "81"}, ALLOWED, "80 A"),
    ("protect/breaker-for-circuit", "iec", IB | {"other_current": "12", "size": "2.5 mm2", "method": "B2", "breaker": "16", "device": "circuit-breaker, type D", "far_fault_known": "measured or worked out", "far_fault": "300"}, ("no",), "320 A"),
    ("protect/breaker-for-circuit", "iec", IB | {"other_current": "12", "size": "2.5 mm2", "method": "B2", "breaker": "16", "device": "circuit-breaker, type B", "start_current": "60"}, ("no",), "3 times 16 = 48 holds"),
    ("protect/breaker-for-circuit", "iec", IB | {"other_current": "12", "size": "2.5 mm2", "method": "B2", "breaker": "16", "device": "gG fuse"}, ("tight", "not known"), "disconnection at the far end is not known with a fuse either"),
    # wire/ground-wire, iec
    ("wire/ground-wire", "iec", {"size": "25 mm2", "ground_size": "10 mm2"}, ("no",), "54.7: 16"),
    ("wire/ground-wire", "iec", {"size": "35 mm2", "ground_size": "16 mm2"}, ALLOWED, "54.7"),
    ("wire/ground-wire", "iec", {"size": "50 mm2", "ground_size": "16 mm2"}, ("no",), "54.7: 25"),
    ("wire/ground-wire", "iec", {"size": "1.5 mm2", "ground_size": "1.5 mm2", "runs": "a wire of its own, unguarded"}, ("no",), "543.1.3: 4 mm2"),
    ("wire/ground-wire", "iec", {"size": "120 mm2", "ground_size": "50 mm2"}, ("no",), "54.7: 60 -> 70"),
    ("wire/ground-wire", "iec", {"size": "2.5 mm2", "ground_size": "2.5 mm2", "runs": "a wire of its own, unguarded"}, ("no",), "543.1.3: 4"),
    ("wire/ground-wire", "iec", {"size": "2.5 mm2", "ground_size": "2.5 mm2", "runs": "a wire of its own, in pipe or channel"}, ALLOWED, "543.1.3: 2.5"),
    ("wire/ground-wire", "iec", {"size": "16 mm2", "sized": "by the faults it must survive", "insulation": "PVC 70 °C", "wall_fault": "1000", "wall_time": "0.4", "inverter_fault": "60", "inverter_time": "1", "ground_size": "4 mm2"}, ("no",), "sqrt(1e6 · .4)/115=5.5"),
    # wire/cable-in-a-short, iec
    ("wire/cable-in-a-short", "iec", {"short_known": "stated by the maker", "short_stated": "20000", "inductance": "0.1", "cleared": "the time until it has opened", "clearing_time": "0.045", "size": "35 mm2", "insulation": "PVC 70 °C", "metal": "copper"}, ("no",), "k=115: 16.2e6 < 18e6"),
    ("wire/cable-in-a-short", "iec", {"short_known": "stated by the maker", "short_stated": "20000", "inductance": "0.1", "cleared": "the time until it has opened", "clearing_time": "0.035", "size": "35 mm2", "insulation": "PVC 70 °C", "metal": "copper"}, ALLOWED, "14e6<16.2e6"),
    ("wire/cable-in-a-short", "iec", {"short_known": "stated by the maker", "short_stated": "20000", "inductance": "0.1", "cleared": "the time until it has opened", "clearing_time": "0.065", "size": "35 mm2", "insulation": "XLPE 90 °C", "metal": "copper"}, ("no",), "k=143: 25e6<26e6"),
    # wire/cable-in-a-short, nec
    ("wire/cable-in-a-short", "nec", {"short_known": "stated by the maker", "short_stated": "30000", "inductance": "0.1", "cleared": "the time until it has opened", "clearing_time": "0.058", "size": "2/0 AWG", "insulation": "75 °C", "made_of": "PVC", "metal": "copper"}, ("no",), "ICEA P-32-382: 49.7e6 < 52e6"),
    ("wire/cable-in-a-short", "nec", {"short_known": "stated by the maker", "short_stated": "30000", "inductance": "0.1", "cleared": "the time until it has opened", "clearing_time": "0.04", "size": "2/0 AWG", "insulation": "75 °C", "made_of": "PVC", "metal": "copper"}, ALLOWED, "36e6"),
    # protect/battery-fuse, iec
    ("protect/battery-fuse", "iec", {"load": "amps known", "amps": "60", "family": "aR semiconductor", "size": "70 mm2", "rating": "125", "dc_volts": "500", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "100000", "ambient": "30 °C"}, ("no",), "aR"),
    ("protect/battery-fuse", "iec", {"load": "amps known", "amps": "60", "family": "IEC 60269 gG NH", "size": "25 mm2", "method": "C", "rating": "100", "terminals": "70 °C", "insulation": "PVC 70 °C", "dc_volts": "250", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "25000", "ambient": "30 °C"}, ALLOWED, "112 · .9=100.8"),
    ("protect/battery-fuse", "iec", {"load": "amps known", "amps": "60", "family": "IEC 60269 gG NH", "size": "25 mm2", "method": "B1", "rating": "100", "terminals": "70 °C", "insulation": "PVC 70 °C", "dc_volts": "250", "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "5000", "interrupting": "25000", "ambient": "30 °C"}, ("no",), "101 · .9=90.9"),
    # protect/bond-and-ground, nec
    ("protect/bond-and-ground", "nec", {"largest_breaker": "20", "bond_size": "14 AWG"}, ("no",), "250.122"),
    ("protect/bond-and-ground", "nec", {"largest_breaker": "60", "bond_size": "10 AWG"}, ALLOWED, "250.122"),
    ("protect/bond-and-ground", "nec", {"largest_breaker": "63", "bond_size": "10 AWG"}, ("no",), "250.122: 8"),
    ("protect/bond-and-ground", "nec", {"bond": "none"}, ("no",), "250.34, no bond"),
    ("protect/bond-and-ground", "nec", {"bond": "fixed", "switches_neutral": "no"}, ("no",), "two bonds"),
    # choose/outlet, nec
    ("choose/outlet", "nec", {"outlet": "5-15", "breaker": "25", "wanted": "5", "wanted_volts": "120 V", "lasting": "no"}, ("no",), "210.21(B)(3)"),
    ("choose/outlet", "nec", {"outlet": "5-15", "breaker": "20", "wanted": "15.5", "wanted_volts": "120 V", "lasting": "no"}, ("no",), "15 A contacts"),
    ("choose/outlet", "nec", {"outlet": "5-20", "breaker": "20", "wanted": "16.5", "wanted_volts": "120 V", "lasting": "yes"}, ("no",), "80 %"),
    ("choose/outlet", "nec", {"outlet": "14-50", "breaker": "50", "wanted": "41", "wanted_volts": "240 V", "lasting": "yes"}, ("no",), "80 %: 40"),
    ("choose/outlet", "nec", {"outlet": "6-20", "breaker": "20", "wanted": "5", "wanted_volts": "120 V", "lasting": "no"}, ("no",), "6-20 has no neutral"),
    # run/tool-on-outlet, nec
    ("run/tool-on-outlet", "nec", {"tool_volts": "120 V", "plate": "amps", "plate_amps": "12.5", "lasting": "yes", "outlet": "5-15", "breaker": "15", "start": "heater or resistive", "cord": "none", "fed_by": "a wall outlet", "source_resistance": "0.005"}, ("no",), "1.25 · 12.5=15.6>15"),
    # wire/extension-cord, iec
    ("wire/extension-cord", "iec", {"cord": "1 mm2", "cord_length": "5 m", "plate_amps": "12", "breaker": "16"}, ("no",), "1 mm2: 10 A"),
    # wire/battery-cable, iec
    ("wire/battery-cable", "iec", {"load": "amps known", "amps": "100", "size": "35 mm2", "method": "C", "insulation": "PVC 70 °C", "terminals": "70 °C", "ambient": "45 °C", "length": "1 m"}, ("no",), "138 · .79=109 < 122 with ripple"),
)


@pytest.mark.parametrize(("page", "rules", "given", "allowed", "why"), CASES, ids=[f"{n} {case[4]}" for n, case in enumerate(CASES)])
def test_near_the_limit_the_page_says_what_the_standard_says(
    page: str, rules: str, given: dict[str, str], allowed: tuple[str, ...], why: str
) -> None:
    kind = check_called(page)
    asked = fill(kind, defaults(kind, rules) | given, rules=rules)
    assert not asked.problems, asked.problems
    assert asked.answer().verdict in allowed, why
