//! Reading decimal digits, held to Rust's own parser (correctly rounded; Lemire 2021, Software:
//! Practice and Experience 51:1700) bit for bit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::decimal::nearest;
use proptest::prelude::*;

fn same(text: &str) {
    let theirs: f64 = text.parse().unwrap();
    assert_eq!(nearest(text).unwrap().to_bits(), theirs.to_bits(), "{text}");
}

/// Cases that have broken parsers: halfway between two numbers, the ends of the range, long digits.
/// Source: Paxson 1991, *A program for testing IEEE decimal-binary conversion*, tables 3 and 4 (some
/// rows), and the well-known 2.2250738585072012e-308.
#[test]
fn hard_cases_are_read_to_the_last_bit() {
    for text in [
        "0",
        "1",
        "0.1",
        "1.5",
        "123456789012345678",
        "9007199254740993",
        "9007199254740992.5",
        "5e125",
        "69e267",
        "999e-026",
        "7861e-034",
        "75569e-254",
        "928609e-261",
        "9210917e080",
        "84863171e114",
        "653777767e273",
        "5232604057e-298",
        "27235667517e-109",
        "653532977297e-123",
        "3142213164987e-294",
        "46202199371337e-072",
        "231010996856685e-073",
        "9324754620109615e212",
        "78459735791271921e049",
        "272104041512242479e200",
        "6802601037806061975e198",
        "2.2250738585072012e-308",
        "2.2250738585072011e-308",
        "4.9e-324",
        "2.4703282292062327208e-324",
        "2.4703282292062328e-324",
        "1.7976931348623157e308",
        "1.7976931348623158e308",
        "1.7976931348623159e308",
        "1e400",
        "1e-400",
        "0.000000000000000000000000000001",
    ] {
        same(text);
    }
}

#[test]
fn what_is_not_of_the_form_is_not_read() {
    for text in [
        "", ".", "e5", "1e", "1e+", "-1", "+1", "1.2.3", "inf", "NaN", "1_0", "0x1", " 1", "１",
    ] {
        assert_eq!(nearest(text), None, "{text}");
    }
    assert_eq!(nearest("1e99999999999999999999"), Some(f64::INFINITY));
    assert_eq!(nearest("1e-99999999999999999999"), Some(0.0));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn any_number_written_shortly_or_at_length(value in prop::num::f64::POSITIVE | prop::num::f64::SUBNORMAL | prop::num::f64::ZERO) {
        let value = value.abs();
        same(&format!("{value:e}"));
        same(&format!("{value:.25e}"));
    }

    #[test]
    fn any_digits(whole in "[0-9]{0,22}", decimals in "[0-9]{1,22}", power in -350..330i32) {
        same(&format!("{whole}.{decimals}e{power}"));
    }
}
