//! Parts of a page that are only read: drawings, tables, cautions, working.
//!
//! They are written as markup in one go and set into the page as a whole, which takes a
//! fraction of the program that a view of as many live pieces would. Every text and every
//! value of an attribute is escaped here and nowhere else; names of tags and attributes come
//! from this source alone.

/// Attributes: names and values.
pub type Attributes<'a> = &'a [(&'a str, &'a str)];

/// Markup under way.
#[derive(Default)]
pub struct Markup {
    written: String,
}

impl Markup {
    /// Nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// An element with a text.
    pub fn element(&mut self, tag: &'static str, attributes: Attributes, text: &str) -> &mut Self {
        self.open(tag, attributes).text(text).close(tag)
    }

    /// An element with what `inside` writes.
    pub fn within(
        &mut self,
        tag: &'static str,
        attributes: Attributes,
        inside: &mut dyn FnMut(&mut Self),
    ) -> &mut Self {
        self.open(tag, attributes);
        inside(self);
        self.close(tag)
    }

    /// An element without anything in it, such as a path.
    pub fn mark(&mut self, tag: &'static str, attributes: Attributes) -> &mut Self {
        self.open(tag, attributes).close(tag)
    }

    /// An element that has no end, such as an input.
    pub fn alone(&mut self, tag: &'static str, attributes: Attributes) -> &mut Self {
        self.open(tag, attributes)
    }

    /// A text.
    pub fn text(&mut self, text: &str) -> &mut Self {
        for letter in text.chars() {
            match letter {
                '&' => self.written.push_str("&amp;"),
                '<' => self.written.push_str("&lt;"),
                '>' => self.written.push_str("&gt;"),
                '"' => self.written.push_str("&quot;"),
                _ => self.written.push(letter),
            }
        }
        self
    }

    /// A row of a table: its head, then its cells.
    pub fn row(&mut self, head: &str, cells: &[&str]) -> &mut Self {
        self.within("tr", &[], &mut |row| {
            row.element("th", &[("scope", "row")], head);
            for cell in cells {
                row.element("td", &[], cell);
            }
        })
    }

    /// A table with its caption (which may be empty), its heads, and the rows that `rows` writes.
    pub fn table(
        &mut self,
        class: &str,
        caption: &str,
        heads: &[&str],
        rows: &mut dyn FnMut(&mut Self),
    ) -> &mut Self {
        self.within("table", &[("class", class)], &mut |table| {
            if !caption.is_empty() {
                table.element("caption", &[], caption);
            }
            table.within("thead", &[], &mut |top| {
                top.within("tr", &[], &mut |row| {
                    for head in heads {
                        row.element("th", &[("scope", "col")], head);
                    }
                });
            });
            table.within("tbody", &[], rows);
        })
    }

    /// A table of figures that may be wider than the page: it moves in a place of its own, which is
    /// told by a label.
    pub fn wide_table(
        &mut self,
        label: &str,
        caption: &str,
        heads: &[&str],
        rows: &mut dyn FnMut(&mut Self),
    ) -> &mut Self {
        let place = [
            ("class", "wide"),
            ("tabindex", "0"),
            ("role", "region"),
            ("aria-label", label),
        ];
        self.within("div", &place, &mut |place| {
            place.table("figures", caption, heads, rows);
        })
    }

    /// Markup that has been written apart.
    pub fn written(&mut self, markup: &str) -> &mut Self {
        self.written.push_str(markup);
        self
    }

    /// What has been written.
    #[must_use]
    pub fn done(self) -> String {
        self.written
    }

    fn open(&mut self, tag: &'static str, attributes: Attributes) -> &mut Self {
        self.written.push('<');
        self.written.push_str(tag);
        for (name, value) in attributes {
            self.written.push(' ');
            self.written.push_str(name);
            self.written.push_str("=\"");
            self.text(value);
            self.written.push('"');
        }
        self.written.push('>');
        self
    }

    fn close(&mut self, tag: &'static str) -> &mut Self {
        self.written.push_str("</");
        self.written.push_str(tag);
        self.written.push('>');
        self
    }
}
