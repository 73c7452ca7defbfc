"""What people see, and where it leads: the fault finder's trees.

Each way ends after one to three looks in a likely cause; the page that works it out is named with it.
"""

from __future__ import annotations

from calc.faults import DISPLAY, EYE, METER, PLUG, THERMOMETER, Cause, Look, Symptom

_BOND = Cause("Neutral and ground are not bonded in this mode", "protect/bond-and-ground", "Have the inverter's bond set right for inverting alone; never fool the car's own test")
_CORD_WORN = Cause("Plug or cord is worn: its contacts have lost their spring", "prove/cord-drop", "Cut it off and fit a new one; do not turn it round and use it on")
_SAG = Cause("The volts sag under the load", "wire/extension-cord", "Use a shorter or thicker cord, straight from the outlet")

CAR_REFUSES = Symptom(
    "car-refuses",
    "The car refuses to charge",
    Look(
        "What does the charging unit or the car say?",
        DISPLAY,
        (
            (
                "Ground fault, no ground, or a red light at once",
                Look(
                    "Is the rig inverting alone, or plugged into a wall?",
                    EYE,
                    (
                        ("Inverting alone", _BOND),
                        ("Plugged into a wall", Cause("The wall's ground is missing, or there are two bonds", "prove/neutral-to-ground", "Read the three volts at the outlet with a plug-in tester, and have the wall or the bond mended")),
                    ),
                ),
            ),
            (
                "It begins, then stops within a minute",
                Look(
                    "What do the volts at the outlet do as it begins?",
                    METER,
                    (
                        ("They fall under 110 V (220 V on two legs)", _SAG),
                        ("They hold, and the inverter shows overload", Cause("The car is set to more than the inverter gives on that leg", "run/car-current", "Set the car to the amps of its page, and leave other loads off that leg")),
                        ("They hold, and the breaker is out", Cause("The breaker sees more than 80 % of itself for hours", "run/car-current", "Set the car to the amps of its page")),
                    ),
                ),
            ),
            ("Nothing at all", Look("Has the outlet volts?", METER, (
                ("No", Cause("A breaker or ground-fault device is open, or the inverter is asleep", "protect/ground-fault", "Unplug, press its button, try with a lamp; if it opens again leave it open")),
                ("Yes", Cause("The pattern has no neutral, no ground or no second leg for this unit", "choose/outlet", "Compare the outlet's pattern with the unit's plug; no adapter puts in a contact that is not there")),
            ))),
        ),
    ),
)  # fmt: skip

TRIPS_AT_START = Symptom(
    "trips-at-start",
    "It trips or goes dark when a tool starts",
    Look(
        "What opened?",
        EYE,
        (
            (
                "The inverter shut down or shows overload",
                Look(
                    "Does it start with everything else unplugged?",
                    PLUG,
                    (
                        ("Yes", Cause("Together they ask more than the inverter gives in a start", "run/loads-together", "Start the hardest one first, then the rest one by one")),
                        (
                            "No",
                            Look(
                                "What is the bank's lowest volts on the monitor during the start?",
                                DISPLAY,
                                (
                                    ("At or under the inverter's cut-off", Cause("The bank or its cable sags to the cut-off", "choose/bank-current", "Charge it, warm it, and measure the bank's resistance and each joint")),
                                    ("Well above it", Cause("The start current is more than the surge rating, or one leg's half of it", "run/tool-on-outlet", "A smaller tool, an unloaded start, or a soft start on the motor")),
                                ),
                            ),
                        ),
                    ),
                ),
            ),
            ("The outlet's breaker", Cause("The start is more than the breaker holds, or the breaker is for less than the tool", "run/tool-on-outlet", "An outlet with the breaker that the tool's manual asks for; never a larger breaker on the same wire")),
            ("The ground-fault device", Cause("The tool leaks to its metal, or it is wet", "protect/ground-fault", "Take the tool out of use until it is dry and tested")),
            ("The main fuse, or the battery's own protection", Cause("More current than fuse or battery allow", "choose/bank-current", "Find out which of the two, and what asked for it, before anything is replaced")),
        ),
    ),
)  # fmt: skip

