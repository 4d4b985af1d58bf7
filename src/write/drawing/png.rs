//! A picture as PNG with its true dots per inch, so that it prints at its own size.

use std::sync::Arc;

use resvg::tiny_skia::{Pixmap, Transform};
use usvg::fontdb::Database;

use super::{Drawing, svg_text};
use crate::write::lettering;

/// Dots per inch of the pictures: sharp when printed, light enough to send.
pub(crate) const DOTS_PER_INCH: f64 = 150.0;

/// CSS pixels per inch, the unit the renderer thinks in (CSS Values and Units 4, 6.1).
const CSS_PER_INCH: f64 = 96.0;

/// The picture as a PNG file, opaque, with pHYs set.
pub(crate) fn file(drawing: &Drawing) -> Vec<u8> {
    let pixmap = pixels(drawing, DOTS_PER_INCH);
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, pixmap.width(), pixmap.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    // Large flat areas: the fast setting loses little here and is several times quicker.
    encoder.set_compression(png::Compression::Fast);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small positive constant")]
    let per_metre = (DOTS_PER_INCH / 0.0254).round() as u32;
    let dims = png::PixelDimensions { xppu: per_metre, yppu: per_metre, unit: png::Unit::Meter };
    encoder.set_pixel_dims(Some(dims));
    // The paper under every picture is opaque, so colours need no un-multiplying.
    let mut rgb = Vec::with_capacity(pixmap.data().len() / 4 * 3);
    for rgba in pixmap.data().chunks_exact(4) {
        rgb.extend_from_slice(&rgba[..3]);
    }
    let mut writer = encoder.write_header().expect("writing to memory cannot fail");
    writer.write_image_data(&rgb).expect("as many bytes as the header says");
    writer.finish().expect("writing to memory cannot fail");
    bytes
}

/// The picture in pixels.
pub(crate) fn pixels(drawing: &Drawing, dots_per_inch: f64) -> Pixmap {
    let mut fonts = Database::new();
    fonts.load_font_data(lettering::REGULAR.to_vec());
    fonts.load_font_data(lettering::BOLD.to_vec());
    let options =
        usvg::Options { fontdb: Arc::new(fonts), font_family: lettering::FAMILY.to_owned(), ..Default::default() };
    let tree = usvg::Tree::from_str(&svg_text::file(drawing), &options).expect("our own picture is whole SVG");
    let dots = |mm: f64| {
        let dots = (mm / 25.4 * dots_per_inch).ceil().clamp(1.0, LARGEST);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1..=LARGEST")]
        {
            dots as u32
        }
    };
    let mut pixmap = Pixmap::new(dots(drawing.width), dots(drawing.height)).expect("neither side is zero");
    pixmap.fill(resvg::tiny_skia::Color::WHITE);
    #[expect(clippy::cast_possible_truncation, reason = "the renderer works in f32")]
    let scale = (dots_per_inch / CSS_PER_INCH) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    pixmap
}

/// Longest side in pixels; pictures are laid out on papers far smaller than this.
const LARGEST: f64 = 8000.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Point, Rect};
    use crate::write::drawing::Words;
    use crate::write::style;

    #[test]
    fn a_picture_prints_at_its_own_size() {
        let mut drawing = Drawing::new(50.8, 25.4, "");
        drawing.rect(Rect::new(0.0, 0.0, 25.4, 25.4), Some(style::STOP), None);
        drawing.words(Words::new("Words", Point::new(30.0, 12.0)));
        let bytes = file(&drawing);
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
        let info = reader.info();
        assert_eq!((info.width, info.height), (300, 150));
        assert_eq!(info.pixel_dims.unwrap().xppu, 5906);
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut pixels).unwrap();
        let at = |x: usize, y: usize| &pixels[(y * 300 + x) * 3..][..3];
        assert_eq!(at(75, 75), [style::STOP.red, style::STOP.green, style::STOP.blue]);
        assert_eq!(at(290, 140), [255, 255, 255]);
        let dark = (150..300).flat_map(|x| (0..150).map(move |y| (x, y))).filter(|(x, y)| at(*x, *y)[0] < 128).count();
        assert!(dark > 100, "no words were drawn");
    }
}
