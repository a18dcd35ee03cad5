//! Mounts the application.

fn main() {
    longtom::app::open();
}
