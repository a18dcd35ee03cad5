//! A question that owns what it speaks of, and the measured minima.

use longtom::science::nights::{Coming, Forecast, Habit, Offset, Reading, Season};

pub fn near(found: f64, printed: f64, within: f64, what: &str) {
    assert!(
        (found - printed).abs() <= within,
        "{what}: {found}, printed {printed}"
    );
}

#[derive(Clone, Debug)]
pub struct Asked {
    pub mean_c: Vec<f64>,
    pub spread_k: Vec<f64>,
    pub offset: Offset,
    pub habits: Vec<Habit>,
    pub log: Vec<Reading>,
    pub forecasts: Vec<Forecast>,
    pub first: usize,
    pub nights: usize,
}

impl Asked {
    pub fn coming(&self) -> Coming<'_> {
        Coming {
            season: Season {
                mean_c: &self.mean_c,
                spread_k: &self.spread_k,
            },
            offset: self.offset,
            habits: &self.habits,
            log: &self.log,
            forecasts: &self.forecasts,
            first: self.first,
            nights: self.nights,
        }
    }
}

pub fn reading(day: usize, minimum_c: f64) -> Reading {
    Reading { day, minimum_c }
}

/// The daily minima of one place, by year and day of the year from 0.
pub struct Record {
    pub key: &'static str,
    pub years: Vec<Vec<Option<f64>>>,
}

pub fn records() -> Vec<Record> {
    let text = include_str!("../reference/minima.txt");
    let mut records: Vec<Record> = Vec::new();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        if let Some(head) = line.strip_prefix('@') {
            records.push(Record {
                key: head.split_once(' ').unwrap().0,
                years: Vec::new(),
            });
            continue;
        }
        let year = line
            .split(' ')
            .map(|word| match word {
                "-" => None,
                tenths => Some(tenths.parse::<f64>().unwrap() / 10.0),
            })
            .collect();
        records.last_mut().unwrap().years.push(year);
    }
    records
}
