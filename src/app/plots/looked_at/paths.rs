//! The lines of the drawings, as layers from the back to the front: how each is drawn, and its path on a paper of 96 by
//! 96.

/// How a path is drawn, and the path.
pub type Layer = (&'static str, &'static str);

/// A drawing: its name, its own layers, and those that it shares with others.
pub type Drawn = (&'static str, &'static [Layer], Shared);

/// Layers that several drawings share, and whether they lie behind or before their own.
#[derive(Clone, Copy)]
pub enum Shared {
    /// None.
    None,
    /// The same young plant stands before all.
    Plant,
    /// The same ball, seen from the side and a little from above, lies behind all.
    Ball,
    /// The same leaf, turned over, lies behind all.
    Leaf,
}

/// A young plant above its ball.
pub const PLANT: &[Layer] = &[
    ("leaf", "M48 25C40 14 28 13 20 19C28 29 40 30 48 25Z"),
    ("leaf", "M48 25C56 14 68 13 76 19C68 29 56 30 48 25Z"),
    ("leaf", "M48 15C42 10 42 5 48 1C54 5 54 10 48 15Z"),
    ("ink", "M48 38V14"),
];

/// The ball as it comes out of the pot.
pub const BALL: &[Layer] = &[
    ("mix", "M12 16L22 84Q48 92 74 84L84 16Z"),
    ("top", "M12 16a36 8 0 0 1 72 0a36 8 0 0 1-72 0Z"),
    ("ink", "M48 16V3"),
];

/// The underside of a leaf, its edge folded back.
pub const LEAF: &[Layer] = &[
    (
        "leaf",
        "M6 80C8 44 30 12 84 8C92 44 70 78 34 82C24 84 14 84 6 80Z",
    ),
    (
        "fine",
        "M6 80C30 60 56 34 84 8M26 64C24 52 26 46 28 40M42 50C40 38 42 32 46 24M58 35C56 28 58 22 62 15M30 61C42 62 48 62 56 60M46 46C58 48 64 46 72 42M62 31C70 32 76 30 83 26",
    ),
    ("blank", "M34 82C52 80 66 72 75 60C62 60 40 66 34 82Z"),
    ("fine", "M42 79C46 72 56 66 66 63"),
];

/// One leaf, from where it sits on the stem to its tip.
pub const ONE_LEAF: &str = "M0 0C6-10 20-13 31-7C23 5 9 7 0 0Z";

/// Seed leaves, which are not counted.
pub const SEED_LEAVES: &str =
    "M38 82C30 72 20 72 12 76C20 86 30 86 38 82ZM38 82C46 72 56 72 64 76C56 86 46 86 38 82Z";

/// The mix that a plant stands in.
pub const MIX: &[Layer] = &[
    ("ink", "M6 90H74"),
    (
        "full",
        "M14 93h2.5v2.5h-2.5ZM30 93h2.5v2.5h-2.5ZM60 93h2.5v2.5h-2.5Z",
    ),
];

/// A louse: legs and feelers, and the body.
pub const LOUSE: &[Layer] = &[
    ("fine", "M-5-4l2 3M0-5v4M5-4l-2 3M-5 4l2-3M0 5v-4M5 4l-2-3"),
    ("full", "M-6 0a5 3 0 0 1 11 0a5 3 0 0 1-11 0Z"),
];

/// Where lice sit on the leaf and how they are turned, degrees: a few are the first three.
pub const LICE: [(f64, f64, f64); 10] = [
    (34.0, 47.0, 20.0),
    (55.0, 47.0, -30.0),
    (69.0, 25.0, 60.0),
    (22.0, 62.0, 0.0),
    (44.0, 32.0, 80.0),
    (64.0, 37.0, 10.0),
    (74.0, 40.0, -50.0),
    (36.0, 66.0, 40.0),
    (54.0, 24.0, -20.0),
    (50.0, 60.0, 70.0),
];

