//! Lays the instances given on the command line and prints what was reached, one line for each seed.
//!
//!     cargo bench --bench nesting -- [--quick | --thorough] [--seconds S] [--seeds N] [--threads N] [--strip] [--verbose]
//!                                    [--picture START] INSTANCE.json ...
//!
//! Reads instances of the schema `motif-nest/1` (lengths in mm) and strip instances of the literature set (`strip_height`,
//! `items[].shape`). `--seconds` ends a search after so much processor time of all threads together, with the best layout
//! until then; without it the search runs to its end. `--strip` takes a sheet instance as a strip of the sheet's width.
//! `--picture START` writes each layout to START-NAME-SEED.svg, sheet beside sheet. How pieces may be turned is that of the first item.
//!
//! Length is that of the last sheet, or of the strip, from the first piece's edge to the last one's. Density is the area of
//! the pieces, less their open holes, over the usable area taken up: all of every sheet but the last, and of that as much as
//! is used. Seconds are processor time, wall time in brackets. A layout that fails the independent check is printed with its
//! faults.

#![allow(clippy::disallowed_methods, clippy::print_stdout, clippy::unwrap_used, reason = "a measuring program")]

use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use hemwright::geometry::{Point, Ring};
use hemwright::nest::{self, Effort, Item, Progress, Stock, Task, Turning, verify};
use hemwright::quantity::mm;
use serde_json::Value;

/// Seconds of processor time used so far, all threads together; wall time where the system does not tell.
fn processor_seconds() -> f64 {
    static START: std::sync::OnceLock<Instant> = std::sync::OnceLock::new();
    let start = START.get_or_init(Instant::now);
    // Fields 14 and 15 of proc(5) are user and system time in hundredths of a second, the usual tick.
    let ticks = std::fs::read_to_string("/proc/self/stat").ok().and_then(|stat| {
        let rest = stat.rsplit(')').next()?.split_whitespace().skip(11).take(2).map(str::parse::<f64>);
        rest.collect::<Result<Vec<f64>, _>>().ok().map(|both| both.iter().sum::<f64>() / 100.0)
    });
    ticks.unwrap_or_else(|| start.elapsed().as_secs_f64())
}

/// Prints each better result with its time, and stops when processor time is up.
struct Watch {
    start: f64,
    limit: f64,
    threads: usize,
    verbose: bool,
    last: Mutex<String>,
    asked: AtomicU64,
}

impl Progress for Watch {
    fn step(&self, done: u64, _total: u64, best: &str) -> bool {
        let mut last = self.last.lock().unwrap();
        if *last != best {
            best.clone_into(&mut last);
            if self.verbose {
                println!("    {:7.2} s  {done:8}  {best}", processor_seconds() - self.start);
            }
        }
        // Asking the system costs more than a step; every sixteenth is often enough.
        let asked = self.asked.fetch_add(1, Ordering::Relaxed);
        !asked.is_multiple_of(16) || processor_seconds() - self.start < self.limit
    }

    fn threads(&self) -> usize {
        self.threads
    }
}

struct Options {
    threads: usize,
    seconds: f64,
    effort: Effort,
    seeds: u64,
    strip: bool,
    verbose: bool,
    picture: Option<String>,
}

fn main() {
    let mut options = Options {
        threads: 2,
        seconds: 1e6,
        effort: Effort::Usual,
        seeds: 1,
        strip: false,
        verbose: false,
        picture: None,
    };
    let mut files = Vec::new();
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        match word.as_str() {
            "--seconds" => options.seconds = words.next().unwrap().parse().unwrap(),
            "--seeds" => options.seeds = words.next().unwrap().parse().unwrap(),
            "--threads" => options.threads = words.next().unwrap().parse().unwrap(),
            "--quick" => options.effort = Effort::Quick,
            "--thorough" => options.effort = Effort::Thorough,
            "--strip" => options.strip = true,
            "--verbose" => options.verbose = true,
            "--picture" => options.picture = words.next(),
            "--bench" => {}
            _ => files.push(word),
        }
    }
    for file in files {
        let instance: Value = serde_json::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap();
        for seed in 0..options.seeds {
            measure(&task(&instance, &options, seed), instance["name"].as_str().unwrap(), &options);
        }
    }
}

fn task(instance: &Value, options: &Options, seed: u64) -> Task {
    let mut task = if instance["schema"] == "motif-nest/1" { motif(instance) } else { published(instance) };
    if options.strip {
        task.stock[0].height = None;
    }
    task.effort = options.effort;
    task.seed = seed;
    task
}

fn ring(points: &Value) -> Ring {
    let point = |p: &Value| Point::new(p[0].as_f64().unwrap(), p[1].as_f64().unwrap());
    Ring::new(points.as_array().unwrap().iter().map(point)).unwrap()
}

fn turning(angles: &Value) -> Turning {
    match angles.as_array().map(Vec::len) {
        None => Turning::Free,
        Some(1) => Turning::None,
        Some(2) => Turning::Half,
        Some(count) => Turning::Steps(u16::try_from(360 / count).unwrap()),
    }
}

fn piece(name: &Value, patch: Ring, holes: Vec<Ring>, quantity: &Value) -> Item {
    let name = name.to_string();
    let quantity = u32::try_from(quantity.as_u64().unwrap()).unwrap();
    Item { motif: name.clone(), name, patch, holes, quantity, spares: 0, on_first_sheet: 0 }
}

