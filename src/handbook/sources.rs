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
    TRAPPED_ON_WETTING: Judgement, "Air trapped on wetting",
        "Pores from soaking are fewer than from densities, always (Bartley, Jackson and Fonteno 2018, conference abstract), and by more the drier a medium was wetted. By how much: pore space of peat and coir blends as printed (Evans and Gachukia, GPN magazine; University of Arkansas, unit 7, table 1) against that of their parts; coir by porometers against coir from densities; a porometer with hardly any (International Journal of Agronomy 2012:978528, table 1).";
    ALTLAND_2019: Published, "Altland 2019",
        "Altland, J. E. 2019. Lime rate affects substrate pH and container-grown birch trees. Communications in Soil Science and Plant Analysis 50(1):93-101 (abstract).";
    BARK_MEASURED: Published, "Bark as measured",
        "Pine bark: six sources at about 80.5 % pore space at any age (Virginia Tech, vtechworks 10919/97261, abstract); 79 %, 180 g/L (International Journal of Agronomy 2012:978528, table 1); 170 g/L as potted (Alred et al. 2024, HortScience 59:1477). The spread is this program's.";
    HERB_LIGHT_2023: Published, "Basil and mint by light",
        "Modeling growth and development of hydroponically grown purple basil, sage, spearmint, and sweet basil in response to daily light and mean daily temperature. PLoS ONE, January 2023 (abstract): sweet basil heaviest at 32.6 to 35.5 °C, spearmint at 27.8 to 30.4 °C. Leaves come fastest a little lower.";
    BASIL_AIR: Published, "Basil at five temperatures",
        "Managing air temperatures for basil growth and development, a university trial reported in a growers' magazine: four basils for three weeks at 11, 17, 23, 28 and 35 °C; at 11 °C hardly any growth. The base is drawn from that sentence.";
    BASIL_CHILL: Published, "Basil in the cold",
        "Lang, A. and Cameron, A. 1994 (as cited by others): cut sweet basil is harmed below 12 °C. A university greenhouse notice of 19 March 2021: basil may not survive below 5.6 °C.";
    BASIL_SEED: Published, "Basil seed, two studies",
        "Effects of temperature on sweet basil germination, poster 252-13, meetings of the agronomy, crop and soil science societies of America 2012 (six cultivars: base 11.8, optimum 35, ceiling 43 °C); Determination of germination cardinal temperatures in two basil cultivars, University of Birjand (green 6.1, 29.0 and 43.6 °C; purple 7.0, 25.0 and 41.8 °C, at most 73 % came up). Abstracts. They disagree, and best figures lie between.";
    BED_GAPS: Recalled, "Bed gaps by grain",
        "A table of curves fitted to gravel, coarse sand and sand in an open-access paper whose title was not seen (clean gravel: n 2.70, 86 400 cm/d; coarse sand: n 2.92, 8448 cm/d), with the sand class of Carsel and Parrish 1988, Water Resources Research 24:755, from memory. Scaled to 1 mm as similar media, the gravel taken as grains of 4 mm. The spread is this program's.";
    BED_JUDGEMENT: Judgement, "Bed judgements",
        "No measured conductivity of perlite, pumice, scoria or clay grains from grain to grain was found, nor of potting mixes while a tray empties: wide ranges, hundredfold for grain to grain. How a day's weather changes what a plant drinks, likewise. A tube test and a pot weighed of your own go before them.";
    BENCH_HEAT_GUIDE: Published, "Bench heat as advised",
        "A university's guide to hot water under benches, reported in a growers' magazine: 15 to 25 Btu/h ft² with water of 38 to 49 °C. The best figure is the middle of the two.";
    BIERHUIZEN_1974: Recalled, "Bierhuizen and Wagenvoort 1974",
        "Bierhuizen, J. F. and Wagenvoort, W. A. 1974. Some aspects of seed germination in vegetables. 1. The determination and application of heat sums and minimum temperature for germination. Scientia Horticulturae 2:213-219. Only those figures are used that agree with Harrington and Minges 1954.";
    BISHKO_2002: Published, "Bishko et al. 2002",
        "Bishko, A. J., Fisher, P. R. and Argo, W. R. 2002. Quantifying the pH-response of a peat-based medium to application of basic chemicals. HortScience 37:511 (abstract): 0 to 1.5 kg/m³ of hydrated dolomitic lime took 70 peat : 30 perlite from pH 3.4 to 6.4.";
    BLOK_2019: Published, "Blok et al. 2019",
        "Blok, C., Eveleens, B., van Winkel, A. and Veeken, A. 2019. Using a simple mixing model to predict rooting media properties. Acta Horticulturae 1266:413-420 (abstract): most modelled values, conductivity among them, within 5 % of measured for 2 to 9 parts; pH cannot yet be modelled.";
    BUNT_1974: Published, "Bunt 1974",
        "Bunt, A. C. 1974. Some physical and chemical characteristics of loamless pot-plant substrates and their relation to plant growth. Acta Horticulturae 37:1954-1965 (abstract).";
    BUNT_1988_CEC: Published, "Bunt 1988, exchange capacity",
        "Bunt, A. C. 1988, Media and Mixes for Container-Grown Plants, as reprinted by others: sphagnum peat 100 to 120, vermiculite 150, perlite 1.5, aged bark 40 to 60 meq per 100 g.";
    CARRION_2005: Published, "Carrion et al. 2005",
        "Carrión, C., Abad, M., Maquieira, A., Puchades, R., Fornes, F. and Noguera, V. 2005. Leaching of composts from agricultural wastes to prepare nursery potting media. Acta Horticulturae 697:117-124 (abstract): effluents must be managed with care, to keep salts out of the environment.";
    COIR_MEASURED: Published, "Coir as measured",
        "Coir dust of thirteen sources, pore space above 94 % (Abad and others 2005, HortScience, abstract); 94.3 % (Anicua-Sanchez et al. 2008, Acta Horticulturae 779, abstract). By porometers, which leave air trapped: five sources 85.5 to 89.5 %, 40 to 80 g/L (HortScience 1996, 31:965, abstract); 91.7 % (Soto-Bravo and Betancourt-Flores 2022, Agronomia Costarricense 46(2):29). The spread is this program's.";
    EVANS_1996: Published, "Coir of twelve sources",
        "Evans, M. R., Konduru, S. and Stamps, R. H. 1996. Source variation in physical and chemical properties of coconut coir dust. HortScience 31:965 (abstract): pH 5.6 to 6.9, conductivity 0.3 to 2.9 mS/cm, exchange capacity 39 to 60 cmol/kg.";
    LEGIONELLA_ADVICE: Published, "Compost hygiene advice",
        "Public health advice on Legionella longbeachae in composts: gloves, bags opened away from the face, moistened, in moving air, hands washed (Public Health Scotland 2024; a horticultural society's advice of 3 September 2010).";
    CORIANDER_SEED: Published, "Coriander by sowing time",
        "Effect of sowing time on coriander performance in a semiarid Mediterranean environment, Sparacia (Sicily), 1998 to 2001 (first page): soil at 20 to 23 °C is best for germination.";
    COVER_TABLES: Recalled, "Covers and leaks",
        "ASABE EP406, Heating, ventilating and cooling greenhouses, and CIBSE tables of glazing, from memory; the spread by wind, sky and wet is this program's. Single film against single glass and double film against single agree with two published abstracts (Rasheed et al., Spanish Journal of Agricultural Research; Giacomelli and Roberts, citing Roberts and Mears 1969).";
    CROP_HANDBOOKS: Recalled, "Crop physiology handbooks",
        "The common ground of crop physiology (Wien 1997, The Physiology of Vegetable Crops; Heuvelink 2005, Tomatoes; Krug 1997 and others), put down from memory and not read off one table.";
    CUCUMBER_CHILL: Published, "Cucumber leaves in the cold",
        "Chilling injury in cucumber leaves in relation to temperature (abstract): leaves bear 10 °C for a week, are harmed by three days of 8 °C and by some hours of 5 °C; respiration changes at 12 °C.";
    CURREY_2019: Published, "Currey 2019",
        "Currey, C. J. 2019. Managing temperature in herbs: sweet, lemon and holy basil develop fastest near 84 °F.";
    KNMI_RECALLED: Recalled, "De Bilt normals",
        "Royal Netherlands Meteorological Institute, normals of De Bilt 1991 to 2020, put down from memory; radiation from those of 1981 to 2010, scaled to their printed yearly 354 kJ/cm².";
    DE_BOODT_1972: Recalled, "De Boodt and Verdonck 1972",
        "De Boodt, M. and Verdonck, O. 1972. The physical properties of the substrates in horticulture. Acta Horticulturae 26:37-44.";
    DE_LARRARD_1999: Recalled, "de Larrard 1999",
        "de Larrard, F. 1999. Concrete Mixture Proportioning: A Scientific Approach. Chapter 1, linear packing density model.";
    DILL_SEED: Published, "Dill seed",
        "Evaluation of cardinal temperature for three species of medicinal plants, Ajowan, Fennel and Dill. Desert, Ferdowsi University of Mashhad (abstract): dill 5, 13 and 33.7 °C.";
    DURNER_1994: Recalled, "Durner 1994",
        "Durner, W. 1994. Hydraulic conductivity estimation for soils with heterogeneous pore structure. Water Resources Research 30:211-223.";
    EN_13038: Recalled, "EN 13038",
        "EN 13038:2011, Soil improvers and growing media, determination of electrical conductivity: one volume of material shaken with five of pure water, read at 25 °C.";
    EN_10456: Recalled, "EN ISO 10456",
        "EN ISO 10456, Building materials and products: hygrothermal properties, tabulated design values. The spread is this program's.";
    FAO_56: Published, "FAO-56",
        "Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. 1998. Crop evapotranspiration. FAO Irrigation and Drainage Paper 56, table 12, mid-season coefficient; herbs without a row of their own take that of small vegetables. Made for fields, not for glass.";
    FAROUKI_1982: Published, "Farouki 1982",
        "Farouki, O. T. 1982. Evaluation of methods for calculating soil thermal conductivity. CRREL Report 82-8, as tabled in a manual for ground loops: moist sand 0.9 to 2.8, clay 0.5 to 1.4 W/m K by density and water. A loose bed lies at the lower end.";
    GBOLLIE_2021: Published, "Gbollie et al. 2021",
        "Gbollie, S., Mwonga, S. and Kibe, A. 2021. Effects of calcium nitrate levels and soaking durations on cocopeat nutrient content (abstract): 100 g of calcium nitrate to 1.5 kg of coir in 15 L for 36 hours takes out 78 % of the potassium and 92 % of the sodium.";
    GEOOLA_2009: Published, "Geoola et al. 2009",
        "Geoola, F. et al. 2009. Overall heat transfer coefficient of greenhouse covers and screens. Polymer Testing (abstract): a screen takes about 30 % off. The spread is this program's.";
    HARDENING_ADVICE: Published, "Hardening off as advised",
        "Extension advice on hardening off vegetable plants, as summarised: a newsletter of New England greenhouses (3 to 6 days are enough, less water, full light, not overdone), Maryland (begin one to two weeks before; tender plants no colder than 7.2 °C), Utah and Delaware (one week, with less water and feed). The pages themselves were not read for this program.";
    HARRINGTON_1954: Published, "Harrington and Minges 1954",
        "Harrington, J. F. and Minges, P. A. 1954. Vegetable seed germination. California Agricultural Extension leaflet, as printed in Knott's Handbook for Vegetable Growers and others. Bases and sums are straight lines through its rates; optimum and ceiling lie between its temperatures.";
    HE_2019: Published, "He et al. 2019",
        "He, F. et al. 2019. Effects of root cooling on plant growth and fruit quality of cocktail tomato during two consecutive seasons. Journal of Food Quality 2019:3598172 (abstract): roots of 10 °C against 16 to 27 °C in a winter house of 18 to 23 °C cost 7.9 to 20.9 % of marketable yield, in summer nothing significant. The warmer root is taken to be 20 °C.";
    HEAT_JUDGEMENT: Judgement, "Heat judgements",
        "Films and walls of a closed block of pots, contact of trays, ground under a house in use, air at two heights, covers inside a house, sun below a canopy, and how far a root's warmth tells in growth: no measured figure was found for any, and the ranges are wide. A few days of your own readings go before them.";
    CROP_STAGES: Judgement, "Heat sums by stage",
        "Sums that put the usual ages of young plants at the usual temperatures right, built from practice and held against printed weeks in propagation (Delaware, Utah and Ontario extension tables). Your own batches go before them.";
    HERSHEY_1988: Published, "Hershey 1988",
        "Hershey, D. R. 1988. Container volume from pot dimensions. HortScience 23:626 (abstract).";
    HOT_DAY_JUDGEMENT: Judgement, "Hot days",
        "How far glass with open vents warms by day is what the balance of sun against losses and air changes comes to (3 K well vented, 12 K hardly), unmeasured here; days stray by about 3.7 K about the mean of many years (common practice, no source); what a plant just moved loses to each kelvin too many is a judgement, wide on purpose. A thermometer among the leaves goes before them.";
    HUANG_2007: Published, "Huang et al. 2007",
        "Huang, J., Fisher, P. R. and Argo, W. R. 2007. Container substrate-pH response to differing limestone type and particle size. HortScience 42:1268-1273 (abstract): against pure CaCO3 grains of 0.85 to 2 mm count 0.13 in the first week, 0.15 to 0.25 mm 0.78, below 0.075 mm 1.";
    ISO_7888: Recalled, "ISO 7888",
        "ISO 7888:1985, Water quality, determination of electrical conductivity; and the usual linear correction of 1.91 % per kelvin from 25 °C (APHA Standard Methods 2510), put down from memory.";
    KOOL_1987: Recalled, "Kool and Parker 1987",
        "Kool, J. B. and Parker, J. C. 1987. Development and evaluation of closed-form expressions for hysteretic soil hydraulic properties. Water Resources Research 23:105-114: α of wetting about twice that of drying. The spread is this program's.";
    HSE_L23: Recalled, "Manual handling guidance",
        "Health and Safety Executive, Manual handling, L23 and INDG143: guideline filter for lifting and lowering. Guidelines, not limits.";
    MAXIM_2014: Published, "Maxim et al. 2014",
        "Maxim, L. D., Niebo, R. and McConnell, E. E. 2014. Perlite toxicology and epidemiology: a review. Inhalation Toxicology 26:259-270.";
    NIGHT_MEMORY: Judgement, "Memory of nights",
        "Fitted for this program to daily minima at Clemson, South Carolina, 1930 to 1969 (National Oceanic and Atmospheric Administration). The autocorrelation over 60 days as that of a fast and a slow first-order autoregression: 0.55, 0.95 and a slow share of 0.10. How wide the normal distribution must be: of 1.0, 1.1 and 1.2 times the spread about the season, forecasts of one to three nights and of all of 7, 14 and 21 scored best by their logarithm between the last two. The limits are this program's, wide enough for most of what fits to later records of this and three other places give (fast 0.54 to 0.59; slow 0.85 to 0.98 with a share of 0.06 to 0.20). Held against nights it was not fitted to, out of doors; under glass it was not.";
    MILKS_1989: Published, "Milks et al. 1989",
        "Milks, R. R., Fonteno, W. C. and Larson, R. A. 1989. Hydrology of horticultural substrates: II. Predicting physical properties of media in containers. Journal of the American Society for Horticultural Science 114:53-56 (abstract).";
    MILLER_1956: Recalled, "Miller and Miller 1956",
        "Miller, E. E. and Miller, R. D. 1956. Physical theory for capillary flow phenomena. Journal of Applied Physics 27:324-332.";
    MOSS_1983: Published, "Moss 1983",
        "Moss, G. I. 1983. Root-zone warming of greenhouse tomatoes in nutrient film as a means of reducing heating requirements. Journal of Horticultural Science (abstract): 13 to 16 % more fruit after eight weeks with roots of at least 25 °C. The unheated root was not told and is taken to be 17 °C.";
    MOVING_JUDGEMENT: Judgement, "Moving judgements",
        "What a cold night, an unhardened or unready plant, a day of waiting and a week in too small a pot take off the worth of a plant: drawn from practice, none of it measured. The ranges are wide on purpose: they tell which day is the better one sooner than what it costs in money. Your own losses go before them.";
    NEXT_POT_JUDGEMENT: Judgement, "Next pot",
        "How far roots reach in the first days, what a seedling brings and drinks, how long wet mix does a young plant no harm and what a potting takes of a grower's time: drawn from practice, none of it measured. Clock your own potting and heft your own pots.";
    NIGHT_VERDICT: Judgement, "Nights in words",
        "From 19 in 20 a stay above the limit is called safe, from 4 in 5 likely, from even chances even. What is risked differs from batch to batch: the chance itself stands beside the word.";
    NIGHTS_UNDER_GLASS: Judgement, "Nights under glass",
        "Minima under unheated glass spread by about 2.5 K where those outside spread by 3.3 (2 to 3.3; common practice, no source), times what the spread out of doors is widened by. No record from under glass was at hand.";
    POT_GUIDE: Published, "Nursery pot guides",
        "Inside sizes of generic nursery pots as printed in two growers' pot guides; names in litres are nominal, so volumes here come from the sizes.";
    ONION_SEED: Published, "Onion seed",
        "Brewster, J. L. Onions and Other Vegetable Alliums, equations 4.6 and 4.7 from Harrington 1962: half of the seeds in 80 °C d above 2.5 °C. Stands in for chives.";
    OWN_BATCHES: Judgement, "Own batches",
        "How far one's own batches draw a crop's figures from the handbook's: half of what the handbook leaves open and all of the scatter between sources is taken to lie between growers, the other half between batches, worth four batches, a day noted to within one. The way they are drawn together is that of normal values with a normal mean (Gelman and others 2013, Bayesian Data Analysis, from memory).";
    PH_RULE: Judgement, "pH of a mix",
        "Each part holds its pH against the others by its exchange capacity. A rule, not a model: published mixing models cannot predict pH (Blok et al. 2019), so it is given as a bracket.";
    PLACE_IN_REGION: Judgement, "Places and their region",
        "The mean minima of seven lowland English stations lie 1.2 to 2.5 K from the lowest to the highest, by month (1991 to 2020). Hollows, walls and houses differ more: a standard deviation of 1.5 K.";
    POORTER_2012: Published, "Poorter et al. 2012",
        "Poorter, H., Bühler, J., van Dusschoten, D., Climent, J. and Postma, J. A. 2012. Pot size matters: a meta-analysis of the effects of rooting volume on plant growth. Functional Plant Biology 39:839-850 (abstract): 43 % more growth in twice the pot on the mean of 65 studies; no more than 1 g of plant to the litre, which about 65 % of experiments exceed.";
    HULLS_AND_PERLITE: Judgement, "Pores of hulls and perlite",
        "Worked back from pore space of peat mixes (Evans and Gachukia, GPN magazine: 79.4 to 71.5 % with 20 to 60 % perlite, 82.1 to 87.7 % with rice hulls), which puts perlite near 64 % and hulls near 95 %; perlite of 1 to 2 mm 85 % (Anicua-Sanchez et al. 2008). Best figures lie between these and substrate handbooks from memory; fine perlite has fewer closed pores (Bartley et al. 2022, HortScience 57:379, abstract).";
    COMMON_PRACTICE: CommonPractice, "Practice of the trade",
        "A fact of the trade for which no printed source is known.";
    RIKALA_1990: Published, "Rikala and Jozefek 1990",
        "Rikala, R. and Jozefek, H. J. 1990. Effect of dolomite lime and wood ash on peat substrate and development of tree seedlings. Silva Fennica 24(4) (abstract): low humified sphagnum peat rose from pH 3.8 towards about 7.0 with up to 16 kg/m³ of dolomite, and stood at 4 to 5 with 0.5 to 2.";
    RIPPY_2007: Published, "Rippy and Nelson 2007",
        "Rippy, J. F. M. and Nelson, P. V. 2007. Cation exchange capacity and base saturation variation among Alberta, Canada, moss peats. HortScience 42:349-352 (abstract): 108 to 162 cmol/kg in 64 peats, whatever their decomposition.";
    ROCKET_SEED: Published, "Rocket seed",
        "Hall, M. K. D., Jobling, J. J. and Rogers, G. S. 2012. The germination of perennial wall rocket and annual garden rocket under controlled temperatures (abstract): most annual rocket came up from 10 to 30 °C.";
    ROOT_CARDINALS: Judgement, "Root temperatures by crop",
        "Drawn through abstracts of trials of roots at steps of 5 or 6 K: tomato best at 24 to 30 °C (12 to 36 tried), pepper best at 24 to 30, cucumber at 24 to 30 and at 28 of 13 to 28, basil better at 27.5 and 31 than at 23. Bases, aubergine and the hardy crops are judged from whole plants.";
    SAND_RISE_2012: Published, "Salim and Hampton 2012",
        "Salim, R. and Hampton, D. 2012. Capillary rise in sand, conference abstract and poster: sand of 0.45 to 0.55 mm nearly full to 7.9 cm above water and damp to 19.5 cm. Scaled to other grains as one over their size; the spread is this program's.";
    SALT_JUDGEMENT: Judgement, "Salt and pH limits",
        "Conductivity of a 1:5 extract and pH in water by use, set from practice: seed and cuttings suffer first, and salt stays where pots are fed from below, since nothing washes it out.";
    RINSING_JUDGEMENT: Judgement, "Salt and rinsing",
        "How far water mixes with what a material holds, how much its grains hold on to, and how far a bucket, a sample and a pocket meter are off: judgements of this program, wide, since no measured rinsing of these materials in a bucket was found in print.";
    SALT_CRUST: Recalled, "Salt at the top of pots",
        "Diffusion of salts in water, about 1.3 cm²/d, times water content and winding paths, from memory; that salt gathers in the top 2 to 4 cm of pots fed from below is printed often (Incrocci and others 2006, Scientia Horticulturae 107:365, abstract; HortScience 1995, 30(3):535, abstract: the top 2.5 cm three to six times the root zone by day 58).";
    SALT_TARGETS: CommonPractice, "Salt by use",
        "How much salt may be left for a use, as conductivity of a 1:5 extract by volume: rough figures of the trade for which no printed source is known.";
    BUILDING_CLIMATE: Published, "SAP 2012 appendix U",
        "The Government's Standard Assessment Procedure for Energy Rating of Dwellings, SAP 2012, tables U2 (wind at 10 m, m/s) and U3 (solar radiation on the level, W/m²) by region; read in two independent copies.";
    SAVAGE_1980: Published, "Savage 1980",
        "Savage, M. J. 1980. Microclimate of a plastic tunnel. Agrochemophysica 12:5 (abstract): 1.3 K warmer than outside at the minimum, 4.2 K at the maximum; inversions by night of up to 1.5 K for each metre.";
    BETWEEN_SOURCES: Judgement, "Scatter between sources",
        "Fifty-one findings in print of nineteen sources that had no part in the figures of crops (universities' guides, trials, books, growers' notes, pages of the seed trade), each at a stated temperature; standard deviations by maximum likelihood (Laird and Ware 1982, Biometrics 38:963, from memory), what the ranges hold counted with each source left out in turn.";
    SCHEFFE_1958: Recalled, "Scheffé 1958",
        "Scheffé, H. 1958. Experiments with mixtures. Journal of the Royal Statistical Society B 20:344-360: a quadratic through the corners and the halves of all blends. It only says which mixes are worth drawing in full.";
    MODEL_SHAPE: Judgement, "Shape below 10 cm of suction",
        "How far the summed curve of a mix may be off below 10 cm of suction. Two families of curves through the same pores and the same water at 10 cm (van Genuchten, Brooks and Corey) differ by up to 5 points of mean water in a pot of 8 cm. Gaps between grains are as wide as their hydraulic radius lets one expect from one measured sand (Salim and Hampton 2012), and may be twice as wide between angular grains. Which gaps finer grains fill first is not known: the widest, or all alike.";
    SILICA_LIMIT: Recalled, "Silica dust limit",
        "EH40 and COSHH: workplace limit for respirable crystalline silica of 0.1 mg/m3 over eight hours.";
    SMITH_2019: Published, "Smith et al. 2019",
        "Smith, J. T., Jackson, B. E. and Fonteno, W. C. 2019. Wettability and hydrology of various wood fiber substrates. Acta Horticulturae 1266:437-442 (abstract): pore space of wood fibre alone above 95 % by porometer. The spread is this program's.";
    SOIL_WARMING_2011: Published, "Soil warming as measured",
        "Fernandez, M. D. and Rodriguez, M. R. 2011. Warming of a bed of sand by cable. Scientia Agricola (abstract; title from memory): 6.75 MJ/m² each day held 20 °C within 1 K at the best depth, cable 50 mm deep up to 28 % more.";
    SOIL_WARMING_SHEET: Published, "Soil-warming sheet",
        "A retail sheet of soil-warming cable: 50, 150 and 300 W for 0.45, 1.75 and 3.85 m² in 5 + 5 cm of sand, 11 to 13 K above a house of 7 °C.";
    THERMAL_SOILS: Recalled, "Soils as conductors",
        "EN ISO 13370 table of ground, VDI 4640, Oke (Boundary Layer Climates, table 2.1) and de Vries 1963. The spread is this program's.";
    NIGHT_SPREAD: Judgement, "Spread of single nights",
        "Standard deviation of one night's minimum from air frost days of seven lowland English stations, 1991 to 2020, by the normal distribution; the coldest night by simulation of nights that follow each other with a correlation of 0.5 to 0.65.";
    STAND_BY_SUN: Recalled, "Stand by sun",
        "de Graaf, R. and van den Ende, J. 1981. Transpiration and evapotranspiration of the glasshouse crops. Acta Horticulturae 119:147-158, and Stanghellini, C. 1987. Transpiration of greenhouse crops. Wageningen, both from memory: a closed stand turns about 0.7 of the sun inside to vapour, and glass lets 0.55 to 0.7 through.";
    MET_STATIONS: Published, "Station series 2001 to 2020",
        "Met Office, historic station data (monthly mean daily maximum and minimum, rain), Open Government Licence; means of the twenty years 2001 to 2020 worked out for this program.";
    CHEMISTRY_RECALLED: Recalled, "Substrate chemistry handbooks",
        "The common ground of substrate handbooks on pH, conductivity of a 1:5 extract (EN 13038) and exchange capacity (Bunt 1988; Handreck and Black 2010; Raviv and Lieth 2008), put down from memory and not read off one table. A class of material, not your heap.";
    CONSENSUS: Recalled, "Substrate handbooks",
        "The common ground of substrate handbooks (Bunt 1988, Media and Mixes for Container-Grown Plants; Handreck and Black 2010, Growing Media; Raviv and Lieth 2008, Soilless Culture), put down from memory and not read off one table. A class of material, not your heap.";
    THIRST_JUDGEMENT: Judgement, "Thirst judgements",
        "Rows at an edge, plants that stand alone and wide vents make 1.3 to 1.8 of a stand's share (common practice); basil in the open drank 1.5 to 2.8 of a reference crop (Horticultura Brasileira 37(4):373, 2019, abstract), an upper bound here. Bare wet surfaces give off 10 to 30 % of what a stand does (common practice). A pot weighed at dawn and at dusk goes before all of it.";
    TOMATO_SUCTION_2015: Published, "Tomato at 30 and 60 hPa",
        "Frontiers in Plant Science 2015, doi 10.3389/fpls.2015.01150 (abstract): tomatoes in soilless pots fed from below did well at 30 hPa; at 60 hPa they lost 18 % of leaf area and 10 % of yield.";
    BED_WARMED_1994: Published, "Tomato in warmed beds",
        "Trial of unheated and warmed beds of greenhouse tomato in two springs. HortTechnology 4(3):277 (abstract, 1994): beds warmed from 10 to 20 °C in the middle of March yielded 16 and 14 % more. Unheated beds reached 20 °C in May, and are taken to be 14 °C on the mean.";
    TRANSPLANTS_UTAH: Published, "Transplants in Utah",
        "Utah State University Extension, vegetable guide, transplant production of tomato, pepper and aubergine: 5 to 7 mature leaves and a well-developed root system.";
    USED_MIX: Judgement, "Used mix",
        "A peat or coir mix that has slumped by 2 to 15 % of its height in a season (common practice, no source) and kept its solids. Bark mixes in cores lost air, took up more water, kept their density and shrank a little in 48 and 382 days, with a plant more so (Gabriel and Altland, title not seen, abstract). Within wide limits, for nobody knows what has grown and rotted in it.";
    USED_MIX_JUDGEMENT: Judgement, "Used mix, what to mind",
        "A heap of last season's pots: feed left over, salts of the water, roots, and whatever disease and weed seed it has. How much of each differs from heap to heap; the ranges are wide for that.";
    VAN_GENUCHTEN_1980: Recalled, "van Genuchten 1980",
        "van Genuchten, M. Th. 1980. A closed-form equation for predicting the hydraulic conductivity of unsaturated soils. Soil Science Society of America Journal 44:892-898.";
    VERHAGEN_2017: Published, "Verhagen 2017",
        "Verhagen, J. B. G. M. 2017. Density of growing media in pots against their declared volume (EN 12580). Acta Horticulturae 1168:14.";
    VIABILITY_CONSTANTS: Published, "Viability constants",
        "Constants of the viability equation by species as the data of the R package viabilitymetrics hold them, after Hong, Linington and Ellis 1996 and later: onion Ellis and Roberts 1981; pepper and cucumber Demir and others 2009, 2011; lettuce and leaf mustard Ellis and others 1989; tomato Kruse, Ghiasi and Schmohl 2005; pennyroyal Eisvand and others 2013.";
    WALTERS_LOPEZ_2021: Published, "Walters and Lopez 2021",
        "Walters, K. J. and Lopez, R. G. 2021. Modeling growth and development of hydroponically grown dill, parsley, and watercress in response to photosynthetic daily light integral and mean daily temperature. PLoS ONE 16(3):e0248662 (abstract): mass rises to 22.4 °C in parsley and at least to 27.2 °C in dill.";
    CALCITE_WATER: Judgement, "Water over lime",
        "Water in balance with calcite and open air at 25 °C holds about 0.5 mmol/L of calcium and 1 mmol/L of hydrogen carbonate, which conduct 0.10 mS/cm by their limiting molar conductivities; an hour of shaking with coarse grains goes part of the way. Worked out for this program.";
    PROPAGATION_WEEKS: Published, "Weeks in propagation",
        "Delaware extension, Mid-Atlantic recommendations table A-4: cucumber and summer squash 2 to 4 weeks, lettuce 4 to 6.";
    WHOLE_SEARCH: Judgement, "Whole search",
        "Every blend in whole parts of twenty is judged, so that none is overlooked; finer than 5 % no bucket measures.";
    WOOD_FIBRE_NITROGEN: Published, "Wood fibre and nitrogen",
        "A trial of wood fibre in peat with rye seedlings (agro.icm.edu.pl, abstract): half wood fibre held growth back until 83 mg/L of nitrogen was added, that is 167 mg for each litre of fibre; a third showed no lack.";
}
