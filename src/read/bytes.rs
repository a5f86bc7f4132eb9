//! Little-endian numbers and packed values, as the binary workbook formats store them.
//!
//! Always true: a position beyond the end gives `None`, never a panic.

use super::Content;

/// A byte.
pub(super) fn u8_at(bytes: &[u8], at: usize) -> Option<u8> {
    bytes.get(at).copied()
}

/// A number of two bytes.
pub(super) fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    array_at(bytes, at).map(u16::from_le_bytes)
}

/// A number of four bytes.
pub(super) fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    array_at(bytes, at).map(u32::from_le_bytes)
}

/// A length or an index of four bytes.
pub(super) fn size_at(bytes: &[u8], at: usize) -> Option<usize> {
    usize::try_from(u32_at(bytes, at)?).ok()
}

/// A floating-point number of eight bytes.
pub(super) fn f64_at(bytes: &[u8], at: usize) -> Option<f64> {
    array_at(bytes, at).map(f64::from_le_bytes)
}

/// A number packed into four bytes: a whole number or the upper half of a
/// floating-point number, either of them perhaps in hundredths.
pub(super) fn packed_at(bytes: &[u8], at: usize) -> Option<f64> {
    let packed: [u8; 4] = array_at(bytes, at)?;
    let bits = u32::from_le_bytes(packed);
    let value = if bits & 2 == 0 {
        f64::from_bits(u64::from(bits & !3) << 32)
    } else {
        f64::from(i32::from_le_bytes(packed) >> 2)
    };
    Some(if bits & 1 == 0 { value } else { value / 100.0 })
}

/// Text of two bytes for each unit, without the zero characters of padding.
pub(super) fn wide_text(bytes: &[u8]) -> String {
    let units = bytes
        .chunks_exact(2)
        .map(|pair| u16::from_le_bytes([pair[0], pair[1]]));
    char::decode_utf16(units)
        .map(|unit| unit.unwrap_or(char::REPLACEMENT_CHARACTER))
        .collect()
}

/// The error value that a byte stands for.
pub(super) fn error_of(byte: u8) -> Content {
    let name = match byte {
        0x00 => "#NULL!",
        0x07 => "#DIV/0!",
        0x0F => "#VALUE!",
        0x17 => "#REF!",
        0x1D => "#NAME?",
        0x24 => "#NUM!",
        0x2A => "#N/A",
        0x2B => "#GETTING_DATA",
        _ => "#ERROR",
    };
    Content::Error(name.to_owned())
}

fn array_at<const N: usize>(bytes: &[u8], at: usize) -> Option<[u8; N]> {
    bytes.get(at..at.checked_add(N)?)?.try_into().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn packed_numbers_are_whole_or_floating_and_perhaps_in_hundredths() {
        let packed = |bits: u32| packed_at(&bits.to_le_bytes(), 0);
        // 1 as the upper half of a float; 1 in hundredths of it; whole 123; whole 12345 in hundredths; whole -1.
        assert_eq!(packed(0x3FF0_0000), Some(1.0));
        assert_eq!(packed(0x3FF0_0001), Some(0.01));
        assert_eq!(packed((123 << 2) | 2), Some(123.0));
        assert_eq!(packed((12_345 << 2) | 3), Some(123.45));
        assert_eq!(packed(0xFFFF_FFFE), Some(-1.0));
        assert_eq!(packed_at(&[0, 0, 0], 0), None);
        assert_eq!(packed_at(&[0; 8], usize::MAX), None);
    }
}