fn motif(instance: &Value) -> Task {
    let number = |value: &Value| mm(value.as_f64().unwrap());
    let items = instance["items"].as_array().unwrap();
    let stock = Stock {
        name: "stock".to_owned(),
        width: number(&instance["stock"]["width"]),
        height: instance["stock"]["length"].as_f64().map(mm),
        price: None,
        available: None,
    };
    Task {
        items: items
            .iter()
            .map(|item| {
                let holes = item["holes"].as_array().unwrap().iter().map(ring).collect();
                piece(&item["id"], ring(&item["polygon"]), holes, &item["quantity"])
            })
            .collect(),
        stock: vec![stock],
        margin: number(&instance["margin"]),
        gap: number(&instance["gap"]),
        turning: turning(&items[0]["rotations"]),
        effort: Effort::Usual,
        seed: 0,
    }
}

fn published(instance: &Value) -> Task {
    let items = instance["items"].as_array().unwrap();
    let width = mm(instance["strip_height"].as_f64().unwrap());
    Task {
        items: items
            .iter()
            .map(|item| piece(&item["id"], ring(&item["shape"]["data"]), Vec::new(), &item["demand"]))
            .collect(),
        stock: vec![Stock { name: "strip".to_owned(), width, height: None, price: None, available: None }],
        margin: mm(0.0),
        gap: mm(0.0),
        turning: turning(&items[0]["allowed_orientations"]),
        effort: Effort::Usual,
        seed: 0,
    }
}

fn measure(task: &Task, name: &str, options: &Options) {
    let (wall, start) = (Instant::now(), processor_seconds());
    let watch = Watch {
        start,
        limit: options.seconds,
        threads: options.threads,
        verbose: options.verbose,
        last: Mutex::default(),
        asked: AtomicU64::new(0),
    };
    let layout = nest::lay(task, &watch).unwrap();
    let (wall, seconds) = (wall.elapsed().as_secs_f64(), processor_seconds() - start);
    let faults = verify(task, &layout);
    let margins = 2.0 * task.margin.get();
    let width = task.stock[0].width.get() - margins;
    let length = layout.sheets.last().map_or(0.0, |sheet| sheet.used.get() - margins);
    let sheets: u32 = layout.sheets.iter().map(|sheet| sheet.copies).sum();
    let whole = task.stock[0].height.map_or(0.0, |height| (height.get() - margins) * f64::from(sheets.max(1) - 1));
    let density = 100.0 * laid_area(task, &layout) / (width * (whole + length));
    let left: u32 = layout.unplaced.iter().map(|left| left.quantity).sum();
    println!(
        "{name:9} seed {}  {sheets} sheets, length {length:8.2}  density {density:6.2}  {seconds:6.2} s ({wall:.2} wall)  by {}{}{}  {}",
        task.seed,
        layout.method,
        if left > 0 { format!(", {left} left out") } else { String::new() },
        if layout.ended == nest::Ended::Complete { "" } else { ", ended early" },
        if faults.is_empty() { "sound".to_owned() } else { format!("{faults:?}") }
    );
    if let Some(path) = &options.picture {
        std::fs::write(format!("{path}-{name}-{}.svg", task.seed), picture(task, &layout)).unwrap();
    }
}

/// Square millimetres of everything laid, less the holes in it.
fn laid_area(task: &Task, layout: &nest::Layout) -> f64 {
    let area = |item: &Item| item.patch.area() - item.holes.iter().map(Ring::area).sum::<f64>();
    let on = |sheet: &nest::LaidSheet| {
        f64::from(sheet.copies) * sheet.laid.iter().map(|laid| area(&task.items[laid.item])).sum::<f64>()
    };
    layout.sheets.iter().map(on).sum()
}

fn picture(task: &Task, layout: &nest::Layout) -> String {
    use std::fmt::Write as _;
    let mut body = String::new();
    let mut x = 0.0;
    let mut tallest = 0.0f64;
    for sheet in &layout.sheets {
        let stock = &task.stock[sheet.stock];
        let height = stock.height.unwrap_or(sheet.used).get();
        write!(body, "<g transform=\"translate({x:.2} 0)\">").unwrap();
        write!(body, "<rect width=\"{}\" height=\"{height:.2}\" fill=\"#eee\"/>", stock.width.get()).unwrap();
        for laid in &sheet.laid {
            let item = &task.items[laid.item];
            let mut path = String::new();
            for ring in std::iter::once(&item.patch).chain(&item.holes) {
                let ring = ring.transformed(laid.transform());
                let points: Vec<String> = ring.points().iter().map(|p| format!("{:.2},{:.2}", p.x, p.y)).collect();
                write!(path, "M{}Z", points.join("L")).unwrap();
            }
            let colour = ["#9bc", "#cb9", "#bc9", "#c9b"][laid.item % 4];
            write!(body, "<path fill=\"{colour}\" fill-rule=\"evenodd\" d=\"{path}\"/>").unwrap();
        }
        body.push_str("</g>");
        x += stock.width.get() + 10.0;
        tallest = tallest.max(height);
    }
    format!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {x:.1} {tallest:.1}\">{body}</svg>\n")
}