/// The drawings by their names: the key of the point, and the state that it is in where there are several.
pub const DRAWN: &[Drawn] = &[
    (
        "ball_1",
        &[
            (
                "mix",
                "M6 92C14 84 22 82 30 80C36 74 42 76 48 73C55 75 62 76 68 81C76 83 84 86 90 92Z",
            ),
            (
                "root",
                "M48 38C46 46 36 48 35 62M48 40C49 50 46 54 49 66M48 38C52 46 60 48 61 60M38 52C34 54 30 54 28 58",
            ),
            (
                "full",
                "M22 88h3v3h-3ZM40 83h3v3h-3ZM58 85h4v3h-4ZM72 88h3v3h-3ZM48 88h3v3h-3ZM20 72h3v3h-3ZM74 72h4v3h-4Z",
            ),
        ],
        Shared::Plant,
    ),
    (
        "ball_2",
        &[
            (
                "mix",
                "M20 38L44 36L41 50L33 56L23 54ZM50 36L76 38L73 53L62 57L54 50ZM22 62L37 61L40 72L32 80L22 76ZM50 60L66 65L62 78L50 76Z",
            ),
            (
                "root",
                "M31 39C29 44 34 48 31 60C30 64 33 66 32 70M62 39C58 45 64 50 60 60C58 66 60 68 58 72",
            ),
            (
                "full",
                "M42 84l5-2l3 4l-4 3l-4-2ZM72 72l5-1l2 4l-5 2ZM66 85l6-2l3 4l-5 3l-4-2ZM14 84l5-2l3 4l-5 2ZM30 88l4-1l2 3l-4 1ZM54 90l4-1l1 3h-5ZM82 86l3-1l2 3l-4 1ZM14 68l3-1l1 3l-3 1Z",
            ),
        ],
        Shared::Plant,
    ),
    (
        "ball_3",
        &[
            (
                "mix",
                "M20 38H76L73 56L66 58L65 66L57 68L56 78L47 80L45 87Q34 88 31 87L30 76L25 73Z",
            ),
            (
                "root",
                "M29 39C25 49 36 55 32 66C31 71 36 75 36 82M45 39C50 49 40 57 45 68C46 71 46 72 46 75M60 39C55 46 63 51 60 60",
            ),
            (
                "full",
                "M62 78l6-2l4 4l-4 5l-6-2ZM72 88l5-2l4 3l-4 3h-5ZM76 74l4 0l1 4l-4 1ZM56 90l5-2l2 3l-4 2ZM17 84l5-2l2 4l-5 2ZM84 83l3 0l1 3l-3 1Z",
            ),
        ],
        Shared::Plant,
    ),
    (
        "ball_4",
        &[
            ("mix", "M20 38H76L71 72L64 75L62 82L55 88Q40 89 27 86Z"),
            (
                "root",
                "M28 39C24 50 36 56 31 67C29 75 37 79 36 87M43 39C48 48 38 57 44 67C48 75 44 80 47 87M57 39C51 49 62 56 56 68C54 72 57 75 56 79M69 39C72 48 62 54 66 66M27 57C36 51 42 60 52 55",
            ),
            (
                "full",
                "M69 80l5-1l2 4l-4 3l-4-2ZM64 88l3-1l1 3h-4ZM76 89l3-1l1 2l-3 1Z",
            ),
        ],
        Shared::Plant,
    ),
    (
        "ball_5",
        &[
            ("mix", "M20 38H76L69 86Q48 91 27 86Z"),
            (
                "root",
                "M26 39C24 50 35 54 31 66C29 75 36 78 36 86M41 39C46 48 37 56 43 66C48 75 42 80 47 88M57 39C51 49 62 54 55 66C51 76 60 80 57 88M70 39C73 49 60 56 65 68C68 75 63 79 66 85M28 52C34 48 36 44 41 46M40 55C46 60 50 52 56 55M59 50C63 53 66 48 70 50M31 67C36 72 40 64 43 68M45 72C50 78 52 72 55 70M55 76C59 72 62 76 66 74M30 78C33 84 40 78 43 82",
            ),
        ],
        Shared::Plant,
    ),
    (
        "circling_0",
        &[(
            "full",
            "M26 34h2.5v2.5h-2.5ZM40 30h2.5v2.5h-2.5ZM58 36h2.5v2.5h-2.5ZM70 32h2.5v2.5h-2.5ZM34 48h2.5v2.5h-2.5ZM50 46h2.5v2.5h-2.5ZM66 50h2.5v2.5h-2.5ZM28 62h2.5v2.5h-2.5ZM44 62h2.5v2.5h-2.5ZM58 60h2.5v2.5h-2.5ZM36 76h2.5v2.5h-2.5ZM52 75h2.5v2.5h-2.5ZM66 70h2.5v2.5h-2.5Z",
        )],
        Shared::Ball,
    ),
    (
        "circling_1",
        &[
            (
                "full",
                "M58 36h2.5v2.5h-2.5ZM30 62h2.5v2.5h-2.5ZM44 32h2.5v2.5h-2.5ZM52 74h2.5v2.5h-2.5ZM70 34h2.5v2.5h-2.5Z",
            ),
            (
                "root",
                "M24 34C30 42 24 50 30 58C34 64 32 70 36 78M30 57C36 58 38 62 42 64M46 42C44 50 52 54 50 62C49 68 54 70 53 76M68 38C62 46 70 52 66 60C63 66 66 72 62 78M66 59C60 60 60 64 57 65",
            ),
        ],
        Shared::Ball,
    ),
    (
        "circling_2",
        &[
            (
                "full",
                "M58 30h2.5v2.5h-2.5ZM40 30h2.5v2.5h-2.5ZM34 44h2.5v2.5h-2.5ZM62 44h2.5v2.5h-2.5Z",
            ),
            (
                "root",
                "M26 32C30 42 22 50 30 58C38 66 62 68 77.5 60M70 32C66 44 74 48 70 56C62 64 36 64 18.5 56M48 36C44 46 50 52 46 60C42 70 66 76 76 69M21 72C34 82 62 80 75 76",
            ),
        ],
        Shared::Ball,
    ),
    (
        "circling_3",
        &[(
            "root",
            "M28 30C32 38 24 42 30 50M68 30C64 38 72 42 66 50M48 34C44 40 50 44 47 52M17 53C34 60 60 74 77 60M19 64C36 54 62 56 79 52M20 74C30 56 52 58 60 68C66 76 74 72 76 66M19 60C30 76 46 80 56 70C62 64 72 60 77 68M21 80C36 64 50 88 62 78C68 73 74 76 75 74M22 70C34 90 52 70 60 82C66 88 72 82 74 80M24 86C40 78 60 94 72 86M26 90C44 96 60 94 71 90",
        )],
        Shared::Ball,
    ),
    (
        "tips_white",
        &[
            (
                "sheath",
                "M10-10C20 20 34 28 42 42C50 56 57 66 60 83M42 42C36 52 27 56 24 72",
            ),
            (
                "fine",
                "M50 47l9-5M55 57l10-4M58 67l11-2M60 77l11 1M40 51l-8-2M47 63l-8 3M51 73l-9 3M33 61l8 4M22 59l-8-4M18 67l-9-1M35 25l8-7M25 33l-9 4",
            ),
        ],
        Shared::None,
    ),
    (
        "tips_tan",
        &[
            (
                "sheath",
                "M10-10C20 20 34 28 42 42C50 56 57 66 60 83M42 42C36 52 27 56 24 72",
            ),
            ("tan", "M48 53C54 64 58 73 60 83M33 56C29 61 26 65 24 72"),
            (
                "across",
                "M43 57l12-8M47 65l12-7M50 73l13-5M53 81l13-3M27 56l10 8M21 64l11 6",
            ),
        ],
        Shared::None,
    ),
    (
        "tips_brown",
        &[
            ("sheath", "M10-10C17 12 26 22 34 30"),
            ("rot", "M35 31C44 43 49 50 52 58M39 38C35 46 31 50 29 57"),
            (
                "ink",
                "M50 54C57 66 56 72 63 80C67 85 66 90 72 95M30 54C27 62 30 70 25 78C22 84 26 88 23 94",
            ),
            ("fine", "M45 63l2 7l4-5l3 5l2-7l4 2M23 58l1 7l4-4l2 6l4-6"),
            ("sheath", "M61 76L66 84"),
            ("ink", "M57 71l-1-3M70 90l3 5"),
        ],
        Shared::None,
    ),
    (
        "flower_none",
        &[
            ("ink", "M48 92V30"),
            ("leaf", "M48 66C38 50 22 50 10 58C20 74 38 76 48 66Z"),
            ("leaf", "M48 66C58 50 74 50 86 58C76 74 58 76 48 66Z"),
            ("leaf", "M48 42C40 30 30 26 20 28C24 42 36 48 48 42Z"),
            ("leaf", "M48 42C56 30 66 26 76 28C72 42 60 48 48 42Z"),
            ("leaf", "M48 32C40 24 42 14 48 8C54 14 56 24 48 32Z"),
            (
                "fine",
                "M48 66C38 62 26 58 18 59M48 66C58 62 70 58 78 59M48 30V16",
            ),
        ],
        Shared::None,
    ),
    (
        "flower_bud",
        &[
            ("ink", "M48 92V38M48 60C58 56 64 48 66 40"),
            ("leaf", "M48 78C38 64 22 64 10 70C20 86 38 88 48 78Z"),
            ("leaf", "M48 78C58 64 74 64 86 70C76 86 58 88 48 78Z"),
            ("blank", "M48 40C36 34 36 18 48 6C60 18 60 34 48 40Z"),
            (
                "leaf",
                "M48 42C38 40 34 32 36 22C42 26 46 32 48 42C50 32 54 26 60 22C62 32 58 40 48 42Z",
            ),
            ("blank", "M66 42C60 38 62 30 68 26C74 32 72 40 66 42Z"),
            (
                "leaf",
                "M66 43C61 41 60 37 61 33C65 35 66 38 66 43C68 39 70 37 73 35C73 39 71 43 66 43Z",
            ),
        ],
        Shared::None,
    ),
    (
        "flower_open",
        &[
            ("ink", "M40 92C44 76 44 62 42 40M43 66C56 64 66 60 72 66"),
            ("leaf", "M42 82C32 70 18 72 8 78C18 92 34 92 42 82Z"),
            (
                "petal",
                "M40 26C27 14 30 3 40 3C50 3 53 14 40 26ZM46 30C53 15 64 13 68 23C70 33 61 39 46 30ZM43 37C61 39 65 49 57 55C49 61 40 54 43 37ZM37 37C40 54 31 61 23 55C15 49 19 39 37 37ZM34 30C19 39 10 33 12 23C16 13 27 15 34 30Z",
            ),
            ("full", "M40 26a6 6 0 1 0 .1 0Z"),
            ("blank", "M74 64C66 66 66 76 74 84C82 78 82 68 74 64Z"),
            (
                "leaf",
                "M73 63C67 64 65 69 66 74C70 72 72 70 73 64C76 70 79 72 83 72C82 67 79 63 73 63Z",
            ),
        ],
        Shared::None,
    ),
    (
        "hardened",
        &[
            ("blank", "M10 90V50L48 24L86 50V90Z"),
            ("glass", "M14 50L48 27L82 50"),
            ("ink", "M10 90H92M29 90V58M67 90V58M10 58H86"),
            ("vent", "M48 24L84 16L88 24L67 37"),
            ("fine", "M67 37L80 20"),
            ("ink", "M48 24L84 16"),
            (
                "ink",
                "M20 6a8 8 0 1 0 .1 0ZM20 0V3M8 3l3 2M3 14h4M8 26l3-3M32 3l-3 2M37 14h-4M20 25v4M32 26l-3-3",
            ),
            (
                "leaf",
                "M39 82C33 74 35 68 39 66C43 68 45 74 39 82ZM57 82C51 74 53 68 57 66C61 68 63 74 57 82Z",
            ),
            ("pot", "M33 81H45L43 90H35ZM51 81H63L61 90H53Z"),
        ],
        Shared::None,
    ),
    (
        "own",
        &[
            ("blank", "M30 6H66V66L48 92L30 66Z"),
            ("ink", "M37 20H59M37 32H59M37 44H52"),
        ],
        Shared::None,
    ),
    ("pests_none", &[], Shared::Leaf),
    ("pests_few", &[], Shared::Leaf),
    ("pests_many", &[], Shared::Leaf),
];
