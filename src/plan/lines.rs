//! Lines of the job file put to what the stages say of bands, trims and zones, which know them by their names alone.

use crate::finding::Finding;
use crate::job::Job;
use crate::press::{HeatRisk, numbers_in_words};

/// A finding about a band, which begins with the band's name (or those of two), and may name a trim, with their lines.
pub(super) fn of_finding(finding: &Finding, job: &Job) -> Finding {
    let say = with_bands(&finding.say, job).unwrap_or_else(|| finding.say.clone());
    Finding { say: with_trim(say, job), ..finding.clone() }
}

/// `lower row 2: ..` with the line of `lower`; `None` where no band's name is at the head.
fn with_bands(say: &str, job: &Job) -> Option<String> {
    let found = |name: &String| {
        let (row, rest) = row_at_head(say.strip_prefix(name.as_str())?);
        let named = job.lines.named("band", name);
        let named = named.replacen(name.as_str(), &format!("{name}{row}"), 1);
        if rest.starts_with(": ") {
            return Some(format!("{named}{rest}"));
        }
        let other = rest.strip_prefix(" and ")?;
        Some(format!("{named} and {}", with_bands(other, job)?))
    };
    // A name may be the beginning of another.
    job.bands.iter().filter_map(|band| Some((band.name.len(), found(&band.name)?))).max().map(|(_, said)| said)
}

/// ` row 2` and what follows it; nothing and everything where no row is named.
fn row_at_head(rest: &str) -> (&str, &str) {
    const ROW: &str = " row ";
    let digits = rest.strip_prefix(ROW).map_or(0, |number| number.bytes().take_while(u8::is_ascii_digit).count());
    rest.split_at(if digits > 0 { ROW.len() + digits } else { 0 })
}

/// The line of the trim that hides a motif.
fn with_trim(say: String, job: &Job) -> String {
    let named = |name: &str| format!(", into the {name} from ");
    match job.trims.iter().find(|trim| say.contains(&named(&trim.name))) {
        Some(trim) => say.replacen(&named(&trim.name), &named(&job.lines.named("trim", &trim.name)), 1),
        None => say,
    }
}

/// A heat risk with the lines of its zones at its end.
pub(super) fn of_risk(mut risk: HeatRisk, job: &Job) -> HeatRisk {
    let Some(listed) = &risk.zone else { return risk };
    let named: Vec<&str> = listed.split(", ").flat_map(|some| some.split(" and ")).collect();
    let line = |name: &String| job.lines.line("zone", name).or_else(|| job.lines.line("trim", name));
    let own = job.zones.iter().map(|zone| &zone.name).filter(|name| *name == listed || named.contains(&name.as_str()));
    let mut lines: Vec<u32> = own.filter_map(line).filter_map(|line| u32::try_from(line).ok()).collect();
    lines.sort_unstable();
    lines.dedup();
    match lines.as_slice() {
        [] => {}
        [one] => risk.say += &format!(" (Line {one} of the job file.)"),
        several => risk.say += &format!(" (Lines {} of the job file.)", numbers_in_words(several)),
    }
    risk
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;
    use crate::job::read;

    fn told(say: &str) -> String {
        let job = "[hem.straight]\nlength = \"1 m\"\n[[band]]\nname = \"lower\"\ngap = \"1 mm\"\n[[band]]\nname = \"lower and upper\"\n\
                   gap = \"1 mm\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n[[trim]]\nkind = \"lace\"\ndepth = \"1 cm\"\n";
        let finding = Finding {
            severity: Severity::LookAtThis,
            kind: "too-near",
            place: None,
            measure: None,
            say: say.to_owned(),
            advice: String::new(),
        };
        of_finding(&finding, &read(job).unwrap()).say
    }

    #[test]
    fn a_band_is_told_with_its_line() {
        assert_eq!(told("lower: L1 is near."), "lower (line 3 of the job file): L1 is near.");
        assert_eq!(told("band 3 row 2: short."), "band 3 row 2 (line 9 of the job file): short.");
        assert_eq!(told("lower and upper: near."), "lower and upper (line 6 of the job file): near.");
        let both = "lower row 2 (line 3 of the job file) and band 3 (line 9 of the job file): near.";
        assert_eq!(told("lower row 2 and band 3: near."), both);
        assert_eq!(told("The godets lie unlike."), "The godets lie unlike.");
    }

    #[test]
    fn a_trim_is_told_with_its_line() {
        let said = told("lower: \"a\" reaches up, into the lace from 0 mm to 10 mm.");
        assert!(said.ends_with("into the lace (line 13 of the job file) from 0 mm to 10 mm."), "{said}");
    }
}
