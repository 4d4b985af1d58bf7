//! Bytes as base64 text (RFC 4648, section 4), for fonts inside the page.

const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

pub(crate) fn encode(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let at = |k: usize| u32::from(three.get(k).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for k in 0..4 {
            let sign = ALPHABET[(bits >> (18 - 6 * k) & 63) as usize];
            text.push(if k <= three.len() { char::from(sign) } else { '=' });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::encode;

    /// The test vectors of RFC 4648, section 10.
    #[test]
    fn the_vectors_of_the_standard_come_out() {
        for (plain, coded) in
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foob", "Zm9vYg=="), ("foobar", "Zm9vYmFy")]
        {
            assert_eq!(encode(plain.as_bytes()), coded);
        }
    }
}
