//! The Transverse Mercator projection as the Ordnance Survey works it, by Redfearn's series.
//!
//! Source: Ordnance Survey, *A guide to coordinate systems in Great Britain*, annexes B (constants) and
//! C (the series, terms I to XIIA). The guide's numbering is kept in the names below.
//!
//! PROJ's own Transverse Mercator is the exact projection; the series leaves out small terms and is
//! 0.9 mm off it at St Kilda, 6.6° from the meridian. The national grid is *defined* by the series, and
//! the Survey's published points are met to the millimetre only by it (`docs/decisions/0010-series.md`).

/// An ellipsoid by its two axes, metres.
#[derive(Debug, Clone, Copy)]
pub struct Ellipsoid {
    /// Semi-major axis.
    pub a_m: f64,
    /// Semi-minor axis.
    pub b_m: f64,
}

/// GRS80, of ETRS89. Same source, annex B.
pub const GRS80: Ellipsoid = Ellipsoid { a_m: 6_378_137.0, b_m: 6_356_752.314_1 };

/// Airy 1830, of OSGB36. Same source, annex B.
pub const AIRY: Ellipsoid = Ellipsoid { a_m: 6_377_563.396, b_m: 6_356_256.909 };

/// A Transverse Mercator projection of one ellipsoid, with what its series need worked out once.
#[derive(Debug, Clone, Copy)]
pub struct Transverse {
    /// Latitude of the true origin, radians.
    origin_latitude: f64,
    /// Longitude of the true origin, degrees.
    origin_longitude_deg: f64,
    /// Easting of the true origin, metres.
    false_easting_m: f64,
    /// Northing of the true origin, metres.
    false_northing_m: f64,
    /// Semi-major axis, scaled.
    a: f64,
    /// Squared eccentricity.
    e2: f64,
    /// The guide's M as a latitude and sines of its multiples by two, four and six, scaled.
    arc: [f64; 4],
    /// The same sum at the true origin.
    arc_at_origin: f64,
    /// Sines of twice, four, six and eight times a distance along the meridian (as an angle) that make
    /// it a latitude.
    foot: [f64; 4],
}

/// The national grid's projection, on `ellipsoid`. Same source, annex B.
pub fn national(ellipsoid: Ellipsoid) -> Transverse {
    let Ellipsoid { a_m, b_m } = ellipsoid;
    let scale = 0.999_601_271_7;
    let n = (a_m - b_m) / (a_m + b_m);
    let (n2, n3, n4) = (n * n, n * n * n, n * n * n * n);
    let b = b_m * scale;
    let mut projection = Transverse {
        origin_latitude: 49_f64.to_radians(),
        origin_longitude_deg: -2.0,
        false_easting_m: 400_000.0,
        false_northing_m: -100_000.0,
        a: a_m * scale,
        e2: (a_m * a_m - b_m * b_m) / (a_m * a_m),
        // 2 sin(φ − φ₀) cos(φ + φ₀) = sin 2φ − sin 2φ₀, and so on.
        arc: [
            b * (1.0 + n + 1.25 * n2 + 1.25 * n3),
            -b * (3.0 * n + 3.0 * n2 + 2.625 * n3) / 2.0,
            b * (1.875 * n2 + 1.875 * n3) / 2.0,
            -b * 35.0 / 48.0 * n3,
        ],
        arc_at_origin: 0.0,
        // The usual series for the footpoint latitude; only a start, which the forward series corrects.
        foot: [
            1.5 * n - 27.0 / 32.0 * n3,
            21.0 / 16.0 * n2 - 55.0 / 32.0 * n4,
            151.0 / 96.0 * n3,
            1097.0 / 512.0 * n4,
        ],
    };
    let (sin, cos) = projection.origin_latitude.sin_cos();
    projection.arc_at_origin = projection.arc(projection.origin_latitude, sin, cos);
    projection
}

/// What the series need at one latitude.
struct Curvature {
    /// Transverse radius, scaled.
    nu: f64,
    /// Meridional radius, scaled.
    rho: f64,
    /// nu / rho.
    ratio: f64,
}

