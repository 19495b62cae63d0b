//! The canvas as a drawing surface for plotters, so that charts are drawn on the same page, in the same
//! font and the same units as maps. A plotters "pixel" is a hundredth of a millimetre here.

use std::convert::Infallible;

use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind, FontStyle,
    FontTransform,
};

use super::canvas::{Anchor, Canvas, Look, PT, Rect, Type};
use super::colour::Colour;
use super::text::Face;

/// A canvas lent to plotters.
pub(super) struct Plot<'a>(pub &'a mut Canvas);

type Outcome = Result<(), DrawingErrorKind<Infallible>>;

fn colour(from: BackendColor) -> Colour {
    Colour([from.rgb.0, from.rgb.1, from.rgb.2])
}

fn stroke<S: BackendStyle>(style: &S) -> Look {
    // plotters' stroke widths are whole pixels: whole canvas units here.
    let look = Look::line(colour(style.color()), f64::from(style.stroke_width()) / PT);
    with_alpha(look, style.color().alpha)
}

fn fill<S: BackendStyle>(style: &S) -> Look {
    with_alpha(Look::fill(colour(style.color())), style.color().alpha)
}

fn with_alpha(look: Look, alpha: f64) -> Look {
    if alpha < 1.0 { look.opacity(alpha) } else { look }
}

impl DrawingBackend for Plot<'_> {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        let (width, height) = self.0.size();
        (width.max(0) as u32, height.max(0) as u32)
    }

    fn ensure_prepared(&mut self) -> Outcome {
        Ok(())
    }

    fn present(&mut self) -> Outcome {
        Ok(())
    }

    fn draw_pixel(&mut self, (x, y): BackendCoord, color: BackendColor) -> Outcome {
        self.0.rect_with(Rect::new(f64::from(x), f64::from(y), 1.0, 1.0), &fill(&color));
        Ok(())
    }

    fn draw_line<S: BackendStyle>(&mut self, from: BackendCoord, to: BackendCoord, style: &S) -> Outcome {
        if style.color().alpha > 0.0 {
            self.0.lines_with(&[vec![from, to]], &stroke(style));
        }
        Ok(())
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
        filled: bool,
    ) -> Outcome {
        let rect = Rect {
            x0: f64::from(from.0.min(to.0)),
            y0: f64::from(from.1.min(to.1)),
            x1: f64::from(from.0.max(to.0)),
            y1: f64::from(from.1.max(to.1)),
        };
        if style.color().alpha > 0.0 {
            self.0.rect_with(rect, &if filled { fill(style) } else { stroke(style) });
        }
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Outcome {
        if style.color().alpha > 0.0 {
            self.0.lines_with(&[path.into_iter().collect()], &stroke(style));
        }
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        (x, y): BackendCoord,
        radius: u32,
        style: &S,
        filled: bool,
    ) -> Outcome {
        let look = if filled { fill(style) } else { stroke(style) };
        self.0.circle_with(f64::from(x), f64::from(y), f64::from(radius), &look);
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        ring: I,
        style: &S,
    ) -> Outcome {
        if style.color().alpha > 0.0 {
            self.0.rings_with(&[ring.into_iter().collect()], &fill(style));
        }
        Ok(())
    }

    fn draw_text<T: BackendTextStyle>(&mut self, text: &str, style: &T, (x, y): BackendCoord) -> Outcome {
        let mut look = kind(style);
        look.anchor = match style.anchor().h_pos {
            HPos::Left => Anchor::Start,
            HPos::Center => Anchor::Middle,
            HPos::Right => Anchor::End,
        };
        look.upright = matches!(style.transform(), FontTransform::Rotate270);
        let drop = match style.anchor().v_pos {
            VPos::Top => look.rise(),
            VPos::Center => look.rise() / 2.0,
            VPos::Bottom => -look.fall() * 0.2,
        };
        let (x, y) = (f64::from(x), f64::from(y));
        // Turned text reads upwards: its "down" is to the right.
        let (x, y) = if look.upright { (x + drop, y) } else { (x, y + drop) };
        self.0.text(x, y, text, &look);
        Ok(())
    }

    fn estimate_text_size<T: BackendTextStyle>(
        &self,
        text: &str,
        style: &T,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        let look = kind(style);
        Ok((look.width(text).ceil() as u32, look.rise().ceil() as u32))
    }
}

fn kind<T: BackendTextStyle>(style: &T) -> Type {
    let mut look = Type::new(style.size() / PT, colour(style.color()));
    look.face = match style.style() {
        FontStyle::Bold => Face::Bold,
        FontStyle::Italic | FontStyle::Oblique => Face::Oblique,
        FontStyle::Normal => Face::Regular,
    };
    look
}
