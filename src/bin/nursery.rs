//! Mounts the pages of the nursery in the frame that the first program has opened.

fn main() {
    longtom::app::open_nursery();
}