CHARGES_SLOWLY = Symptom(
    "charges-slowly",
    "It charges slowly",
    Look(
        "What amps does the charger show?",
        DISPLAY,
        (
            (
                "Less than it is set to, and the cells are under 15 °C or over 45 °C",
                Cause("The battery holds the charger back for its temperature", "refill/battery-limit", "Warm or cool the cells first"),
            ),
            (
                "Less than it is set to, at a good temperature",
                Look(
                    "What is the charge on the monitor?",
                    DISPLAY,
                    (
                        ("Over about 90 %", Cause("It tapers at the end, as it should", "refill/hours-to-full", "Wait, or stop here: the last tenth takes longest")),
                        ("Lower", Look("Do tools run on the rig at the same time?", EYE, (
                            ("Yes", Cause("What passes through to the tools is taken from the charger", "refill/inlet-rate", "Switch the tools off, or use an outlet with a larger breaker")),
                            ("No", Cause("The input limit is set lower than the outlet allows, or its volts sag", "refill/inlet-rate", "Set the input limit to what its page says for this outlet; use a thicker, shorter cord")),
                        ))),
                    ),
                ),
            ),
            ("What it is set to", Cause("It gives what it is set to: the bank is large for this charger", "refill/hours-to-full", "Plan more hours; raise the setting only to what cells, charger and outlet allow")),
            ("It fills from the sun only", Cause("Month, tilt, heading or shade", "refill/sun-today", "Compare with a typical day of this month; wipe the glass; move it out of shade")),
        ),
    ),
)  # fmt: skip

SHUTS_DOWN = Symptom(
    "shuts-down",
    "It shuts down with charge left",
    Look(
        "What do the volts on the monitor show just before?",
        DISPLAY,
        (
            (
                "They fall to the inverter's cut-off under load, and come back at once",
                Look(
                    "How warm are the cells?",
                    DISPLAY,
                    (
                        ("Under 10 °C", Cause("Cold cells sag and give less; it is not lost", "shelter/cold-capacity", "Warm them, or begin with a small load")),
                        (
                            "Warmer",
                            Look(
                                "Is one lug or cable warmer than its twin after ten minutes of load?",
                                THERMOMETER,
                                (
                                    ("Yes", Cause("A joint or crimp is bad", "prove/joint-drop", "Switched off: clean it, tighten it to the maker's torque, measure again")),
                                    ("No", Cause("The bank's resistance is too high for this load", "prove/bank-resistance", "Measure it from two loads; look for a string that gives nothing")),
                                ),
                            ),
                        ),
                    ),
                ),
            ),
            ("They stay high, and all is dark at once", Cause("The battery's own protection opened: current, heat, or one weak cell", "choose/bank-current", "Read its reason on the battery's display before it is reset; compare with its limits")),
            ("The inverter shows heat", Cause("It gives less in heat and height, or its air is blocked", "shelter/derating", "Shade it, free its grilles, take load off")),
            ("The monitor jumps from high to nothing", Cause("The monitor has lost count, or the bank holds less than its plate", "prove/capacity", "Charge it full, set the monitor to full, and test a whole discharge")),
        ),
    ),
)  # fmt: skip

GROUND_FAULT_TRIPS = Symptom(
    "ground-fault-trips",
    "A ground-fault device trips",
    Look(
        "Whose device trips?",
        EYE,
        (
            (
                "The wall's, when the rig is plugged in",
                Look(
                    "Does it trip with the rig's inverter off and all outlets of the rig empty?",
                    PLUG,
                    (
                        ("Yes, at once", Cause("Neutral and ground meet in the rig while the wall feeds it", "protect/bond-and-ground", "Have the rig's own bond opened in this mode, and the outlet box searched, switched off, for a bridge")),
                        ("Only with tools or chargers on it", Cause("What filters leak adds up to the device's limit", "protect/ground-fault", "One at a time, to find the one that leaks most")),
                    ),
                ),
            ),
            (
                "The rig's own",
                Look(
                    "Does it trip with nothing plugged in?",
                    PLUG,
                    (
                        ("Yes", Cause("Neutral touches ground behind the device, or it is wet inside", "prove/neutral-to-ground", "Leave it off; switched off and dry, have the box opened")),
                        ("With one tool only", Cause("That tool or its cord leaks", "protect/ground-fault", "Take it out of use; never bridge the device or take the ground pin off")),
                        ("With any tool, in the wet", Cause("Water in plugs or boxes", "shelter/weather-rating", "Dry them, lift cords off the ground, use covers made for use in the rain")),
                    ),
                ),
            ),
        ),
    ),
    first="Do not use what made it trip until the cause is known: the device has done what it is there for.",
)  # fmt: skip

VOLTS_ODD = Symptom(
    "volts-odd",
    "The volts are odd on one leg",
    Look(
        "Do the two legs together still make about 240 V?",
        METER,
        (
            (
                "Yes: one is high, the other low",
                Look(
                    "Does it change when loads on one leg are switched?",
                    METER,
                    (
                        ("Yes", Cause("The neutral is opening", "prove/leg-volts", "Main switch off at once, cord out; have every neutral joint on the way remade")),
                        ("No", Cause("Very unequal loads on a long thin run", "run/legs-and-neutral", "Move loads to the other leg")),
                    ),
                ),
            ),
            ("No: both are low", Cause("The source or the run sags", "wire/wire-for-run", "Less load, a shorter or thicker run; look at the bank's volts as well")),
            ("No: one is missing, the other is right", Cause("One leg is open: half of a breaker, a plug's contact, or the inverter's own protection", "prove/leg-volts", "Switch it all off; reset both legs together, and have the contact found if it comes again")),
            ("Neutral stands well above ground", Cause("No bond, or hot and neutral swapped", "prove/neutral-to-ground", "Use nothing on it until the three readings are explained")),
        ),
    ),
    first="Lamps that grow bright on one leg and dim on the other: switch off at the main switch first, and look afterwards.",
)  # fmt: skip

