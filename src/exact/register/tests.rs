//! What rows are read as: here, behind the wall, because finds cannot be looked at from outside.

use proptest::prelude::*;

use super::problem::{Doubt, Matter, Problems};
use super::{Context, Register, read_text};
use crate::coordinates::System;
use crate::exact::{ExactFind, ExactPlace, Reason, Tally, checks};
use crate::study::Columns;
use crate::study::vocabulary::{Class, Country, Mark, Period, Setting, Standing};

fn context() -> Context {
    Context {
        columns: Columns::default(),
        system: System::BritishGrid,
        uncertainty_m: None,
        decimal_comma: None,
        country: Country::EnglandWales,
        today: "2026-10-01".parse().ok(),
    }
}

fn read_as(context: &Context, text: &str) -> Register {
    let mut register = Register {
        finds: Vec::new(),
        files: vec!["finds.csv".to_owned()],
        tally: Tally::default(),
        problems: Problems::default(),
        aside_by_land: Default::default(),
        shapes: Vec::new(),
    };
    read_text(context, text, "finds.csv", "UTF-8", &mut register).unwrap();
    checks::within(&mut register);
    assert_eq!(register.tally.read, register.tally.used + register.tally.set_aside_total());
    assert_eq!(register.tally.used, register.finds.len() as u64);
    register
}

fn read(text: &str) -> Register {
    read_as(&context(), text)
}

impl Register {
    fn doubts(&self) -> Vec<(u64, Doubt)> {
        self.problems
            .listed()
            .iter()
            .filter_map(|problem| match problem.matter {
                Matter::Doubt(doubt) => Some((problem.row, doubt)),
                Matter::SetAside(_) => None,
            })
            .collect()
    }

    fn aside(&self) -> Vec<(u64, Reason)> {
        self.problems
            .listed()
            .iter()
            .filter_map(|problem| match problem.matter {
                Matter::SetAside(reason) => Some((problem.row, reason)),
                Matter::Doubt(_) => None,
            })
            .collect()
    }
}

/// Easting or longitude, northing or latitude, and side of the square.
fn point(find: &ExactFind) -> (f64, f64, f64) {
    match &find.place {
        ExactPlace::Point { x, y, square_m, .. } => (*x, *y, *square_m),
        ExactPlace::ParishOnly => (f64::NAN, f64::NAN, f64::NAN),
    }
}

#[test]
fn a_whole_row_is_read() {
    let register = read(
        "No,Grid ref,Uncertainty,Parish,Class,Period,Count,Bulb,Platform,Dorsal scars,Setting,Standing,Material,Length (mm),Weight (g),Date found,Found by,Looked at by,Kept at,Permission,Note\n\
         14,OV 523 417,±10 m,Eastwell,end scraper,Early Neolithic,1,y,x,no,ploughland,disturbed,flint,34,12.5,2019-03-14,A. Tern,B. Rook,Hernsey Museum,yes,honey coloured\n",
    );
    let find = &register.finds[0];
    assert_eq!(register.problems.listed().len(), 0);
    assert_eq!((find.row, find.number.as_deref()), (2, Some("14")));
    assert_eq!(point(find), (552_350.0, 541_750.0, 100.0));
    assert!(matches!(find.place, ExactPlace::Point { uncertainty_m: Some(10.0), .. }));
    assert_eq!(find.parish.as_deref(), Some("Eastwell"));
    assert_eq!((find.class, find.period, find.count), (Class::Scraper, Period::EarlyNeolithic, 1));
    assert!(
        find.marks.has(Mark::Bulb) && find.marks.has(Mark::Platform) && !find.marks.has(Mark::DorsalScars)
    );
    assert_eq!((find.setting, find.standing), (Setting::Ploughland, Standing::Disturbed));
    let more = find.more.as_ref().unwrap();
    assert_eq!((more.length_mm, more.weight_g), (Some(34.0), Some(12.5)));
    assert_eq!(more.class_as_written.as_deref(), Some("end scraper"));
    assert_eq!(more.date.as_deref(), Some("2019-03-14"));
    assert_eq!(more.note.as_deref(), Some("honey coloured"));
}

