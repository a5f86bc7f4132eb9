//! What people have written, as messages show it.
//!
//! Always true: no sign that moves the cursor, ends a line or turns the order of letters
//! around reaches a message, and a long text is shortened.

/// Characters of a name or a cell that a message shows.
const LONGEST: usize = 60;

/// Whether a character is not seen itself but changes how others are seen: controls, ends
/// of lines, and marks of direction.
pub(crate) fn is_hidden(character: char) -> bool {
    let turns = matches!(
        character,
        '\u{61C}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}'
    );
    character.is_control() || turns || matches!(character, '\u{2028}' | '\u{2029}')
}

/// A text on one line, with what would be hidden spelled out.
pub(crate) fn visible(text: &str) -> String {
    let mut seen = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\n' | '\t' | '\r' => seen.push(' '),
            _ if is_hidden(character) => seen.extend(character.escape_unicode()),
            _ => seen.push(character),
        }
    }
    seen
}

/// A name or the text of a cell within a message: visible, and no longer than 60
/// characters.
pub(crate) fn shown(text: &str) -> String {
    let text = visible(text.trim());
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text,
    }
}

/// Words without what would be hidden, but for ends of lines.
pub(crate) fn without_hidden(text: &str) -> String {
    let kept = |character: &char| !is_hidden(*character) || matches!(character, '\n' | '\t');
    text.chars().filter(kept).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_would_be_hidden_is_spelled_out() {
        assert_eq!(visible("a\u{202E}b"), "a\\u{202e}b");
        assert_eq!(visible("a\u{1B}[2Jb"), "a\\u{1b}[2Jb");
        assert_eq!(visible("two\nlines"), "two lines");
        assert_eq!(visible("½ pond, über"), "½ pond, über");
        assert_eq!(without_hidden("a\u{200F}\u{7}b\nc"), "ab\nc");
    }

    #[test]
    fn sixty_characters_are_shown_whatever_their_bytes() {
        assert_eq!(shown(&"é".repeat(60)), "é".repeat(60));
        assert_eq!(shown(&"é".repeat(61)), format!("{}…", "é".repeat(60)));
    }
}
