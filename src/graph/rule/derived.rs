//! Rules of which a constant gives several, such as all that there is to know of a thing
//! that is bought.

use std::borrow::Cow;
use std::marker::PhantomData;
use std::panic::Location;
use std::sync::Arc;

use crate::graph::any_rule::{Rule, Title};
use crate::graph::key::Key;

use crate::graph::reads::{Looks, Numbers, Reads, Words};
use crate::graph::{ColumnId, Graph, Table, Term};

/// One of the columns of the table `T` that a constant of the kind `S` gives; a look-up of
/// `P` where it is one.
#[derive(Debug)]
pub struct Derived<S: 'static, T, P = T> {
    of: &'static S,
    name: fn(&S) -> String,
    add: Adds<S>,
    written: &'static Location<'static>,
    tables: PhantomData<fn() -> (T, P)>,
}

/// Adds the column of a constant under a name.
type Adds<S> = fn(&'static S, &mut Graph, &str) -> ColumnId;

impl<S, T, P> Derived<S, T, P> {
    /// The column of a constant: how it is called, how it is added, where the constant is
    /// written.
    pub const fn new(
        of: &'static S,
        name: fn(&S) -> String,
        add: Adds<S>,
        written: &'static Location<'static>,
    ) -> Self {
        Self {
            of,
            name,
            add,
            written,
            tables: PhantomData,
        }
    }
}

impl<S, T, P> Clone for Derived<S, T, P> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<S, T, P> Copy for Derived<S, T, P> {}

impl<S: Sync, T: Table, P> Rule for Derived<S, T, P> {
    fn title(&self) -> Title {
        Title {
            table: T::NAME,
            name: Cow::Owned((self.name)(self.of)),
            written: self.written,
        }
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        (self.add)(self.of, graph, &(self.name)(self.of))
    }
}

impl<S: Sync, T: Table, P: 'static> Reads<T> for Derived<S, T, P> {
    fn key(self) -> Key {
        Key::By(Arc::new(self))
    }
}

impl<S: Sync, T: Table> From<Derived<S, T>> for Term<T> {
    fn from(derived: Derived<S, T>) -> Self {
        derived.here()
    }
}

impl<S: Sync, T: Table> Numbers<T> for Derived<S, T> {}
impl<S: Sync, T: Table> Words<T> for Derived<S, T> {}
impl<S: Sync, T: Table, P: Table> Looks<T, P> for Derived<S, T, P> {}
