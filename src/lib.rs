//! Quantity take-off and estimating for builders of large lined ponds, rock waterfalls
//! and planted gravel filters.
//!
//! The data's way is the tree's way: [`read`] opens a measurement workbook, [`job`]
//! checks it, [`takeoff`], [`pricing`], [`labour`] and [`bid`] add rules to a [`graph`] of columns, [`mod@estimate`]
//! works everything out, and [`mod@write`] makes the live, priced workbook.
//!
//! From tables in memory to a bid total:
//!
//! ```
//! use groundsheet::{estimate, job, read};
//!
//! let tables = [
//!     ("Job", "Key,Value\nName,A small pond\nUnits,US customary\nSoil,clay\n"),
//!     ("Basins", "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nPond,rectangle,100,70,12,2\n"),
//!     ("Equipment", "Machine,Rate per hour\nExcavator,150\n"),
//!     ("Production rates", "Work,Unit,Machine,Machine output\nDig,yd3 bank,Excavator,100\n"),
//!     ("Mark-ups", "Mark-up,On,Rate (%)\nProfit,direct cost,10\n"),
//! ];
//! let (job_file, _warnings) = read::from_texts("pond", &tables).unwrap();
//! let checked = job::from_file(&job_file);
//! let estimate = estimate::estimate(checked.job.unwrap());
//! // 44,256 ft³ is 1,639.111 yd³ bank: 16.39 h at 100 yd³/h and $150, and 10 % profit.
//! assert_eq!(estimate.bid(), 2704.35);
//! ```

pub mod bid;
pub mod cli;
pub mod diagnostic;
pub mod estimate;
pub mod graph;
pub mod job;
pub mod labour;
pub mod money;
pub mod parameters;
pub mod place;
pub mod pricing;
pub mod read;
mod shown;
pub mod sources;
pub mod tables;
pub mod takeoff;
pub mod units;
pub mod write;