#[test]
fn a_french_register_with_semicolons_and_decimal_commas() {
    let mut context = context();
    context.country = Country::France;
    context.system = System::Lambert93;
    let register = read_as(
        &context,
        "Registre des trouvailles 2004;;;;;;;\n\nN°;Désignation;Nb;Datation;X (Lambert 93);Y (Lambert 93);Talon;Bulbe;Nervures;Longueur (cm);Inventeur\n\
         1;Éclats;une dizaine;Mésolithique récent;651409,9;6861123,4;lisse;oui;non;3,4;A. Sterne\n",
    );
    let find = &register.finds[0];
    assert_eq!(find.row, 4);
    assert_eq!((find.class, find.count, find.count_is_rough), (Class::Flake, 10, true));
    assert_eq!(find.period, Period::LateMesolithic);
    assert!(matches!(&find.place, ExactPlace::Point { system: System::Lambert93, x, y, .. }
        if *x == 651_409.9 && *y == 6_861_123.4));
    assert!(
        find.marks.has(Mark::Platform) && find.marks.has(Mark::Bulb) && !find.marks.has(Mark::DorsalScars)
    );
    assert_eq!(find.more.as_ref().unwrap().length_mm, Some(34.0));
}

#[test]
fn places_in_every_shape() {
    let register = read(
        "No,Grid ref,Lat,Long,E,N,Parish\n1,OV 5234 4173 ±6,,,,,\n2,,50.25,-4.1,,,\n3,,,,552345,541734,\n4,,,,,,Eastwell\n5,parish only,,,,,Eastwell\n",
    );
    let places: Vec<_> = register.finds.iter().map(|find| &find.place).collect();
    assert!(matches!(places[0], ExactPlace::Point { uncertainty_m: Some(6.0), square_m: 10.0, .. }));
    assert!(matches!(places[1], ExactPlace::Point { system: System::Wgs84, x: -4.1, y: 50.25, .. }));
    assert!(matches!(
        places[2],
        ExactPlace::Point { system: System::BritishGrid, x: 552_345.0, y: 541_734.0, .. }
    ));
    assert!(matches!(places[3], ExactPlace::ParishOnly) && matches!(places[4], ExactPlace::ParishOnly));
    assert_eq!(register.problems.listed().len(), 0);
}

#[test]
fn x_and_y_in_degrees_are_longitude_and_latitude() {
    let register = read("No,X,Y,Class\n1,-4.123456,50.254321,flake\n2,-4.123411,50.254300,blade\n");
    assert!(matches!(
        register.finds[0].place,
        ExactPlace::Point { system: System::Wgs84, x: -4.123456, y: 50.254321, .. }
    ));
}

#[test]
fn letters_in_one_column_and_figures_in_two() {
    let register = read("Find_ID,Square,Easting,Northing,ObjectType\n1,OV,5234,4173,3 flakes\n");
    assert_eq!(point(&register.finds[0]), (552_345.0, 541_735.0, 10.0));
    assert_eq!((register.finds[0].class, register.finds[0].count), (Class::Flake, 3));
}

#[test]
fn headings_of_two_meanings_are_settled_by_what_stands_below() {
    let register = read("Ref,Object,Date\nOV 523 417,flake,Mesolithic\nOV 52 41,blade,4000-3501 BC\n");
    assert_eq!(register.tally.used, 2);
    assert_eq!(register.finds[1].period, Period::EarlyNeolithic);
    let rows: String = (100..106).map(|n| format!("{n},OV 52 41,flake,{n}\n")).collect();
    assert!(read(&format!("No,NGR,Class,Context\n{rows}")).doubts().is_empty());
}

#[test]
fn dittos_take_what_stands_above() {
    let register = read(
        "No,Grid ref,Parish,Class,Finder\n1,OV 523 417,Eastwell,flake,A. Tern\n2,do.,\",blade,idem\n3,″,″,core,B. Rook\n",
    );
    assert_eq!(register.tally.used, 3);
    assert_eq!(point(&register.finds[2]), point(&register.finds[0]));
    assert_eq!(register.finds[1].parish.as_deref(), Some("Eastwell"));
    assert_eq!(register.finds[1].more.as_ref().unwrap().finder.as_deref(), Some("A. Tern"));
    assert!(register.doubts().is_empty());
    assert_eq!(read("No,Grid ref,Parish\n1,do.,Eastwell\n").doubts(), [(2, Doubt::DittoAboveNothing)]);
}

