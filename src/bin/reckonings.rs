//! Mounts the reckonings beyond the first in the frame that the first program has opened.

fn main() {
    longtom::app::open_reckonings();
}
