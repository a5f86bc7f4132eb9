//! What the client sees of a bid beside its prices: their own item numbers, and the terms.

use super::choices::TERM_KINDS;
use crate::graph::Table;
use crate::job::columns::{Fields, Fill, Holds, InputColumn, InputTable, input_tables};
use Holds::{Choice, Name, Words};

input_tables! {
    /// A line or a section of the bid under the client's own item number.
    ClientItems "Client items", "client item", false, "One line or one section of the bid a row, with the item of the client's own bid form that it belongs to. Used on the client's copy only." {
        ClientLine "Line" Name, Needed, "The line's name, as the take-off shows it; or the name of a section, for all its lines that have no row of their own.";
        ClientNumber "Client's item number" Words, Needed, "As on the client's form, such as 12 or 4.2; write 4.10 as text. Lines of one number become one item, their amounts added; a bid by unit price shows quantity and unit price where they share both and the product is the amount, else 1 ls.";
        ClientWording "Client's wording" Words, Free, "What the client's form calls it; once for a number is enough. It stands for our description on the client's copy.";
    }

    /// One term that the bid stands on.
    BidTerms "Bid terms", "term", false, "One inclusion, exclusion or assumption a row, as the client reads it on the client's copy." {
        TermKind "Kind" Choice(TERM_KINDS), Needed, "Which list of the client's copy it stands in.";
        TermWords "Words" Words, Needed, "The term itself, as a sentence.";
    }
}
