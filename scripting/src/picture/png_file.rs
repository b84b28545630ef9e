//! A page as PNG, at two pixels to a unit of the layout so that it prints crisply.

use super::PictureError;
use super::canvas::{Canvas, STEPS_PER_UNIT};
use plotters::backend::BitMapBackend;

/// Pixels to one unit of the layout.
pub(super) const PIXELS_PER_UNIT: u32 = 2;

/// Drawn steps to one pixel along each side; their mean smooths the edges.
const OVERSAMPLING: u32 = STEPS_PER_UNIT / PIXELS_PER_UNIT;

/// Pixels to a metre that the file states: 192 to an inch, so that it shows at the layout's size.
const PIXELS_PER_METRE: u32 = 7559;

/// The page as the bytes of a PNG file.
pub(super) fn encode(canvas: &Canvas) -> Result<Vec<u8>, PictureError> {
    let (wide, high) = canvas.size_in_steps();
    let mut fine = vec![255_u8; wide as usize * high as usize * 3];
    {
        let mut backend = BitMapBackend::with_buffer(&mut fine, (wide, high));
        Canvas::replay(canvas.shapes(), &mut backend, true)?;
    }
    let coarse = mean_of_squares(&fine, wide as usize);

    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, wide / OVERSAMPLING, high / OVERSAMPLING);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    // Flat areas and few colours pack best unfiltered.
    encoder.set_filter(png::FilterType::NoFilter);
    encoder.set_compression(png::Compression::Best);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: PIXELS_PER_METRE,
        yppu: PIXELS_PER_METRE,
        unit: png::Unit::Meter,
    }));
    let failed = |error: png::EncodingError| PictureError::Drawing(error.to_string());
    let mut writer = encoder.write_header().map_err(failed)?;
    writer.write_image_data(&coarse).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(out)
}

/// Each square of [`OVERSAMPLING`] by [`OVERSAMPLING`] steps as one pixel.
fn mean_of_squares(fine: &[u8], wide: usize) -> Vec<u8> {
    let side = OVERSAMPLING as usize;
    let row_bytes = wide * 3;
    let mut out = Vec::with_capacity(fine.len() / (side * side));
    for rows in fine.chunks_exact(row_bytes * side) {
        for x in 0..wide / side {
            for channel in 0..3 {
                let mut sum = 0_u32;
                for row in rows.chunks_exact(row_bytes) {
                    for step in 0..side {
                        sum += u32::from(row[(x * side + step) * 3 + channel]);
                    }
                }
                let count = OVERSAMPLING * OVERSAMPLING;
                out.push(u8::try_from((sum + count / 2) / count).unwrap_or(u8::MAX));
            }
        }
    }
    out
}
