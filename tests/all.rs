//! One test program; each module proves one thing.

mod support;