#[test]
fn an_entry_of_several_rows_states_its_place_once() {
    let register = read("No,Grid ref,Class,Count\n14,OV 523 417,flake,12\n,,scraper,1\n15,,blade,1\n");
    assert_eq!(register.finds.len(), 2);
    assert_eq!(point(&register.finds[1]), point(&register.finds[0]));
    assert_eq!(register.finds[1].number.as_deref(), Some("14"));
    assert_eq!(register.doubts(), [(3, Doubt::FilledFromAbove)]);
    assert_eq!(register.aside(), [(4, Reason::NoPlace)]);
    // Without numbers, a row that is blank up to its place goes on with the one above.
    let register = read("Date,Grid ref,Class\n1998,OV 523 417,flake\n,,scraper\n1999,,blade\n");
    assert_eq!(register.doubts(), [(3, Doubt::FilledFromAbove)]);
    assert_eq!(register.aside(), [(4, Reason::NoPlace)]);
}

#[test]
fn rows_are_set_aside_with_their_reason() {
    for (row, reason) in [
        ("1,,,flake,1,", Reason::NoPlace),
        ("1,by the gate,,flake,1,", Reason::PlaceUnreadable),
        ("1,OV 52 4,,flake,1,", Reason::PlaceUnreadable),
        ("1,OV 523 417,,flake,some bag,", Reason::CountUnreadable),
        ("1,OV 523 417,,flake,03-May,", Reason::CountUnreadable),
        ("1,OV 523 417,,flake,0,", Reason::CountZero),
        ("1,OV 523 417,,natural,3,", Reason::Natural),
        ("Total,,,,2400,", Reason::TotalLine),
        ("1998,,,,,", Reason::Heading),
        ("Walk of March 2004,,,,,", Reason::Heading),
        ("No,Grid ref,Parish,Class,Count,Note", Reason::Heading),
        ("1,OV 523 417,,flake,1,by gate,wall", Reason::Damaged),
        ("1,OV 523 417,,flake,1,\"open", Reason::Damaged),
    ] {
        let register = read(&format!("No,Grid ref,Parish,Class,Count,Note\n{row}\n9,OV 52 41,,blade,1,\n"));
        assert_eq!(register.aside(), [(2, reason)], "{row}");
        assert_eq!((register.tally.read, register.tally.used), (2, 1), "{row}");
    }
}

#[test]
fn details_tell_more_than_the_reason() {
    let detail = |text: &str| {
        let register = read(text);
        register.problems.listed()[0].detail.as_ref().map(|fault| fault.id)
    };
    assert_eq!(detail("No,Grid ref,Nb\n1,OV 523 417,3-mai\n"), Some("register-count-became-date"));
    assert_eq!(detail("No,E,N\n1,552345,\n"), Some("register-half-a-place"));
    assert_eq!(detail("No,Grid ref\n1,OV 52 41,x\n"), Some("register-too-many-cells"));
    let register = read("No,Grid ref,Class\n1,OV 523 417,flake\n2,523 417,flake\n");
    let problem = &register.problems.listed()[0];
    assert_eq!(
        (problem.row, problem.column.as_deref(), problem.text.as_deref()),
        (3, Some("Grid ref"), Some("523 417"))
    );
    assert_eq!(problem.detail.as_ref().map(|fault| fault.id), Some("register-letters-lost"));
}

#[test]
fn doubts_are_raised_and_the_row_is_used() {
    const HEADINGS: &str = "No,Grid ref,Parish,Class,Period,Date from,Date to,Count,Marks,Setting,Length (mm),Weight,Date found,Uncertainty,Bulb,Standing,Note";
    for (row, doubt) in [
        ("1,OV 523 417,,thingummy,,,,,,,,,,,,,", Doubt::ClassUnknown),
        ("1,OV 523 417,,scraper?,,,,,,,,,,,,,", Doubt::ClassQueried),
        ("1,OV 523 417,,flake,,,,,,,,,,,,,prob. natural", Doubt::MaybeNatural),
        ("1,OV 523 417,,flake,Roman,,,,,,,,,,,,", Doubt::PeriodUnknown),
        ("1,OV 523 417,,flake,Neo?,,,,,,,,,,,,", Doubt::PeriodQueried),
        ("1,OV 523 417,,flake,,3500,4000,,,,,,,,,,", Doubt::YearsUnclear),
        ("1,OV 523 417,,flake,,,,5000,,,,,,,,,", Doubt::CountLarge),
        ("1,by the gate,Eastwell,flake,,,,,,,,,,,,,", Doubt::PlaceInWords),
        ("1,OV 523 417,,flake,,,,,,,,,,good,,,", Doubt::UncertaintyUnreadable),
        ("1,OV 523 417,,flake,,,,,cortex,,,,,,,,", Doubt::MarksUnknown),
        ("1,OV 523 417,,flake,,,,,,,,,,,x?,,", Doubt::MarkQueried),
        ("1,OV 523 417,,flake,,,,,,on the moon,,,,,,,", Doubt::SettingUnknown),
        ("1,OV 523 417,,flake,,,,,,,,,,,,sideways,", Doubt::StandingUnknown),
        ("1,OV 523 417,,flake,,,,,,,long,,,,,,", Doubt::LengthUnreadable),
        ("1,OV 523 417,,flake,,,,,,,520,,,,,,", Doubt::LengthUnlikely),
        ("1,OV 523 417,,flake,,,,,,,3.4,,,,,,", Doubt::LengthUnlikely),
        ("1,OV 523 417,,flake,,,,,,,,heavy,,,,,", Doubt::WeightUnreadable),
        ("1,OV 523 417,,flake,,,,,,,,90000,,,,,", Doubt::WeightUnlikely),
        ("1,OV 523 417,,flake,,,,,,,,,2027-01-02,,,,", Doubt::DateFuture),
        ("1,OV 523 417,,flake,,,,,,,,,1066,,,,", Doubt::DateUnlikely),
        ("1,OV 52 41,,flake,,,,,,,,,,,,,by the oak at OV 5234 4173", Doubt::NoteGivesPlace),
    ] {
        let register = read(&format!("{HEADINGS}\n{row}\n"));
        assert_eq!(register.doubts(), [(2, doubt)], "{row}");
        assert_eq!(register.tally.used, 1, "{row}");
    }
}