/// The sum of `terms` by the sines of twice, four times, … an angle.
fn sines<const N: usize>(terms: [f64; N], sin: f64, cos: f64) -> f64 {
    let (sin2, twice_cos2) = (2.0 * sin * cos, 2.0 * (cos * cos - sin * sin));
    // sin((k + 1)·2φ) = 2 cos 2φ sin(k·2φ) − sin((k − 1)·2φ)
    let (mut before, mut now, mut sum) = (0.0, sin2, 0.0);
    for term in terms {
        sum += term * now;
        (before, now) = (now, twice_cos2 * now - before);
    }
    sum
}

impl Transverse {
    /// Latitude and longitude in degrees to easting and northing in metres.
    pub fn forward(&self, latitude_deg: f64, longitude_deg: f64) -> (f64, f64) {
        let phi = latitude_deg.to_radians();
        let (sin, cos) = phi.sin_cos();
        let (e, n, _) = self.project(phi, sin, cos, (longitude_deg - self.origin_longitude_deg).to_radians());
        (e, n)
    }

    /// The forward series at a latitude and its sine and cosine, `p` radians east of the true origin.
    fn project(&self, phi: f64, sin: f64, cos: f64, p: f64) -> (f64, f64, Curvature) {
        let curvature = self.curvature(sin);
        let Curvature { nu, ratio, .. } = curvature;
        let (tan2, eta2) = ((sin / cos) * (sin / cos), ratio - 1.0);
        let cos2 = cos * cos;
        let i = self.arc(phi, sin, cos) - self.arc_at_origin + self.false_northing_m;
        // Terms II to IIIA share ν sin φ cos φ, and IV to VI ν cos φ.
        let ii = 1.0 / 2.0;
        let iii = cos2 / 24.0 * (5.0 - tan2 + 9.0 * eta2);
        let iiia = cos2 * cos2 / 720.0 * (61.0 - 58.0 * tan2 + tan2 * tan2);
        let v = cos2 / 6.0 * (ratio - tan2);
        let vi = cos2 * cos2 / 120.0 * (5.0 - 18.0 * tan2 + tan2 * tan2 + 14.0 * eta2 - 58.0 * tan2 * eta2);
        let p2 = p * p;
        let northing = i + nu * sin * cos * p2 * (ii + p2 * (iii + p2 * iiia));
        let easting = self.false_easting_m + nu * cos * p * (1.0 + p2 * (v + p2 * vi));
        (easting, northing, curvature)
    }

    /// Easting and northing in metres to latitude and longitude in degrees.
    ///
    /// The guide's inverse series gives the start; the forward series then corrects it until both agree
    /// to a hundredth of a micrometre, so that there and back is the same place.
    pub fn inverse(&self, easting_m: f64, northing_m: f64) -> (f64, f64) {
        let (mut phi, mut p) = self.inverse_series(easting_m, northing_m);
        for _ in 0..8 {
            let (sin_phi, cos_phi) = phi.sin_cos();
            let (e, n, Curvature { nu, rho, .. }) = self.project(phi, sin_phi, cos_phi, p);
            let (east, north) = (easting_m - e, northing_m - n);
            // Near enough a similarity: turned by the convergence of the meridians, whose tangent is
            // tan p sin φ. What is left over of a correction is below a hundredth of it.
            let tan = p * (1.0 + p * p / 3.0) * sin_phi;
            let cos = 1.0 / (1.0 + tan * tan).sqrt();
            let sin = tan * cos;
            phi += (north * cos - east * sin) / rho;
            p += (north * sin + east * cos) / (nu * cos_phi);
            if east.abs() < 1e-6 && north.abs() < 1e-6 {
                break;
            }
        }
        (phi.to_degrees(), self.origin_longitude_deg + p.to_degrees())
    }

