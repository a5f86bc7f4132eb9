//! The priced workbook is a job file: read back it is the same job, and written again
//! the same bytes.

use crate::support::{SAMPLE_JOBS, estimate_of_bytes, sample_job, workbook_of};

#[test]
fn a_written_workbook_reads_back_to_the_same_job_and_the_same_bytes() {
    for name in SAMPLE_JOBS {
        let estimate = sample_job(name);
        let bytes = workbook_of(&estimate);
        let back = estimate_of_bytes(&bytes);
        assert!(estimate.job.same_as(&back.job), "{name}: another job");
        assert_eq!(
            estimate.results.numbers(estimate.columns.priced.amount.id),
            back.results.numbers(back.columns.priced.amount.id)
        );
        assert!(workbook_of(&back) == bytes, "{name}: other bytes");
        assert!(workbook_of(&estimate) == bytes, "{name}: two runs differ");
    }
}
