//! Columns whose kind and table the compiler knows: numbers, words, look-ups.

use std::marker::PhantomData;

use super::ColumnId;

/// A column of numbers in the table `T`.
#[derive(Debug)]
pub struct Column<T> {
    /// Its place in the arena.
    pub id: ColumnId,
    table: PhantomData<fn() -> T>,
}

/// A column of words in the table `T`.
#[derive(Debug)]
pub struct Text<T> {
    /// Its place in the arena.
    pub id: ColumnId,
    table: PhantomData<fn() -> T>,
}

/// A column in the table `C` that finds, for each row, a row of the table `P`.
#[derive(Debug)]
pub struct Link<C, P> {
    /// Its place in the arena.
    pub id: ColumnId,
    tables: PhantomData<fn() -> (C, P)>,
}

macro_rules! copy_key {
    ($key:ident<$($letter:ident),+>, $field:ident) => {
        impl<$($letter),+> Clone for $key<$($letter),+> {
            fn clone(&self) -> Self {
                *self
            }
        }
        impl<$($letter),+> Copy for $key<$($letter),+> {}
        impl<$($letter),+> $key<$($letter),+> {
            /// The key of a column that is known to be of this kind.
            pub(crate) fn new(id: ColumnId) -> Self {
                Self { id, $field: PhantomData }
            }
        }
    };
}

copy_key!(Column<T>, table);
copy_key!(Text<T>, table);
copy_key!(Link<C, P>, tables);
