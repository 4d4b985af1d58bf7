//! `hemwright plan`: the whole job into one folder.

use std::path::PathBuf;

use super::args::PlanArgs;
use super::input::{self, Input};
use super::progress::{self, Bar};
use super::trouble::Trouble;
use super::{contents, folder, say, summary};

pub(crate) fn run(args: &PlanArgs) -> Result<(), Trouble> {
    if args.job_schema {
        return say::out(&format!("{:#}\n", hemwright::job::schema()));
    }
    let Input { job, art, stem, origin, source } = input::read(&args.job)?;
    let place = args.out.clone().unwrap_or_else(|| PathBuf::from(format!("{stem}-plan")));
    let about = format!("plan of {}", contents::seen_from(&place, &origin));
    folder::may_write(&place, &about)?;
    folder::can_write(&place)?;
    progress::listen();
    let plan =
        hemwright::plan::make(&job, &art, &Bar::new()).map_err(|fault| input::trouble(source.as_ref(), fault))?;
    progress::begin_to_write();
    if progress::given_up() {
        return Err(Trouble::Stopped);
    }
    folder::write(&place, &about, &hemwright::write::folder(&plan))?;
    say::out(&summary::text(&plan, &place))
}
