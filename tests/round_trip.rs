//! The priced workbook is a job file: read back it is the same job, and written again
//! the same bytes.

use groundsheet::bid::amounts::AMOUNT;
use groundsheet::job::tables::OtherItems;

use crate::support::{
    SAMPLE_JOBS, US, estimate_at, estimate_of, estimate_of_bytes, exactly, sample_job, sample_path,
    workbook_of,
};

#[test]
fn a_written_workbook_reads_back_to_the_same_job_and_the_same_bytes() {
    for name in SAMPLE_JOBS {
        let estimate = sample_job(name);
        let bytes = workbook_of(&estimate);
        let back = estimate_of_bytes(&bytes);
        assert!(estimate.job.same_as(&back.job), "{name}: another job");
        assert_eq!(
            estimate.results.numbers(estimate.graph.id(AMOUNT)),
            back.results.numbers(back.graph.id(AMOUNT))
        );
        assert!(workbook_of(&back) == bytes, "{name}: other bytes");
        assert!(workbook_of(&estimate) == bytes, "{name}: two runs differ");
    }
}

#[test]
fn a_percentage_below_one_survives_as_it_was_written() {
    // 10,000 and 0.75 % of the bid: 10,000 ÷ 0.9925 = 10,075.57.
    let tables = [
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price\nA,Work,Work,1,ls,10000\n",
        ),
        ("Mark-ups", "Mark-up,On,Rate\nBond,bid,0.75 %\n"),
    ];
    let estimate = estimate_of(&tables);
    let back = estimate_of_bytes(&workbook_of(&estimate));
    assert!(estimate.job.same_as(&back.job));
    for estimate in [estimate, back] {
        exactly("bid", estimate.bid(), 10_075.57);
    }
}

#[test]
fn a_job_gives_the_same_bytes_wherever_its_folder_stands() {
    let copy = tempfile::tempdir().unwrap();
    let folder = copy.path().join("another name");
    std::fs::create_dir(&folder).unwrap();
    for file in std::fs::read_dir(sample_path("field-notes")).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), folder.join(file.file_name())).unwrap();
    }
    let (here, there) = (sample_job("field-notes"), estimate_at(&folder));
    assert!(here.job.same_as(&there.job));
    assert!(workbook_of(&here) == workbook_of(&there));
}

#[test]
fn columns_of_ones_own_survive_with_twin_and_blank_headings() {
    let tables = [
        ("Job", US),
        (
            "Other items",
            "Photo,Item,Section,Photo,Description,Times,Unit,Price,,Note\n\
             p1,A,Work,p2,First,1,ls,100,under no heading,remember\n\
             ,B,Work,,Second,2,ls,50,,\n",
        ),
    ];
    let estimate = estimate_of(&tables);
    let extras = &estimate.job.table::<OtherItems>().extras;
    let headings: Vec<&str> = extras.iter().map(|extra| &*extra.heading).collect();
    assert_eq!(headings, ["Photo", "Photo", ""]);
    let bytes = workbook_of(&estimate);
    let back = estimate_of_bytes(&bytes);
    assert!(estimate.job.same_as(&back.job));
    assert!(workbook_of(&back) == bytes);
}
