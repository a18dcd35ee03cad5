//! Floor 1: pure physics, agronomy and statistics.
//!
//! Numbers with units go in, numbers with units come out. Nothing here knows a
//! nursery, a screen or a judgement; nothing rounds and nothing formats.
//! Outside inner loops units are in the types of [`crate::measure`]; inside
//! them they are in the names (`suction_cm`).
//!
//! * [`retention`]: how much water a medium holds at a suction.
//! * [`conductivity`]: how fast water moves in it at that suction.
//! * [`flow`]: water on its way from a tray through a bed and a root ball.
//! * [`container`]: the same, averaged over a pot that stands and drains.
//! * [`drain_test`]: what soaked, drained and dry weights tell of a material of one's own.
//! * [`tube_test`]: what the rise of water in a tube tells of a bed medium of one's own.
//! * [`bucket_test`]: the volume lost on mixing, as measured.
//! * [`packing`]: the volume lost when coarse and fine are mixed.
//! * [`salt_conductivity`]: what the conductivity of a water or an extract tells of salt.
//! * [`surface_salt`]: salt that gathers at the top of what drinks from below.
//! * [`transpiration`]: what a stand gives off, from the sun on it.
//! * [`rinsing`]: how salt falls from rinse to rinse.
//! * [`blend`]: mass balance of a mix on the volume that is left.
//! * [`chemistry`]: acid, base and salt of a mix of parts.
//! * [`thermal_time`]: how far warmth carries a plant.
//! * [`sun`]: how long the day is, and the sun at the top of the air.
//! * [`year_course`]: daily values from monthly means.
//! * [`counting`]: chances of counts, and what a count tells of a share.
//! * [`germination`]: how many seeds to sow, and how seed ages.
//! * [`shrinkage`]: what a few values of one's own tell beside what was known.
//! * [`harm_limit`]: where harm begins, by whether it was seen.
//! * [`nights`]: how warm the coming nights may be in one place.
//! * [`plant_quality`]: what a weighed young plant is worth, and its pot against it.
//! * [`standing_room`]: how many pots find room on a bench.
//! * [`heat`]: heat in ground, air and pots, and what it costs and brings.
//! * [`numerics`]: roots, integrals, complex numbers and seeded draws.

pub mod blend;
pub mod bucket_test;
pub mod chemistry;
pub mod conductivity;
pub mod container;
pub mod counting;
pub mod drain_test;
pub mod flow;
pub mod germination;
pub mod harm_limit;
pub mod heat;
pub mod nights;
pub mod numerics;
pub mod packing;
pub mod plant_quality;
pub mod retention;
pub mod rinsing;
pub mod salt_conductivity;
pub mod shrinkage;
pub mod standing_room;
pub mod sun;
pub mod surface_salt;
pub mod thermal_time;
pub mod transpiration;
pub mod tube_test;
pub mod year_course;
