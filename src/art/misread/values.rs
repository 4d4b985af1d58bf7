//! Which values the SVG parser can read, asked of the library that it reads them by, and what it takes instead.

use std::str::FromStr as _;

use svgtypes::{
    AspectRatio, Color, FilterValueListParser, FuncIRI, Length, LengthListParser, LengthUnit, Number, NumberListParser,
    Paint, PathParser, Transform, TransformOrigin, ViewBox,
};

/// Units across a page beyond which they are read as none: no drawing has a thousandth of them.
const LARGEST_UNITS: f64 = 1e9;

/// What is at stake when a value cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stake {
    /// How large a shape is, or where it lies or how it is turned.
    Placing,
    /// A length that sizes an element.
    Size,
    /// What an outline encloses.
    Area,
    /// A colour.
    Colour,
    /// How it looks, without another cut.
    Look,
}

/// A property that is read, what is at stake, and what is taken when its value cannot be read.
struct Property {
    name: &'static str,
    stake: Stake,
    instead: &'static str,
    /// Whether parts inherit it.
    inherited: bool,
}

const fn own(name: &'static str, stake: Stake, instead: &'static str) -> Property {
    Property { name, stake, instead, inherited: false }
}

const fn inherited(name: &'static str, stake: Stake, instead: &'static str) -> Property {
    Property { name, stake, instead, inherited: true }
}

/// Properties that may stand in a style as well as in an attribute.
const STYLED: [Property; 24] = [
    own("transform", Stake::Placing, "it was left as if that were not written"),
    own("transform-origin", Stake::Placing, "the page's corner was taken instead"),
    own("opacity", Stake::Look, "it was taken as opaque"),
    own("clip-path", Stake::Area, "nothing was clipped"),
    own("mask", Stake::Area, "nothing was masked"),
    own("display", Stake::Look, "it was taken as shown"),
    own("filter", Stake::Look, "it was left out"),
    own("vector-effect", Stake::Look, "the line was scaled with the rest"),
    own("stop-color", Stake::Colour, "black was taken"),
    inherited("fill", Stake::Colour, "black was taken"),
    inherited("stroke", Stake::Colour, "no line was drawn"),
    inherited("color", Stake::Colour, "black was taken"),
    inherited("fill-opacity", Stake::Look, "it was taken as opaque"),
    inherited("stroke-opacity", Stake::Look, "it was taken as opaque"),
    inherited("fill-rule", Stake::Area, "every loop that runs the same way was filled"),
    inherited("clip-rule", Stake::Area, "every loop that runs the same way was taken"),
    inherited("stroke-width", Stake::Size, "a line one unit wide was taken"),
    inherited("stroke-dasharray", Stake::Size, "the line was taken as solid, or as far as it could be read"),
    inherited("stroke-dashoffset", Stake::Size, "the dashes begin at the line's start"),
    inherited("stroke-linecap", Stake::Look, "the line's ends were cut straight"),
    inherited("stroke-linejoin", Stake::Look, "the line's corners were left pointed"),
    inherited("stroke-miterlimit", Stake::Look, "the usual length of points was taken"),
    inherited("paint-order", Stake::Look, "the line was drawn over the filled shape"),
    inherited("visibility", Stake::Look, "it was taken as shown"),
];

/// Names of inherited properties, in the order in which their values are carried down.
pub(super) fn inherited_names() -> impl Iterator<Item = &'static str> {
    STYLED.iter().filter(|property| property.inherited).map(|property| property.name)
}

/// Whether a property is taken from styles.
pub(super) fn is_styled(name: &str) -> bool {
    STYLED.iter().any(|property| property.name == name)
}

/// Properties with a meaning of their own on any element that is drawn or holds what is drawn.
pub(super) fn own_names() -> impl Iterator<Item = &'static str> {
    STYLED.iter().filter(|property| !property.inherited).map(|property| property.name)
}

