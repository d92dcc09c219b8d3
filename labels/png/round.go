package png

// floor is the multiple of a dot at or below a length.
func floor(l int) int { return l &^ (dot - 1) }

// ceil is the multiple of a dot at or above a length.
func ceil(l int) int { return floor(l + dot - 1) }

// frac is what is above the multiple of a dot at or below a length.
func frac(l int) int { return l & (dot - 1) }

// share is a*b/c, rounded to the nearest; c is above zero.
func share(a, b, c int) int {
	product := a * b
	if product < 0 {
		return -((-product + c/2) / c)
	}
	return (product + c/2) / c
}
