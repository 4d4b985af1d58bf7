//! read-me-first.html and cut/do-this-first.html: whole, accessible, and fit for a phone and for paper.

use crate::{cases, run};

const PAGES: [&str; 2] = ["read-me-first.html", "cut/do-this-first.html"];

#[test]
fn pages_load_nothing_from_anywhere() {
    for case in cases() {
        for name in PAGES {
            let page = case.text(name);
            for word in ["http:", "https:", "//www", "@import", "<link", "<img src=\"f", "<iframe"] {
                let found = page.replace("http://www.w3.org/2000/svg", "");
                assert!(!found.contains(word), "{}: {name} has {word}", case.name);
            }
        }
    }
}

#[test]
fn every_picture_of_a_page_has_words_and_headings_step_down_by_one() {
    for case in cases() {
        for name in PAGES {
            let page = case.text(name);
            let pictures = page.matches("<svg").count();
            assert!(pictures > 0);
            assert_eq!(page.matches("role=\"img\"").count(), pictures, "{name}");
            assert_eq!(page.matches("aria-label=\"\"").count(), 0, "{name}");
            let mut level = 0;
            for (at, _) in page.match_indices("<h") {
                let Some(next) = page[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else { continue };
                assert!(next <= level + 1, "{name}: heading {next} after {level}");
                level = next;
            }
            assert_eq!(page.matches("<h1").count(), 1, "{name}");
        }
    }
}

#[test]
fn the_five_numbers_and_the_gravest_risk_come_before_what_to_buy() {
    for case in cases() {
        let page = case.text("read-me-first.html");
        let at = |id: &str| page.find(&format!("id=\"{id}\"")).unwrap_or_else(|| panic!("no {id}"));
        assert!(at("numbers") < at("heat") && at("heat") < at("buy") && at("buy") < at("order"));
        for file in case.files.iter().filter(|file| file.name != "read-me-first.html") {
            assert!(page.contains(&file.name), "{} is not listed", file.name);
        }
    }
}

/// Opened in a real browser at the width of a small phone: no console messages, nothing wider than the screen.
#[test]
fn pages_fit_a_phone_in_a_real_browser() {
    let test = "pages_fit_a_phone_in_a_real_browser";
    let dir = tempfile::tempdir().unwrap();
    let case = &cases()[0];
    for name in PAGES {
        let probe = "<script>document.title = 'probe ' + document.documentElement.scrollWidth + ' ' + innerWidth;</script></body>";
        let page = dir.path().join("page.html");
        std::fs::write(&page, case.text(name).replace("</body>", probe)).unwrap();
        let profile = format!("--user-data-dir={}", dir.path().join("profile").display());
        let address = format!("file://{}", page.display());
        let options =
            ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"];
        let rest =
            [profile.as_str(), "--enable-logging=stderr", "--window-size=360,800", "--dump-dom", address.as_str()];
        let Some(said) = run(test, "chromium", &[options.as_slice(), rest.as_slice()].concat()) else { return };
        let console: Vec<&str> = said.lines().filter(|line| line.contains("CONSOLE")).collect();
        assert!(console.is_empty(), "{name}: {console:?}");
        let title = said.split("<title>").nth(1).and_then(|rest| rest.split("</title>").next()).unwrap_or_default();
        let numbers: Vec<u32> = title.split(' ').filter_map(|word| word.parse().ok()).collect();
        assert!(numbers.len() == 2 && numbers[0] <= numbers[1] && numbers[1] <= 500, "{name}: {title}");
    }
}
