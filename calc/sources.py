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
BY_DEFINITION = "exact by definition"
TRANSCRIBED = "read in a public transcription"
REGULATION = "read in the public text of the regulation"


@dataclass(frozen=True)
class Source:
    """A published work, or a place in it.

    had: how we have it; begins with "read", or is one of FROM_MEMORY, PRACTICE, DERIVED and BY_DEFINITION.
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
        return cited if self.had.lower() == self.work.lower() else f"{cited} ({self.had})"


# --- no work to point to -------------------------------------------------------------------------------------

COMMON_PRACTICE = Source(PRACTICE.capitalize(), "", PRACTICE)
OWN_DERIVATION = Source(DERIVED.capitalize(), "", DERIVED)
DEFINITION = Source("NIST SP 811, Guide for the Use of the International System of Units", "2008", BY_DEFINITION)

# --- wiring in the United States -----------------------------------------------------------------------------

NEC_2023 = Source("NFPA 70, National Electrical Code", "2023", TRANSCRIBED)
CFR_33_183 = Source("33 CFR 183, Boats and Associated Equipment", "", REGULATION)
CFR_49_171 = Source("49 CFR 171, Hazardous Materials, General Information and Definitions", "", REGULATION)
CFR_30_18 = Source("30 CFR 18, Electric Motor-Driven Mine Equipment and Accessories", "", REGULATION)
NEMA_WD_6 = Source(
    "ANSI/NEMA WD 6, Wiring Devices, Dimensional Specifications", "2016", "read in public reference pages"
)
NEMA_250 = Source("NEMA 250, Enclosures for Electrical Equipment", "1997", "read in public reprints of its annex")
SAE_J1772 = Source("SAE J1772, Conductive Charge Coupler", "2017", "read in the manuals of two test instruments")
ABYC_E_11 = Source(
    "ABYC E-11, AC and DC Electrical Systems on Boats", "", "read in public reprints, edition not stated there"
)
UL_486A_486B = Source("UL 486A-486B, Wire Connectors", "", "read in a scan of the annex of NFPA 70 that reprints it")
ASTM_B258 = Source(
    "ASTM B258, Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid Round Wires Used as Electrical Conductors",
    "2018",
    "from memory, confirmed by a published wire table",
)

IEC_60529 = Source("IEC 60529, Degrees of protection provided by enclosures (IP Code)", "2013", FROM_MEMORY)
ANSI_C84_1 = Source("ANSI C84.1, Electric Power Systems and Equipment, Voltage Ratings", "2020", FROM_MEMORY)
OSHA_1926_404 = Source("29 CFR 1926.404, Wiring design and protection", "", REGULATION, "(b)(1), (f)(3)")
UL_489 = Source(
    "UL 489, Molded-Case Circuit Breakers", "2016", "read in a maker's notes on the standard, in part from memory"
)
UL_62 = Source(
    "UL 62, Flexible Cords and Cables", "2018", "read in a public list of walls after it, the rest from memory"
)
UL_943 = Source("UL 943, Ground-Fault Circuit-Interrupters", "2016", "read in public excerpts")
UL_1741 = Source("UL 1741 and IEEE 1547, Inverters and their interconnection", "2018", FROM_MEMORY)
IEC_60364_4_41 = Source("IEC 60364-4-41, Protection against electric shock", "2017", FROM_MEMORY)
IEC_60335 = Source("IEC 60335-1, Household and similar electrical appliances, Safety", "2020", FROM_MEMORY)
IEC_60364_5_55 = Source("IEC 60364-5-55, Other equipment, low-voltage generating sets", "2011", FROM_MEMORY)
IEC_60974 = Source("IEC 60974-1, Arc welding equipment, Welding power sources", "2017", FROM_MEMORY)
IEC_61008 = Source("IEC 61008-1, Residual current operated circuit-breakers", "2010", FROM_MEMORY, "Table 1")

# --- wiring elsewhere ----------------------------------------------------------------------------------------

IEC_60364_5_52 = Source(
    "IEC 60364-5-52, Selection and erection of electrical equipment, Wiring systems", "2009", TRANSCRIBED
)
IEC_60364_1 = Source(
    "IEC 60364-1, Low-voltage electrical installations, Fundamental principles", "2005", FROM_MEMORY
)
IEC_60364_4_43 = Source("IEC 60364-4-43, Protection against overcurrent", "2008", TRANSCRIBED)
IEC_60364_5_54 = Source("IEC 60364-5-54, Earthing arrangements and protective conductors", "2011", FROM_MEMORY)
EN_50160 = Source("EN 50160, Voltage characteristics of electricity supplied by public networks", "2010", FROM_MEMORY)
IEC_60364_7_722 = Source("IEC 60364-7-722, Supplies for electric vehicles", "2018", FROM_MEMORY)
IEC_61660 = Source(
    "IEC 61660-1, Short-circuit currents in d.c. auxiliary installations in power plants and substations",
    "1997",
    FROM_MEMORY,
)
ICEA_P_32_382 = Source("ICEA P-32-382, Short circuit characteristics of insulated cables", "1999", FROM_MEMORY)
IEC_60949 = Source(
    "IEC 60949, Calculation of thermally permissible short-circuit currents",
    "1988",
    "from memory, confirmed by the factors k of IEC 60364-4-43",
)
IEC_60228 = Source("IEC 60228, Conductors of insulated cables", "2004", "read in a cable maker's reprint")
IEC_60287 = Source("IEC 60287-1-1, Electric cables, Calculation of the current rating", "2006", FROM_MEMORY)
EN_50525 = Source(
    "EN 50525, Low voltage energy cables of rated voltages up to 450/750 V, and IEC 60245-4",
    "2011",
    "from memory, in part confirmed by public data",
)
EN_62444 = Source("EN 62444, Cable glands for electrical installations", "2013", "read in two public pages about it")
IEC_60309 = Source(
    "IEC 60309-1 and IEC 60309-2, Plugs, socket-outlets and couplers for industrial purposes",
    "1999",
    "read in makers' reference pages",
)
IEC_60898 = Source(
    "IEC 60898-1, Circuit-breakers for household installations, and IEC 60269-1, Low-voltage fuses",
    "2015 and 2006",
    "read in a trade list, confirmed by ISO 3",
)
IEC_61851 = Source(
    "IEC 61851-1, Electric vehicle conductive charging system",
    "2017",
    "read in the manuals of two charging controllers",
)
BS_7671 = Source("BS 7671, Requirements for Electrical Installations", "2008", "read in a cable maker's reprint")

FUEL_CHART = Source(
    "Approximate fuel consumption of diesel generators, a chart of the trade", "", "read in three public pages that agree"
)

# --- measuring what was built ----------------------------------------------------------------------------------

IEC_61960 = Source(
    "IEC 61960-3 and IEC 61951, Secondary cells and batteries, internal resistance from two loads",
    "2017 and 2011",
    "read in the manuals of two electronic loads that quote them",
)
IEC_61683 = Source("IEC 61683, Photovoltaic systems, Power conditioners, Procedure for measuring efficiency", "1999", FROM_MEMORY)
IEC_60076_2 = Source(
    "IEC 60076-2, Power transformers, Temperature rise, extrapolation from three readings", "1993", FROM_MEMORY, "annex C"
)
IEEE_450 = Source(
    "IEEE 450 and IEEE 1188, Maintenance, Testing and Replacement of stationary batteries",
    "2010 and 2005",
    "read in two maintenance manuals that quote them",
)
NETA_MTS = Source(
    "ANSI/NETA MTS, Maintenance Testing Specifications, suggested actions by temperature rise",
    "2011",
    "read in a public reprint",
    "Table 100.18",
)
UL_498 = Source("UL 498, Attachment Plugs and Receptacles, temperature test", "2017", FROM_MEMORY)
UL_TEMPERATURE = Source(
    "UL temperature tests: constant when three readings a tenth of the time apart show no rise",
    "",
    "read in excerpts of two standards",
)
RECEPTACLE_READINGS = Source(
    "What volts at an outlet tell, two articles of the electrical trade", "", "read in public pages"
)

# --- the sun ---------------------------------------------------------------------------------------------------

MERRA_2 = Source(
    "Daily sun on flat ground by cell and month, from the reanalysis MERRA-2 (Gelaro and others 2017; Pfenninger, Staffell 2016)",
    "2011 to 2015",
    "read in the public package gsee-climate-data 1.0.0",
)
TMY3 = Source("Typical meteorological year, station 723170", "TMY3, 2008", "read in the file that ships with a general library")
WMM_2025 = Source(
    "World Magnetic Model, of the US National Centers for Environmental Information and the British Geological Survey",
    "2025, to 2030",
    "read in the coefficient file that a public package ships",
)
IEC_60904 = Source("IEC 60904-3, Photovoltaic devices, Measurement principles", "2019", FROM_MEMORY)
SOLAR_DAY = Source(
    "Diffuse share, hours and plane of a day's sun (Erbs, Klein, Duffie 1982; Collares-Pereira, Rabl 1979; Hay, Davies 1980)",
    "",
    "from memory, held to a general library of solar physics in our tests",
)

# --- general libraries, as independent oracles ---------------------------------------------------------------

SINGLE_DIODE = Source(
    "The single-diode model of a crystalline panel, by a general library of solar physics", "", "read off a run of it in our tests"
)
SKY_RUN = Source(
    "Whole-year weather files through the sky and plane of a general library of solar physics", "", "read off a run of it in our tests"
)
NGSPICE = Source("ngspice, a circuit simulator", "39", "read off a run of it in our tests")
SOLVER = Source(
    "An adaptive solver of differential equations, of a general library", "", "read off a run of it in our tests"
)

# --- cars, chargers and inverters ----------------------------------------------------------------------------

EPA_LABEL = Source("40 CFR 600.311-12, Determination of values for fuel economy labels", "2011", REGULATION)
AAA_2019 = Source(
    "AAA, Electric Vehicle Range Testing", "2019", "read in the key findings of the report and in the press"
)
CHARGING_STUDY = Source(
    "An Assessment of Level 1 and Level 2 Electric Vehicle Charging Efficiency", "2013", "read in its abstract"
)
CAR_OVERHEAD = Source(
    "What electric cars keep for themselves while they charge, from owners' measurements", "", FROM_MEMORY
)
ENGINEERING_ECONOMICS = Source(
    "Compound interest tables of engineering economics, capital recovery factor (A/P)", "", FROM_MEMORY
)
LFP_SHEETS = Source(
    "Data sheets of lithium iron phosphate batteries", "", "read in two public sheets whose makers are not named"
)
LOSS_MODEL = Source("Wechselrichter-Wirkungsgrade, in Sonnenenergie, number 4", "1996", FROM_MEMORY)

# --- moving it -----------------------------------------------------------------------------------------------

CART_FORCES_1999 = Source(
    "Factors affecting minimum push and pull forces of manual carts, in Applied Ergonomics 30",
    "1999",
    "read in its abstract",
)
TYRE_TABLES = Source(
    "Tables of the rolling resistance of tyres in two engineering handbooks",
    "",
    "read in public pages that do not state the edition",
)
AISI_S100 = Source(
    "AISI S100, Specification for the Design of Cold-Formed Steel Structural Members", "2016", FROM_MEMORY, "section J4"
)
NIOSH_LIFTING = Source(
    "NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation", "1994", FROM_MEMORY, "load constant"
)
HSE_L23 = Source(
    "HSE L23, Manual handling, Guidance on Regulations, screening filter",
    "2016",
    "read in a public research report that quotes it, and in the authority's own page",
)
