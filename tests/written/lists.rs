//! chalk-list.csv and plan.json.

use serde_json::Value;

use crate::cases;

#[test]
fn both_ways_round_a_ring_add_up_to_its_length() {
    for case in cases().iter().filter(|case| case.plan.hem.is_closed()) {
        let text = case.text("chalk-list.csv");
        let mut lines = text.split("\r\n").filter(|line| !line.is_empty());
        let head: Vec<&str> = lines.next().unwrap().split(',').collect();
        let column = |name: &str| head.iter().position(|h| *h == name).unwrap_or_else(|| panic!("no column {name}"));
        let (left, right) = (column("hem_to_left_mm"), column("hem_to_right_mm"));
        let mut count = 0;
        for line in lines {
            let cells: Vec<&str> = line.split(',').collect();
            assert_eq!(cells.len(), head.len(), "{line}");
            let (left, right): (f64, f64) = (cells[left].parse().unwrap(), cells[right].parse().unwrap());
            let round = left + right;
            let whole = case.plan.hem.length().get();
            assert!((round - whole).abs() < 0.11 || round == 0.0, "{line}: {round}");
            count += 1;
        }
        let placements: usize = case.plan.setting.bands.iter().map(|band| band.placements.len()).sum();
        assert!(count >= placements, "{count} lines for {placements} motifs");
    }
}

#[test]
fn the_plan_for_other_programs_has_every_promised_name() {
    for case in cases() {
        let plan: Value = serde_json::from_str(case.text("plan.json")).unwrap();
        assert_eq!(plan["schema"], "hemwright-plan/1");
        let has = |value: &Value, names: &[&str]| {
            for name in names {
                assert!(value.get(name).is_some(), "{}: {name} is missing from {value}", case.name);
            }
        };
        has(&plan, &["hem", "bands", "sheets", "buy", "press", "risks", "findings", "assumptions"]);
        has(&plan["hem"], &["length_mm", "sweep_rad", "closed"]);
        let band = &plan["bands"][0];
        has(band, &["name", "height_mm", "line_mm", "count", "repeat_mm", "gap_along_mm", "clear_gap_mm"]);
        has(band, &["on_cf", "on_cb", "placements"]);
        has(&band["clear_gap_mm"], &["least", "between"]);
        let names = ["id", "motif", "hand", "s_line_mm", "s_hem_mm", "height_mm", "x_mm", "y_mm", "angle_deg"];
        has(&band["placements"][0], &names);
        let sheet = &plan["sheets"][0];
        has(
            sheet,
            &["file", "film", "width_mm", "height_mm", "margin_mm", "gap_mm", "reversed", "pieces", "used_fraction"],
        );
        has(&sheet["pieces"][0], &["kind", "x_mm", "y_mm", "rotation_deg"]);
        has(&plan["press"], &["closures", "total_seconds"]);
        for risk in plan["risks"].as_array().unwrap() {
            has(risk, &["severity", "material", "limit_c", "press_c", "closures", "say", "do"]);
        }
        for sheet in plan["sheets"].as_array().unwrap() {
            case.bytes(sheet["file"].as_str().unwrap());
        }
    }
}