/// Lengths and outlines that an element of this name is drawn by.
pub(super) fn geometry_of(element: &str) -> &'static [&'static str] {
    match element {
        "rect" => &["x", "y", "width", "height", "rx", "ry"],
        "circle" => &["cx", "cy", "r"],
        "ellipse" => &["cx", "cy", "rx", "ry"],
        "line" => &["x1", "y1", "x2", "y2"],
        "polyline" | "polygon" => &["points"],
        "path" => &["d"],
        "use" => &["x", "y", "width", "height"],
        "svg" => &["x", "y", "width", "height", "viewBox", "preserveAspectRatio"],
        "symbol" => &["viewBox", "preserveAspectRatio"],
        _ => &[],
    }
}

/// What is at stake with a property.
pub(super) fn stake(name: &str) -> Stake {
    match name {
        "viewBox" | "preserveAspectRatio" => Stake::Placing,
        _ => STYLED.iter().find(|property| property.name == name).map_or(Stake::Size, |property| property.stake),
    }
}

/// What was taken in place of a value that cannot be read, in words.
pub(super) fn instead(element: &str, name: &str) -> &'static str {
    match (element, name) {
        ("svg", "width" | "height") => "the page was taken as large as its units say, in screen pixels",
        ("svg" | "symbol", "viewBox") => "its units were taken as screen pixels",
        ("svg" | "symbol", "preserveAspectRatio") => "it was fitted into the middle",
        ("use", "width" | "height") => "the size of what is copied was taken",
        ("rect" | "ellipse", "rx" | "ry") => "the other radius was taken for both, or none",
        _ => STYLED
            .iter()
            .find(|property| property.name == name)
            .map_or("nothing was taken for it", |property| property.instead),
    }
}

/// Whether the SVG parser can read a value of this property; names it does not know are always right.
pub(super) fn reads(name: &str, value: &str) -> bool {
    let length = |value: &str| Length::from_str(value).is_ok();
    if value == "initial" && is_styled(name) {
        return true;
    }
    match name {
        "transform" => matches!(value, "none" | "unset" | "revert") || Transform::from_str(value).is_ok(),
        "transform-origin" => matches!(value, "unset" | "revert") || TransformOrigin::from_str(value).is_ok(),
        "fill" | "stroke" => Paint::from_str(value).is_ok(),
        "color" => Color::from_str(value).is_ok(),
        "stop-color" => value == "currentColor" || Color::from_str(value).is_ok(),
        "opacity" | "fill-opacity" | "stroke-opacity" => {
            Length::from_str(value).is_ok_and(|length| matches!(length.unit, LengthUnit::None | LengthUnit::Percent))
        }
        "stroke-width" => Length::from_str(value).is_ok_and(|length| length.number >= 0.0),
        "stroke-dashoffset" => length(value),
        "stroke-dasharray" => {
            value == "none"
                || LengthListParser::from(value).all(|length| length.is_ok_and(|length| length.number >= 0.0))
        }
        "stroke-miterlimit" => Number::from_str(value).is_ok(),
        "stroke-linecap" => matches!(value, "butt" | "round" | "square"),
        "stroke-linejoin" => matches!(value, "miter" | "miter-clip" | "round" | "bevel"),
        "fill-rule" | "clip-rule" => matches!(value, "nonzero" | "evenodd"),
        "visibility" => matches!(value, "visible" | "hidden" | "collapse"),
        "paint-order" => {
            let words: Vec<&str> = value.split_whitespace().collect();
            let known = |(index, word): (usize, &&str)| {
                matches!(*word, "fill" | "stroke" | "markers") && !words[..index].contains(word)
            };
            value == "normal" || (!words.is_empty() && words.iter().enumerate().all(known))
        }
        "filter" => FilterValueListParser::from(value).all(|one| one.is_ok()),
        "clip-path" | "mask" => value == "none" || FuncIRI::from_str(value).is_ok(),
        "viewBox" => ViewBox::from_str(value)
            .is_ok_and(|view| [view.x, view.y, view.w, view.h].iter().all(|number| number.abs() <= LARGEST_UNITS)),
        "preserveAspectRatio" => AspectRatio::from_str(value).is_ok(),
        "width" | "height" | "rx" | "ry" => value == "auto" || length(value),
        "x" | "y" | "x1" | "y1" | "x2" | "y2" | "cx" | "cy" | "r" => length(value),
        "d" => broken_at(value).is_none(),
        "points" => lone_point(value).is_none(),
        _ => true,
    }
}

