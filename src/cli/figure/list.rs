//! Every formula by name.

use crate::cli::figure::{Formula, through};
use crate::mechanics::{attitude, load};

macro_rules! formulas {
    ($( $function:path, $page:path; )*) => {
        /// Every formula, grouped as `mechanics` is.
        pub(super) static FORMULAS: &[Formula] = &[
            $( Formula {
                page: &$page,
                reckon: |inputs| through(inputs, $function),
            }, )*
        ];
    };
}

formulas! {
    load::mass_properties, load::MASS_PROPERTIES;

    attitude::truck_uncoupled, attitude::TRUCK_UNCOUPLED;
    attitude::solve_static, attitude::SOLVE_STATIC;
    attitude::level_drawbar, attitude::LEVEL_DRAWBAR;
}
