package inventory

// CheckDigits computes the two check digits 0–96 (written with two digits) that
// ISO 7064 MOD 97-10 appends to a string of decimal digits.
// It panics on nothing: a character that is no digit counts as its value modulo ten.
func CheckDigits(digits string) int {
	return (98 - mod97(digits)*100%97) % 97
}

// CheckedDigits tells whether a string of digits ends in its MOD 97-10 check digits, as
// CheckDigits writes them: 97 and 98 would leave the same rest as 00 and 01.
func CheckedDigits(digits string) bool {
	return len(digits) > 2 && mod97(digits) == 1 && digits[len(digits)-2:] < "97"
}

func mod97(digits string) int {
	rest := 0
	for i := range len(digits) {
		rest = (rest*10 + int(digits[i]-'0')%10) % 97
	}
	return rest
}