PLUG_HOT = Symptom(
    "plug-hot",
    "A plug, cord or breaker is hot",
    Look(
        "Which part is hottest, ten minutes after it was switched off?",
        THERMOMETER,
        (
            (
                "The plug or the outlet",
                Look(
                    "Is it brown, soft or loose to the hand, unplugged?",
                    PLUG,
                    (
                        ("Yes", _CORD_WORN),
                        ("No", Cause("It carries more than it may for hours, or a screw inside is loose", "choose/outlet", "Compare the amps with 80 % of its rating; have the screws tightened, switched off")),
                    ),
                ),
            ),
            ("The cord along its length", Cause("The cord is too thin, too long, or coiled on its drum", "wire/extension-cord", "Uncoil it whole; a thicker one")),
            ("One end of a cable, a lug or a fuse", Cause("A joint with too much resistance", "prove/joint-drop", "Switched off: clean it, tighten to the maker's torque, measure its millivolts")),
            ("One of several breakers", Cause("A loose screw, or more current than its neighbours", "prove/hot-spot", "Compare with its twin at the same load")),
        ),
    ),
    first="Too hot to keep a hand on: switch it off now, and leave it off until it is mended.",
)  # fmt: skip

NOT_THIS_MORNING = Symptom(
    "not-this-morning",
    "It will not charge this morning",
    Look(
        "What temperature do the cells show?",
        DISPLAY,
        (
            (
                "Under 0 °C",
                Look(
                    "Does the rig have a heater?",
                    EYE,
                    (
                        ("Yes", Cause("The cells must be warm before they may be charged", "shelter/warm-up", "Run the heater from the wall or the bank until they are; do not force a charge")),
                        ("No", Cause("Below freezing nothing may go in", "refill/battery-limit", "Bring it in, or wait for the day: hours, not minutes; a load warms cells a little from inside")),
                    ),
                ),
            ),
            ("0 °C to 10 °C", Cause("Only a small current may go in", "refill/battery-limit", "Set the charger to what its page says for these cells")),
            (
                "Warmer",
                Look(
                    "Is there water or ice on the inlet, or fog behind its cover?",
                    EYE,
                    (
                        ("Yes", Cause("Damp in plugs and boxes in the morning", "shelter/sweat", "Cord out, wait until it is dry, warm it slightly; look for the gap that lets it in")),
                        ("No", Look("Does the wall's outlet work with something else?", PLUG, (
                            ("No", Cause("The wall's breaker or ground-fault device is open", "protect/ground-fault", "Reset it once; if it opens again, unplug and see that symptom")),
                            ("Yes", Cause("The source is refused: its volts, hertz or limit", "refill/inlet-rate", "Read the inverter's message; lower the input limit; try without the long cord")),
                        ))),
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip

NEVER_FULL = Symptom(
    "never-full",
    "It never gets full",
    Look(
        "Does the charger still give amps when it stops?",
        DISPLAY,
        (
            ("No, it stopped at its highest volts", Look("Is its highest volts what the battery's manual asks for?", DISPLAY, (
                ("Lower", Cause("The charger is set too low for this bank", "choose/bank-from-cells", "Set the absorb volts of the battery's manual")),
                ("As asked", Cause("The monitor has lost count, or one cell is ahead of the rest", "prove/capacity", "Keep it at its highest volts for hours, so that it balances; set the monitor to full")),
            ))),
            ("Yes, it ran out of time", Look("Where does it fill from?", EYE, (
                ("An outlet", Cause("The hours are too few for this outlet and charger", "refill/hours-to-full", "More hours, a stronger outlet, or fewer tools meanwhile")),
                ("The sun", Cause("Too little sun for what is used", "refill/days-from-sun", "More days, more panel, less use; look for shade at noon")),
                ("A generator", Cause("It is stopped too early, or lightly loaded", "refill/generator", "Run it in one stretch while the bank is low")),
            ))),
            ("It stands switched on and unused for days", Cause("It idles away what goes in", "prove/idle-draw", "Switch the inverter off when it is not used")),
            ("Yes, but less comes out than goes in", Cause("More is lost on the way than should be", "prove/round-trip", "Measure both ways with the same meters")),
        ),
    ),
)  # fmt: skip

SYMPTOMS = (
    CAR_REFUSES,
    TRIPS_AT_START,
    CHARGES_SLOWLY,
    SHUTS_DOWN,
    GROUND_FAULT_TRIPS,
    VOLTS_ODD,
    PLUG_HOT,
    NOT_THIS_MORNING,
    NEVER_FULL,
)
