"""Every published work that Barrowatt leans on, cited once and by name.

A source says four things: which work, which edition, where in it, and how we have it. "Read" means that the figures
were read in public text by the people who wrote this; it never means that we own the standard. Figures kept in
`calc/tables/` say more in the head of their file: which cells were read, which recalled, what confirmed them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

FROM_MEMORY = "from memory"
PRACTICE = "common practice, no published source"
DERIVED = "own derivation"
TRANSCRIBED = "read in public transcriptions"


@dataclass(frozen=True)
class Source:
    """A published work, or a place in it.

    had: how we have it. One of "read ..." with the kind of text it was read in, "from memory",
    "common practice, no published source", "own derivation" or "exact by definition".
    """

    work: str
    edition: str
    had: str
    place: str = ""

    def at(self, place: str, had: str = "") -> Source:
        """The same work at a table or clause; `had` where that one was had in another way than the rest."""
        return replace(self, place=place, had=had or self.had)

    def __str__(self) -> str:
        cited = ", ".join(part for part in (self.work, self.edition, self.place) if part)
        return f"{cited} ({self.had})" if self.had.lower() != cited.lower() else cited


# --- no work to point to -------------------------------------------------------------------------------------

COMMON_PRACTICE = Source(PRACTICE.capitalize(), "", PRACTICE)
OWN_DERIVATION = Source(DERIVED.capitalize(), "", DERIVED)
DEFINITION = Source("NIST SP 811, Guide for the Use of the International System of Units", "2008", "exact by definition")

# --- wiring in the United States -----------------------------------------------------------------------------

NEC_2023 = Source("NFPA 70, National Electrical Code", "2023", TRANSCRIBED)
CFR_33_183 = Source("33 CFR 183, Boats and Associated Equipment", "as in force", "read in the public text of the regulation")
CFR_30_18 = Source("30 CFR 18, Electric Motor-Driven Mine Equipment", "as in force", "read in the public text of the regulation")
NEMA_WD_6 = Source("ANSI/NEMA WD 6, Wiring Devices, Dimensional Specifications", "2016", TRANSCRIBED)
SAE_J1772 = Source("SAE J1772, Conductive Charge Coupler", "2017", "read in the manuals of test instruments")
ABYC_E_11 = Source("ABYC E-11, AC and DC Electrical Systems on Boats", "2021", TRANSCRIBED)
UL_486A_486B = Source("UL 486A-486B, Wire Connectors", "2018", TRANSCRIBED)

# --- wiring elsewhere ----------------------------------------------------------------------------------------

IEC_60364_5_52 = Source("IEC 60364-5-52, Selection and erection of electrical equipment, Wiring systems", "2009", TRANSCRIBED)
IEC_60364_4_43 = Source("IEC 60364-4-43, Protection against overcurrent", "2008", TRANSCRIBED)
IEC_60364_5_54 = Source("IEC 60364-5-54, Earthing arrangements and protective conductors", "2011", FROM_MEMORY)
IEC_60228 = Source("IEC 60228, Conductors of insulated cables", "2004", TRANSCRIBED)
IEC_60287 = Source("IEC 60287-1-1, Electric cables, Calculation of the current rating", "2006", TRANSCRIBED)
IEC_60309 = Source("IEC 60309-1, Plugs, socket-outlets and couplers for industrial purposes", "1999", TRANSCRIBED)
IEC_60898 = Source("IEC 60898-1 and IEC 60269-1, Circuit-breakers and fuses", "2015 and 2014", TRANSCRIBED)
BS_7671 = Source("BS 7671, Requirements for Electrical Installations", "2018", TRANSCRIBED)
ASTM_B258 = Source("ASTM B258, Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid Round Wires", "2018", TRANSCRIBED)

# --- cars, chargers and inverters ----------------------------------------------------------------------------

EPA_LABEL = Source("40 CFR 600.311-12, fuel economy label values", "2011", "read in the public text of the regulation")
AAA_2019 = Source("AAA, Electric Vehicle Range Testing", "2019", "read in summaries in the press")
CHARGING_STUDY = Source("Sears, Roberts and Glitman, A comparison of electric vehicle Level 1 and Level 2 charging efficiency, IEEE SusTech", "2014", FROM_MEMORY)
LOSS_MODEL = Source("Schmidt and Sauer, Wechselrichter-Wirkungsgrade, Sonnenenergie 4", "1996", FROM_MEMORY)
