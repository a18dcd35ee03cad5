//! Figures as they are read: a best with its limits.

use litemap::LiteMap;

use crate::app::markup::Markup;
use crate::keep::Settings;
use crate::measure::{NumberStyle, RangeText, round_range, with_unit};
use crate::reckon::answer::{Answer, Figure};

use super::verdict::write_verdict;

/// How figures are shown on this device: the units chosen by quantity, and the marks of numbers.
#[derive(Clone, PartialEq)]
pub struct Shown {
    units: LiteMap<String, String>,
    /// The marks of numbers.
    pub style: NumberStyle,
}

impl Shown {
    /// As the settings have it.
    #[must_use]
    pub fn by(settings: &Settings) -> Self {
        Self {
            units: settings.units.clone(),
            style: NumberStyle::for_mark(settings.decimal),
        }
    }

    /// A figure in words.
    #[must_use]
    pub fn text(&self, figure: &Figure) -> RangeText {
        let chosen = self.units.get(figure.name.kind.what).map(String::as_str);
        let Some(unit) = figure.unit_or_own(chosen) else {
            return RangeText {
                best: String::new(),
                span: None,
            };
        };
        let range = figure.in_unit(unit);
        let printed = round_range(range.low(), range.best(), range.high(), self.style);
        RangeText {
            best: with_unit(&printed.best, unit),
            span: (printed.low != printed.high)
                .then(|| [&printed.low, " to ", &printed.high].concat()),
        }
    }
}

/// The head of an answer: the verdict, one large figure with its limits under it, and the advice.
#[must_use]
pub fn answer_head<Detail>(answer: &Answer<Detail>, shown: &Shown, finding: bool) -> String {
    let judgement = &answer.judgement;
    head(
        answer.figures.first(),
        judgement,
        &answer.advice,
        shown,
        finding,
    )
}

fn head(
    headline: Option<&Figure>,
    judgement: &crate::reckon::answer::Judgement,
    advice: &str,
    shown: &Shown,
    finding: bool,
) -> String {
    let mut markup = Markup::new();
    markup.within("p", &[], &mut |line| write_verdict(line, judgement.verdict));
    if let Some(figure) = headline {
        let text = shown.text(figure);
        markup.within("p", &[("class", "headline")], &mut |line| {
            line.element("span", &[("class", "large")], &text.best)
                .element(
                    "span",
                    &[("class", "limits")],
                    text.span.as_deref().unwrap_or(if finding {
                        "finding its range …"
                    } else {
                        ""
                    }),
                )
                .element("span", &[("class", "what")], &figure.name.label);
        });
    }
    markup
        .element("p", &[("class", "judgement")], &judgement.sentence)
        .element("p", &[("class", "advice")], advice);
    markup.done()
}

/// The answer in one line, for the strip.
#[must_use]
pub fn answer_line<Detail>(answer: &Answer<Detail>, shown: &Shown, stale: bool) -> String {
    line(
        answer.figures.first(),
        answer.judgement.verdict,
        shown,
        stale,
    )
}

fn line(
    headline: Option<&Figure>,
    verdict: crate::reckon::answer::Verdict,
    shown: &Shown,
    stale: bool,
) -> String {
    let mut markup = Markup::new();
    write_verdict(&mut markup, verdict);
    if let Some(figure) = headline {
        let text = shown.text(figure);
        markup
            .element("strong", &[("class", "strip-figure")], &text.best)
            .element("span", &[], text.span.as_deref().unwrap_or_default());
    }
    if stale {
        markup.element("span", &[("class", "strip-stale")], "last good");
    }
    markup.element("span", &[("class", "sound-only")], "Go to the answer");
    markup.done()
}

/// Figures in a table: what, best, low to high.
#[must_use]
pub fn figure_table<'a>(figures: impl Iterator<Item = &'a Figure>, shown: &Shown) -> String {
    let figures: Vec<&Figure> = figures.collect();
    let mut markup = Markup::new();
    markup.table(
        "figures",
        "",
        &["What", "Best", "8 in 10 lie within"],
        &mut |rows| {
            for figure in &figures {
                let text = shown.text(figure);
                rows.row(
                    &figure.name.label,
                    &[&text.best, text.span.as_deref().unwrap_or("–")],
                );
            }
        },
    );
    markup.done()
}
