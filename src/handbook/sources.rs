//! The bibliography: every source that a figure or an equation names.

/// How far a source can be leaned on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Printed, and the figure was read there.
    Published,
    /// Believed to be printed there, but put down from memory.
    Recalled,
    /// A fact of the trade that nobody is known to have printed.
    CommonPractice,
    /// This program's own judgement, with its reasons beside it.
    Judgement,
}

impl Standing {
    /// In words, for the page.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Recalled => "from memory, not re-read",
            Self::CommonPractice => "common practice, no source",
            Self::Judgement => "a judgement of this program",
        }
    }
}

/// One entry of the bibliography.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// Short form for beside a figure.
    pub short: &'static str,
    /// Author, year, title, place.
    pub full: &'static str,
    /// How far it can be leaned on.
    pub standing: Standing,
}

macro_rules! sources {
    ($($name:ident: $standing:ident, $short:literal, $full:literal;)*) => {
        $(#[doc = $full] pub static $name: Source = Source {
            short: $short,
            full: $full,
            standing: Standing::$standing,
        };)*
        /// All of them, in alphabetical order of their short form.
        pub static ALL: &[&Source] = &[$(&$name),*];
    };
}

sources! {
    AIR_JUDGEMENT: Judgement, "Air and water limits",
        "Mean air in the chosen pot against use: drawn from Bunt 1974 (growth falls below 10 % air when over-watered), nursery guidelines of 13 to 30 % for containers and the practice of seed and plug raising. The often quoted 20 to 30 % of De Boodt and Verdonck is air at one suction of 10 cm, not the mean of a pot, and is not used here.";
    BUNT_1974: Published, "Bunt 1974",
        "Bunt, A. C. 1974. Some physical and chemical characteristics of loamless pot-plant substrates and their relation to plant growth. Acta Horticulturae 37:1954-1965 (abstract).";
    COMMON_PRACTICE: CommonPractice, "Common practice",
        "A fact of the trade for which no printed source is known.";
    LEGIONELLA_ADVICE: Published, "Compost hygiene advice",
        "Public health advice on Legionella longbeachae in composts: gloves, bags opened away from the face, moistened, in moving air, hands washed (Public Health Scotland 2024; a horticultural society's advice of 3 September 2010).";
    DE_BOODT_1972: Recalled, "De Boodt and Verdonck 1972",
        "De Boodt, M. and Verdonck, O. 1972. The physical properties of the substrates in horticulture. Acta Horticulturae 26:37-44.";
    DE_LARRARD_1999: Recalled, "de Larrard 1999",
        "de Larrard, F. 1999. Concrete Mixture Proportioning: A Scientific Approach. Chapter 1, linear packing density model.";
    DURNER_1994: Recalled, "Durner 1994",
        "Durner, W. 1994. Hydraulic conductivity estimation for soils with heterogeneous pore structure. Water Resources Research 30:211-223.";
    HERSHEY_1988: Published, "Hershey 1988",
        "Hershey, D. R. 1988. Container volume from pot dimensions. HortScience 23:626 (abstract).";
    HSE_L23: Recalled, "Manual handling guidance",
        "Health and Safety Executive, Manual handling, L23 and INDG143: guideline filter for lifting and lowering. Guidelines, not limits.";
    MAXIM_2014: Published, "Maxim et al. 2014",
        "Maxim, L. D., Niebo, R. and McConnell, E. E. 2014. Perlite toxicology and epidemiology: a review. Inhalation Toxicology 26:259-270.";
    MILKS_1989: Published, "Milks et al. 1989",
        "Milks, R. R., Fonteno, W. C. and Larson, R. A. 1989. Hydrology of horticultural substrates: II. Predicting physical properties of media in containers. Journal of the American Society for Horticultural Science 114:53-56 (abstract).";
    MILLER_1956: Recalled, "Miller and Miller 1956",
        "Miller, E. E. and Miller, R. D. 1956. Physical theory for capillary flow phenomena. Journal of Applied Physics 27:324-332.";
    POT_GUIDE: Published, "Nursery pot guides",
        "Inside sizes of generic nursery pots as printed in two growers' pot guides; names in litres are nominal, so volumes here come from the sizes.";
    PORE_SPACE_SEEN: Recalled, "Pore space as measured",
        "Class ranges from memory of substrate handbooks, widened and lowered to hold porometer measurements, which leave some air trapped: International Journal of Agronomy 2012:978528 table 1 (peat 98, bark 79 %), coir dust of five sources, HortScience 1996 (85.5 to 89.5 %), Soto-Bravo and Betancourt-Flores 2022 (coir 91.7 %), Anicua-Sanchez et al. 2008 (perlite 85, scoria 67.5, pumice 72.2 %).";
    MODEL_SHAPE: Judgement, "Shape below 10 cm of suction",
        "How far the summed curve of a mix may be off below 10 cm of suction. The gaps between grains are taken to empty as in one measured sand (Salim and Hampton 2012), and fines fill gaps that the sum leaves open; published perlite and rice hulls drain faster than this shape.";
    SILICA_LIMIT: Recalled, "Silica dust limit",
        "EH40 and COSHH: workplace limit for respirable crystalline silica of 0.1 mg/m3 over eight hours.";
    CONSENSUS: Recalled, "Substrate handbooks",
        "The common ground of substrate handbooks (Bunt 1988, Media and Mixes for Container-Grown Plants; Handreck and Black 2010, Growing Media; Raviv and Lieth 2008, Soilless Culture), put down from memory and not read off one table. A class of material, not your heap.";
    VAN_GENUCHTEN_1980: Recalled, "van Genuchten 1980",
        "van Genuchten, M. Th. 1980. A closed-form equation for predicting the hydraulic conductivity of unsaturated soils. Soil Science Society of America Journal 44:892-898.";
    VERHAGEN_2017: Published, "Verhagen 2017",
        "Verhagen, J. B. G. M. 2017. Density of growing media in pots against their declared volume (EN 12580). Acta Horticulturae 1168:14.";
}
