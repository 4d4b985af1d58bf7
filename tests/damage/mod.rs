//! Damage done to good files: what a cut line, a bad disc, a careless edit or a spiteful hand may make of them.
//!
//! The corpus is what the project holds anyway: the gallery of drawings, the sample art, the jobs. A case is one file with
//! one to eight changes: bytes turned, put in, taken out or doubled, pieces of another file, or a shard of the kind that
//! readers stumble over. The same number gives the same case on every machine.
#![allow(dead_code, reason = "the test and the bench use different parts")]

use std::path::Path;

/// Pieces that readers stumble over.
const SHARDS: [&str; 26] = [
    "9e9",
    "NaN",
    "1e400",
    "-",
    "inf",
    "url(#a)",
    "<use href='#a'/>",
    "<g id='a'>",
    "</g>",
    "]]>",
    "<!--",
    "&x;",
    "transform='scale(1e30)'",
    "transform='matrix(0 0 0 0 0 0)'",
    "d='M0 0L1e38 1e38Z'",
    "stroke-dasharray='1e-9'",
    "[[",
    "]",
    "\"\"\"",
    "\u{feff}",
    "\0",
    "= 1e308",
    "= -0",
    "\"1e300 km\"",
    "\"0 mm\"",
    "= 99999999999999999999",
];

/// One good file.
#[derive(Clone, Debug)]
pub(crate) struct Sample {
    pub(crate) name: String,
    pub(crate) bytes: Vec<u8>,
}

/// The drawings the project holds.
pub(crate) fn drawings() -> Vec<Sample> {
    [samples("tests/gallery", "svg"), samples("sample-art", "svg")].concat()
}

/// The job files the project holds.
pub(crate) fn jobs() -> Vec<Sample> {
    let golden = ["full-circle", "fused-opening", "oval"].map(|case| samples(&format!("tests/golden/{case}"), "toml"));
    [samples("sample-art", "toml"), golden.concat()].concat()
}

fn samples(folder: &str, extension: &str) -> Vec<Sample> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|found| found == extension));
    paths.sort();
    let sample = |path: &std::path::PathBuf| Sample {
        name: path.file_name().unwrap().to_string_lossy().into_owned(),
        bytes: std::fs::read(path).unwrap(),
    };
    paths.iter().map(sample).collect()
}

/// One file the project holds.
pub(crate) fn sample(path: &str) -> Sample {
    let bytes = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap();
    Sample { name: path.to_owned(), bytes }
}

/// The damaged file with this number: always the same.
pub(crate) fn damaged(samples: &[Sample], number: u64) -> String {
    let mut dice = Dice::new(number);
    let mut bytes = samples[dice.below(samples.len())].bytes.clone();
    for _ in 0..=dice.below(8) {
        let at = dice.below(bytes.len() + 1);
        let length = dice.below(13).min(bytes.len() - at);
        match dice.below(7) {
            0 if at < bytes.len() => bytes[at] = dice.byte(),
            1 => bytes.insert(at, dice.byte()),
            2 => drop(bytes.drain(at..at + length)),
            3 => {
                let copy = bytes[at..at + length].to_vec();
                bytes.splice(at..at, copy);
            }
            4 => {
                let other = &samples[dice.below(samples.len())].bytes;
                let from = dice.below(other.len());
                let until = (from + dice.below(200)).min(other.len());
                bytes.splice(at..at + length, other[from..until].iter().copied());
            }
            // A line doubled many times over, as a stuck key or a bad merge does.
            5 => {
                let copy = bytes[at..at + length].repeat(dice.below(40));
                bytes.splice(at..at, copy);
            }
            _ => drop(bytes.splice(at..at + length, SHARDS[dice.below(SHARDS.len())].bytes()).count()),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Numbers by the xorshift of G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003.
pub(crate) struct Dice(u64);

impl Dice {
    /// The dice of a number: always the same.
    pub(crate) fn new(number: u64) -> Self {
        Self(number.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x2545_f491_4f6c_dd1d)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(count.max(1)).unwrap()).unwrap()
    }

    /// A whole number up to and without `most`.
    pub(crate) fn upto(&mut self, most: u32) -> u32 {
        u32::try_from(self.next() % u64::from(most.max(1))).unwrap()
    }

    fn byte(&mut self) -> u8 {
        self.next().to_le_bytes()[3]
    }
}
