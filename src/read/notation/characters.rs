//! Characters that field notation spells in several ways.

/// One spelling for primes, quotes, dashes, spaces and ready-made fractions.
pub(super) fn plain_characters(text: &str) -> String {
    let mut plain = String::with_capacity(text.len() + 8);
    for character in text.chars() {
        match character {
            '′' | '’' | '‘' | '´' | '`' => plain.push('\''),
            '″' | '”' | '“' | '〃' => plain.push('"'),
            '−' | '–' | '—' | '‐' | '‑' => plain.push('-'),
            '⁄' | '∕' => plain.push('/'),
            '\u{200b}' | '\u{feff}' => {}
            _ if character.is_whitespace() => plain.push(' '),
            _ => match ready_made_fraction(character) {
                Some(fraction) => plain.extend([" ", fraction]),
                None => plain.push(character),
            },
        }
    }
    plain.replace("''", "\"")
}

fn ready_made_fraction(character: char) -> Option<&'static str> {
    Some(match character {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        _ => return None,
    })
}
