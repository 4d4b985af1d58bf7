//! The cautions that stand on the page and in the workbook alike.

/// What anybody at a hot plate must know; the same on the page.
pub(crate) const CAUTIONS: [&str; 6] = [
    "A hot plate burns skin at once and cloth a moment later. Keep hands, children and pets away, never leave it on and \
     unwatched, let it cool before it is moved.",
    "Press a test piece first, on a scrap of the same cloth with the same layers under it, let it cool, and look at both \
     sides.",
    "The film maker's sheet, the machine's manual and the care label come before anything printed here; so do local rules \
     for working with hot tools.",
    "Some films and cloths give off fumes when overheated: air the room, and stop at any smell of burning.",
    "Print pages at 100 %, without fitting to the page, and measure the check line before you trust a template.",
    "Cut one motif first, best a test motif, and measure it before you cut a whole sheet.",
];
