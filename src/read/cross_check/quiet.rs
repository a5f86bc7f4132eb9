//! Panics of the other reader, caught and not shown.
//!
//! Always true: panics of anything else are shown as before.

use std::cell::Cell;
use std::panic::{self, AssertUnwindSafe};
use std::sync::Once;

thread_local! {
    /// Whether this thread is at work for [`caught`].
    static AT_WORK: Cell<bool> = const { Cell::new(false) };
}

static HOOK: Once = Once::new();

/// What the work comes to; `None` if it panics.
pub(super) fn caught<T>(work: impl FnOnce() -> T) -> Option<T> {
    HOOK.call_once(|| {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |about| {
            if !AT_WORK.get() {
                before(about);
            }
        }));
    });
    AT_WORK.set(true);
    let done = panic::catch_unwind(AssertUnwindSafe(work));
    AT_WORK.set(false);
    done.ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_ends_the_work_and_nothing_else() {
        let nothing: [u8; 0] = [];
        assert_eq!(caught(|| nothing.iter().count()), Some(0));
        assert_eq!(caught(|| nothing[nothing.len()]), None);
        assert_eq!(caught(|| 1), Some(1));
    }
}
