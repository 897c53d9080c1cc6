package geom

// exactTens are the powers of ten that float64 holds exactly.
var exactTens = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// plainDecimal reads a decimal number, where its digits are a whole number up to
// 2⁵³ and its power of ten is at most 22 either way: both are then exact in
// float64, so that one product or quotient of them is rounded once, correctly.
// For any other word it returns false, and the standard parser must decide.
//
// Source: W. D. Clinger, "How to Read Floating Point Numbers Accurately", 1990 (from memory).
func plainDecimal(word []byte) (value float64, ok bool) {
	at, minus := 0, false
	if len(word) > 0 && (word[0] == '-' || word[0] == '+') {
		at, minus = 1, word[0] == '-'
	}
	digits, power, any, point := uint64(0), 0, false, false
	for ; at < len(word); at++ {
		c := word[at]
		if c == '.' && !point {
			point = true
			continue
		}
		if c < '0' || c > '9' {
			break
		}
		if digits = 10*digits + uint64(c-'0'); digits > 1<<53 {
			return 0, false
		}
		any = true
		if point {
			power--
		}
	}
	if at < len(word) {
		written, ok := writtenPower(word[at:])
		if !ok {
			return 0, false
		}
		power += written
	}
	if !any || power < -22 || power > 22 {
		return 0, false
	}
	return shifted(digits, power, minus), true
}

// shifted is digits·10^power, rounded once, for what [plainDecimal] takes.
func shifted(digits uint64, power int, minus bool) float64 {
	value := float64(int64(digits)) // of a number with a sign the processor makes it in one step
	if power < 0 {
		value /= exactTens[-power]
	} else {
		value *= exactTens[power]
	}
	if minus {
		value = -value
	}
	return value
}

// writtenPower reads an exponent of up to three digits, such as e-05.
func writtenPower(word []byte) (power int, ok bool) {
	if word[0]|0x20 != 'e' {
		return 0, false
	}
	word = word[1:]
	minus := len(word) > 0 && word[0] == '-'
	if minus || len(word) > 0 && word[0] == '+' {
		word = word[1:]
	}
	if len(word) == 0 || len(word) > 3 {
		return 0, false
	}
	for _, c := range word {
		if c < '0' || c > '9' {
			return 0, false
		}
		power = 10*power + int(c-'0')
	}
	if minus {
		power = -power
	}
	return power, true
}
