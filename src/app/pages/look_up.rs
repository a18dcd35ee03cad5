//! Look up: the figures of the handbook, each with its source.

use leptos::prelude::*;

use crate::app::stored::stored;
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::handbook::thresholds::LIMITS;
use crate::handbook::{Figure, sources};
use crate::measure::{NumberStyle, round_range, significant};

/// The page.
#[component]
pub fn LookUp() -> impl IntoView {
    let style = stored().style();
    view! {
        <h1>"Look up"</h1>
        <p class="lead">
            "What Longtom reckons with. A range is a best figure with its 1-in-10 and 9-in-10 limits. A class of material is not your heap."
        </p>
        <section aria-labelledby="materials">
            <h2 id="materials">"Materials"</h2>
            <div class="wide" tabindex="0" role="region" aria-label="Table of materials">
                <table class="figures">
                    <thead>
                        <tr>
                            <th scope="col">"Material"</th>
                            <th scope="col">"Dry, g/L"</th>
                            <th scope="col">"Pore space, %"</th>
                            <th scope="col">"Water at 10 cm, %"</th>
                            <th scope="col">"Source"</th>
                        </tr>
                    </thead>
                    <tbody>
                        {MATERIALS
                            .iter()
                            .map(|material| {
                                view! {
                                    <tr>
                                        <th scope="row">{material.name_and_grade()}</th>
                                        <td>{figure(&material.dry_density_g_per_l, 1.0, style)}</td>
                                        <td>{figure(&material.pore_space, 100.0, style)}</td>
                                        <td>{figure(&material.water_at_10_cm, 100.0, style)}</td>
                                        <td>{material.water_at_10_cm.source.short}</td>
                                    </tr>
                                }
                            })
                            .collect_view()}
                    </tbody>
                </table>
            </div>
        </section>
        <section aria-labelledby="pots">
            <h2 id="pots">"Pots"</h2>
            <div class="wide" tabindex="0" role="region" aria-label="Table of pots">
                <table class="figures">
                    <thead>
                        <tr>
                            <th scope="col">"Pot"</th>
                            <th scope="col">"Rim, mm"</th>
                            <th scope="col">"Base, mm"</th>
                            <th scope="col">"Height, mm"</th>
                            <th scope="col">"To the brim, L"</th>
                            <th scope="col">"Source"</th>
                        </tr>
                    </thead>
                    <tbody>
                        {POTS
                            .iter()
                            .map(|pot| {
                                view! {
                                    <tr>
                                        <th scope="row">{pot.name}</th>
                                        <td>{significant(pot.rim.in_millimetres(), 3, style)}</td>
                                        <td>{significant(pot.base.in_millimetres(), 3, style)}</td>
                                        <td>{significant(pot.height.in_millimetres(), 3, style)}</td>
                                        <td>{significant(pot.vessel().volume_to(pot.height).in_litres(), 2, style)}</td>
                                        <td>{pot.source.short}</td>
                                    </tr>
                                }
                            })
                            .collect_view()}
                    </tbody>
                </table>
            </div>
        </section>
        <section aria-labelledby="limits">
            <h2 id="limits">"How much air and water serves"</h2>
            <p>{sources::AIR_JUDGEMENT.full}</p>
            <div class="wide" tabindex="0" role="region" aria-label="Table of limits">
                <table class="figures">
                    <thead>
                        <tr>
                            <th scope="col">"For"</th>
                            <th scope="col">"Air fails below"</th>
                            <th scope="col">"Air serves"</th>
                            <th scope="col">"Easily available water, from"</th>
                            <th scope="col">"Water once drained, from"</th>
                        </tr>
                    </thead>
                    <tbody>
                        {LIMITS
                            .iter()
                            .map(|limits| {
                                view! {
                                    <tr>
                                        <th scope="row">{limits.name}</th>
                                        <td>{percent(limits.air_fails_below, style)}</td>
                                        <td>
                                            {percent(limits.air_serves_from, style)} " to "
                                            {percent(limits.air_serves_to, style)}
                                        </td>
                                        <td>{percent(limits.easy_water_serves_from, style)}</td>
                                        <td>{percent(limits.water_serves_from, style)}</td>
                                    </tr>
                                }
                            })
                            .collect_view()}
                    </tbody>
                </table>
            </div>
        </section>
        <section aria-labelledby="sources">
            <h2 id="sources">"Sources"</h2>
            <ul class="sources">
                {sources::ALL
                    .iter()
                    .map(|source| {
                        view! {
                            <li>
                                <strong>{source.short}</strong>
                                <span>{source.full}</span>
                                <small>{source.standing.words()}</small>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </section>
    }
}

fn figure(figure: &Figure, times: f64, style: NumberStyle) -> String {
    let range = figure.range.map_increasing(|value| value * times);
    let printed = round_range(range.low(), range.best(), range.high(), style);
    [&printed.best, " (", &printed.low, " to ", &printed.high, ")"].concat()
}

fn percent(fraction: f64, style: NumberStyle) -> String {
    [&significant(fraction * 100.0, 2, style), "%"].concat()
}