    /// Latitude, and longitude from the true origin, in radians.
    fn inverse_series(&self, easting_m: f64, northing_m: f64) -> (f64, f64) {
        let mu = (northing_m - self.false_northing_m + self.arc_at_origin) / self.arc[0];
        let (sin, cos) = mu.sin_cos();
        let phi = mu + sines(self.foot, sin, cos);
        let (sin, cos) = phi.sin_cos();
        let (tan, sec) = (sin / cos, 1.0 / cos);
        let tan2 = tan * tan;
        let Curvature { nu, ratio, .. } = self.curvature(sin);
        let eta2 = ratio - 1.0;
        // Terms VII to IX share tan φ / ρ, and X to XIIA sec φ; distance counts in transverse radii.
        let d = (easting_m - self.false_easting_m) / nu;
        let d2 = d * d;
        let vii = 1.0 / 2.0;
        let viii = (5.0 + 3.0 * tan2 + eta2 - 9.0 * tan2 * eta2) / 24.0;
        let ix = (61.0 + 90.0 * tan2 + 45.0 * tan2 * tan2) / 720.0;
        let xi = (ratio + 2.0 * tan2) / 6.0;
        let xii = (5.0 + 28.0 * tan2 + 24.0 * tan2 * tan2) / 120.0;
        let xiia = (61.0 + 662.0 * tan2 + 1320.0 * tan2 * tan2 + 720.0 * tan2 * tan2 * tan2) / 5040.0;
        let latitude = phi - tan * ratio * d2 * (vii - d2 * (viii - d2 * ix));
        let longitude = sec * d * (1.0 - d2 * (xi - d2 * (xii - d2 * xiia)));
        (latitude, longitude)
    }

    fn curvature(&self, sin: f64) -> Curvature {
        let w = 1.0 - self.e2 * sin * sin;
        let nu = self.a / w.sqrt();
        let ratio = w / (1.0 - self.e2);
        Curvature { nu, rho: nu / ratio, ratio }
    }

    /// The guide's M, from the equator instead of the true origin.
    fn arc(&self, phi: f64, sin: f64, cos: f64) -> f64 {
        let [straight, rest @ ..] = self.arc;
        straight * phi + sines(rest, sin, cos)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ordnance Survey, *A guide to coordinate systems in Great Britain*, annex C, worked example.
    #[test]
    fn guide_example_both_ways() {
        let latitude = 52.0 + 39.0 / 60.0 + 27.2531 / 3600.0;
        let longitude = 1.0 + 43.0 / 60.0 + 4.5177 / 3600.0;
        let (e, n) = national(AIRY).forward(latitude, longitude);
        assert!((e - 651_409.903).abs() < 0.001, "{e}");
        assert!((n - 313_177.270).abs() < 0.001, "{n}");
        let (back_latitude, back_longitude) = national(AIRY).inverse(651_409.903, 313_177.270);
        // A tenth of the last printed figure of the seconds (0.0001″ is 3 mm).
        assert!((back_latitude - latitude).abs() * 3600.0 < 5e-5);
        assert!((back_longitude - longitude).abs() * 3600.0 < 5e-5);
    }

    /// Caister Water Tower on the ETRS89 Transverse Mercator; same source, section on OSTN15.
    #[test]
    fn caister_on_etrs89() {
        let (e, n) = national(GRS80).forward(52.658_007_833, 1.716_073_973);
        assert!((e - 651_307.003).abs() < 0.001, "{e}");
        assert!((n - 313_255.686).abs() < 0.001, "{n}");
    }

    #[test]
    fn there_and_back_over_the_whole_grid() {
        for east in 0..=14 {
            for north in 0..=25 {
                let (e, n) = (f64::from(east) * 50_000.0, f64::from(north) * 50_000.0);
                let (latitude, longitude) = national(GRS80).inverse(e, n);
                let (e2, n2) = national(GRS80).forward(latitude, longitude);
                assert!((e - e2).abs() < 1e-6 && (n - n2).abs() < 1e-6, "{e} {n}");
            }
        }
    }

    /// PROJ's exact projection is the judge of the series: 0.1 mm within 3° of the meridian, and what the
    /// left-out terms amount to further out.
    #[test]
    fn series_against_the_exact_projection() {
        crate::coordinates::start();
        let exact = proj::Proj::new(
            "+proj=tmerc +algo=poder_engsager +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 \
             +a=6378137 +b=6356752.3141",
        )
        .unwrap();
        for (within_deg, within_m) in [(3.0, 1e-4), (6.7, 6e-3)] {
            for latitude in (49..=61).map(f64::from) {
                for step in -8..=8 {
                    let longitude = -2.0 + within_deg * f64::from(step) / 8.0;
                    let (e, n) = national(GRS80).forward(latitude, longitude);
                    let point: (f64, f64) =
                        exact.project((longitude.to_radians(), latitude.to_radians()), false).unwrap();
                    let (east, north) = (e - point.0, n - point.1);
                    assert!(
                        east.abs() < within_m && north.abs() < within_m,
                        "{latitude} {longitude}: {east} {north}"
                    );
                }
            }
        }
    }
}