/// From which character on the data of an outline cannot be read.
pub(super) fn broken_at(data: &str) -> Option<usize> {
    use svgtypes::Error;
    PathParser::from(data).find_map(Result::err).map(|error| match error {
        Error::UnexpectedData(at)
        | Error::InvalidChar(_, at)
        | Error::InvalidString(_, at)
        | Error::InvalidNumber(at) => at.saturating_sub(1),
        Error::UnexpectedEndOfStream => data.chars().count(),
        Error::InvalidValue | Error::InvalidIdent => 0,
    })
}

/// Numbers read of a list of points before the first that cannot be read or has no partner.
pub(super) fn lone_point(points: &str) -> Option<usize> {
    let mut count = 0;
    for number in NumberListParser::from(points.trim_end()) {
        if number.is_err() {
            return Some(count);
        }
        count += 1;
    }
    (count % 2 == 1).then_some(count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_told_apart_as_the_parser_tells_them() {
        for (name, good, bad) in [
            ("transform", "scale(2)", "scale(2"),
            ("transform", "rotate(5 1 1), translate(1)", "sclae(2)"),
            ("transform", "none", "rotate(abc)"),
            ("transform", "", "scale(nan)"),
            ("transform", "matrix(1 0 0 1 0 0)", "matrix(1 0 0 1)"),
            ("transform", "skewX(4)", "rotate(45deg)"),
            ("fill", "#c00", "#c0"),
            ("fill", "crimson", "blurple"),
            ("fill", "url(#a) red", ""),
            ("stroke", "none", "none!"),
            ("color", "rgb(1,2,3)", "lab(1 2 3)"),
            ("opacity", "50%", "half"),
            ("opacity", ".5", "5mm"),
            ("stroke-width", "2mm", "2 mm"),
            ("stroke-width", "0", "-2"),
            ("stroke-dasharray", "2,3 4", "2,x"),
            ("fill-rule", "evenodd", "even-odd"),
            ("width", "90mm", "90q"),
            ("height", "auto", "9O"),
            ("viewBox", "0 0 10 10", "0 0 10"),
            ("viewBox", "0,0,1e2,5", "0 0 -10 10"),
            ("viewBox", "0 0 1e9 1e9", "0 0 1e300 1e300"),
            ("d", "M0 0 L5 5z", "M0 0 L5 5 oops"),
            ("d", "", "0 0 L5 5"),
            ("points", "0,0 5,0 5,5", "0,0 5,0 5"),
            ("points", " 0 0 5 0 5 5 ", "0,0 5,o 5,5"),
            ("visibility", "hidden", "hiden"),
            ("clip-path", "url(#a)", "circle(50%)"),
            ("filter", "blur(2mm) url(#a)", "blur(2mx)"),
            ("filter", "none", "blurred"),
            ("paint-order", "stroke fill", "strok"),
            ("paint-order", "normal", "fill fill"),
        ] {
            assert!(reads(name, good), "{name}: {good}");
            assert!(!reads(name, bad), "{name}: {bad}");
        }
    }

    #[test]
    fn an_outline_is_broken_where_its_data_is() {
        assert_eq!(broken_at("M0 0 L5 5 z"), None);
        assert_eq!(broken_at("M0 0 L5 5 oops"), Some(10));
        assert_eq!(broken_at("M0 0 L5"), Some(7));
        assert_eq!(lone_point("0 0 1 1 2"), Some(5));
        assert_eq!(lone_point("0 0 1 x 2 2"), Some(3));
    }
}