#[test]
fn doubts_between_rows() {
    let register = read(
        "No,Grid ref,Class,Count,Date found,Note\n14,OV 523 417,flake,12,2019,incl. scraper no 14a\n14a,OV 523 417,scraper,1,2019,\n\
         15,OV 52 41,core,1,,\n15,OV 52 41,core,1,,\n16,OV 52 41,core,1,,\n16,OV 53 41,flake,2,,\n",
    );
    assert_eq!(register.doubts(), [(5, Doubt::RowTwice), (7, Doubt::NumberTwice), (2, Doubt::CountedTwice)]);
    let mut text = "No,Grid ref,Class,Date found\n".to_owned();
    for n in 0..9 {
        text.push_str(&format!("{n},OV 5234 4173,flake,201{n}\n"));
    }
    assert_eq!(read(&text).doubts(), [(2, Doubt::OneReference)]);
    // A reference to 100 m is shared without harm.
    assert!(read(&text.replace("5234 4173", "523 417")).doubts().is_empty());
}

#[test]
fn columns_named_by_hand_come_first() {
    let mut context = context();
    context.columns.class = Some("Thing".to_owned());
    let register = read_as(&context, "No,Grid ref,Type,Thing\n1,OV 52 41,bag A,blade\n");
    assert_eq!(register.finds[0].class, Class::Blade);
}

#[test]
fn separators_titles_line_ends_and_inches() {
    for text in [
        "No\tGrid ref\tClass\n1\tOV 52 41\tblade\n",
        "\"No\"\t\"Grid ref\"\t\"Class\"\r\n\"1\"\t\"OV 52 41\"\t\"blade\"\r\n",
        "No;Grid ref;Class\r1;OV 52 41;blade\r",
        "sep=;\nNo;Grid ref;Class\n1;OV 52 41;blade\n",
        "Finds of the society, 1990 to 2020\n\n\nNo,Grid ref,Class\n\n1,OV 52 41,blade\n\n",
        "No,Grid ref,Class\n1,OV 52 41,blade",
        "No|Grid ref|Class\n1|OV 52 41|blade",
        "No,\"Grid\nref\",Class\n1,OV 52 41,blade\n",
    ] {
        let register = read(text);
        assert_eq!((register.tally.read, register.tally.used), (1, 1), "{text}");
        assert_eq!(register.finds[0].class, Class::Blade, "{text}");
    }
}

proptest! {
    /// Whatever a file holds, reading it ends, and read = used + set aside (asserted in `read_as`).
    #[test]
    fn any_cells_are_used_or_set_aside(
        rows in prop::collection::vec(
            prop::collection::vec("(OV 5[0-9]{1,3} 4[0-9]{1,3}|[0-9]{0,7}|do\\.|\"|flake|Neo\\?|[0-9]-[0-9]|±5|é|\\PC{0,6})", 0..9),
            0..12,
        )
    ) {
        let mut text = "No,Grid ref,E,N,Lat,Long,Class,Count,Period,Date from,Length,Weight,Marks,Date,Uncertainty,Note\n".to_owned();
        for row in rows {
            text.push_str(&row.join(","));
            text.push('\n');
        }
        read(&text);
    }
}
