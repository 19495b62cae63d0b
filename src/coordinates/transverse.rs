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

/// A Transverse Mercator projection of one ellipsoid.
#[derive(Debug, Clone, Copy)]
pub struct Transverse {
    /// The ellipsoid projected.
    pub ellipsoid: Ellipsoid,
    /// Latitude of the true origin, degrees.
    pub origin_latitude_deg: f64,
    /// Longitude of the true origin, degrees.
    pub origin_longitude_deg: f64,
    /// Scale on the central meridian.
    pub scale: f64,
    /// Easting of the true origin, metres.
    pub false_easting_m: f64,
    /// Northing of the true origin, metres.
    pub false_northing_m: f64,
}

/// The national grid's projection, on `ellipsoid`. Same source, annex B.
pub const fn national(ellipsoid: Ellipsoid) -> Transverse {
    Transverse {
        ellipsoid,
        origin_latitude_deg: 49.0,
        origin_longitude_deg: -2.0,
        scale: 0.999_601_271_7,
        false_easting_m: 400_000.0,
        false_northing_m: -100_000.0,
    }
}

/// What the series needs at one latitude.
struct Curvature {
    /// Transverse radius, scaled.
    nu: f64,
    /// Meridional radius, scaled.
    rho: f64,
    /// nu / rho − 1.
    eta2: f64,
}

impl Transverse {
    /// Latitude and longitude in degrees to easting and northing in metres.
    pub fn forward(&self, latitude_deg: f64, longitude_deg: f64) -> (f64, f64) {
        let phi = latitude_deg.to_radians();
        let p = (longitude_deg - self.origin_longitude_deg).to_radians();
        let (sin, cos, tan2) = (phi.sin(), phi.cos(), phi.tan().powi(2));
        let Curvature { nu, rho, eta2 } = self.curvature(phi);
        let i = self.meridian_arc(phi) + self.false_northing_m;
        let ii = nu / 2.0 * sin * cos;
        let iii = nu / 24.0 * sin * cos.powi(3) * (5.0 - tan2 + 9.0 * eta2);
        let iiia = nu / 720.0 * sin * cos.powi(5) * (61.0 - 58.0 * tan2 + tan2 * tan2);
        let iv = nu * cos;
        let v = nu / 6.0 * cos.powi(3) * (nu / rho - tan2);
        let vi =
            nu / 120.0 * cos.powi(5) * (5.0 - 18.0 * tan2 + tan2 * tan2 + 14.0 * eta2 - 58.0 * tan2 * eta2);
        let northing = i + ii * p.powi(2) + iii * p.powi(4) + iiia * p.powi(6);
        let easting = self.false_easting_m + iv * p + v * p.powi(3) + vi * p.powi(5);
        (easting, northing)
    }

    /// Easting and northing in metres to latitude and longitude in degrees.
    ///
    /// The guide's inverse series gives the start; the forward series then corrects it until both agree
    /// to a hundredth of a micrometre, so that there and back is the same place.
    pub fn inverse(&self, easting_m: f64, northing_m: f64) -> (f64, f64) {
        let (mut latitude, mut longitude) = self.inverse_series(easting_m, northing_m);
        for _ in 0..8 {
            let (e, n) = self.forward(latitude, longitude);
            let (east, north) = (easting_m - e, northing_m - n);
            // Near enough a similarity: turned by the convergence of the meridians.
            let phi = latitude.to_radians();
            let p = (longitude - self.origin_longitude_deg).to_radians();
            let (sin, cos) = (p.tan() * phi.sin()).atan().sin_cos();
            let Curvature { nu, rho, .. } = self.curvature(phi);
            latitude += ((north * cos - east * sin) / rho).to_degrees();
            longitude += ((north * sin + east * cos) / (nu * phi.cos())).to_degrees();
            if east.abs() < 1e-8 && north.abs() < 1e-8 {
                break;
            }
        }
        (latitude, longitude)
    }

    fn inverse_series(&self, easting_m: f64, northing_m: f64) -> (f64, f64) {
        let a = self.ellipsoid.a_m * self.scale;
        let mut phi = (northing_m - self.false_northing_m) / a + self.origin_latitude_deg.to_radians();
        for _ in 0..32 {
            let rest = northing_m - self.false_northing_m - self.meridian_arc(phi);
            phi += rest / a;
            if rest.abs() < 1e-5 {
                break;
            }
        }
        let (tan, sec) = (phi.tan(), 1.0 / phi.cos());
        let tan2 = tan * tan;
        let Curvature { nu, rho, eta2 } = self.curvature(phi);
        let vii = tan / (2.0 * rho * nu);
        let viii = tan / (24.0 * rho * nu.powi(3)) * (5.0 + 3.0 * tan2 + eta2 - 9.0 * tan2 * eta2);
        let ix = tan / (720.0 * rho * nu.powi(5)) * (61.0 + 90.0 * tan2 + 45.0 * tan2 * tan2);
        let x = sec / nu;
        let xi = sec / (6.0 * nu.powi(3)) * (nu / rho + 2.0 * tan2);
        let xii = sec / (120.0 * nu.powi(5)) * (5.0 + 28.0 * tan2 + 24.0 * tan2 * tan2);
        let xiia =
            sec / (5040.0 * nu.powi(7)) * (61.0 + 662.0 * tan2 + 1320.0 * tan2 * tan2 + 720.0 * tan2.powi(3));
        let d = easting_m - self.false_easting_m;
        let latitude = phi - vii * d.powi(2) + viii * d.powi(4) - ix * d.powi(6);
        let longitude = x * d - xi * d.powi(3) + xii * d.powi(5) - xiia * d.powi(7);
        (latitude.to_degrees(), self.origin_longitude_deg + longitude.to_degrees())
    }

    fn curvature(&self, phi: f64) -> Curvature {
        let Ellipsoid { a_m, b_m } = self.ellipsoid;
        let e2 = (a_m * a_m - b_m * b_m) / (a_m * a_m);
        let w = 1.0 - e2 * phi.sin().powi(2);
        let nu = a_m * self.scale / w.sqrt();
        let rho = a_m * self.scale * (1.0 - e2) / w.powf(1.5);
        Curvature { nu, rho, eta2: nu / rho - 1.0 }
    }

    /// The guide's M: distance along the meridian from the true origin, scaled.
    fn meridian_arc(&self, phi: f64) -> f64 {
        let Ellipsoid { a_m, b_m } = self.ellipsoid;
        let n = (a_m - b_m) / (a_m + b_m);
        let (n2, n3) = (n * n, n * n * n);
        let phi0 = self.origin_latitude_deg.to_radians();
        let (minus, plus) = (phi - phi0, phi + phi0);
        b_m * self.scale
            * ((1.0 + n + 1.25 * n2 + 1.25 * n3) * minus
                - (3.0 * n + 3.0 * n2 + 2.625 * n3) * minus.sin() * plus.cos()
                + (1.875 * n2 + 1.875 * n3) * (2.0 * minus).sin() * (2.0 * plus).cos()
                - 35.0 / 24.0 * n3 * (3.0 * minus).sin() * (3.0 * plus).cos())
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
