//! What Mix takes from the record, and keeps there: the mix under a name, with its drain tests.

use super::{Asks, Kept, drain_tests};
use crate::app::record::Ledger;
use crate::app::route::Page;
use crate::handbook::pots::pot;
use crate::nursery::{Record, Texts, Thing};
use crate::reckon::mix::{PartAsked, PotAsked, Question};

impl Asks for Question {
    const PAGE: Page = Page::Mix;
    const TAKES: &'static [(&'static str, &'static str)] = &[
        ("mix", "Your mixes"),
        ("pot", "Your pots"),
        ("material", "Your materials"),
    ];
    const KEEPS: &'static str = "Keep this mix under the name";

    fn parts(&mut self) -> &mut Vec<PartAsked> {
        &mut self.parts
    }

    fn pot(&mut self) -> &mut PotAsked {
        &mut self.pot
    }

    fn take(&mut self, _: &Record, thing: &Thing) -> Option<()> {
        if thing.kind != "mix" {
            return None;
        }
        if let Some(purpose) = thing.choice("purpose") {
            purpose.clone_into(&mut self.purpose);
        }
        Some(())
    }

    fn keep(&mut self, ledger: Ledger, name: &str) -> Kept {
        let mut kept = Texts::default()
            .with("name", name)
            .with("purpose", &self.purpose);
        if pot(&self.pot.size).is_some() {
            kept.set("pot", &self.pot.size);
        }
        for (index, part) in self.parts.iter().enumerate() {
            let at = ["parts.", &index.to_string(), "."].concat();
            kept.set(&[&at, "material"].concat(), &part.material);
            kept.set(&[&at, "amount"].concat(), &part.amount.stored());
            kept.set(&[&at, "bag"].concat(), &part.bag.stored());
        }
        let Some(mix) = ledger.add("mix", kept) else {
            return Kept::not();
        };
        let mut entries = vec![mix];
        entries.extend(drain_tests::keep(ledger, &mut self.parts));
        let told = match entries.len() - 1 {
            0 => "Kept. It stands among your mixes.".to_owned(),
            1 => "Kept among your mixes, and the drain test among your tests.".to_owned(),
            many => format!("Kept among your mixes, and {many} drain tests among your tests."),
        };
        Kept { told, entries }
    }
}
