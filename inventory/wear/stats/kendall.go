package stats

// kendallS is the number of pairs in the same order less those in the opposite.
func kendallS(x, y []float64) int {
	s := 0
	for i := range x {
		for j := range i {
			s += sign(x[i]-x[j]) * sign(y[i]-y[j])
		}
	}
	return s
}

func sign(d float64) int {
	switch {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// inversionChances gives the chance of each number of inversions when a
// multiset with these group sizes is laid out at random: the coefficients of
// the q-multinomial. Source: R. P. Stanley, Enumerative Combinatorics 1, §1.7.
func inversionChances(sizes []int) []float64 {
	chances := []float64{1}
	laid := 0
	for _, size := range sizes {
		laid += size
		chances = convolve(chances, mixingChances(laid, size))
	}
	return chances
}

// mixingChances gives the chance of each number of inversions between k equal
// things and n−k other equal things in random order: the q-binomial by
// Pascal's rule, which only adds and so keeps small chances exact.
func mixingChances(n, k int) []float64 {
	rows := make([][]float64, k+1)
	rows[0] = []float64{1}
	for m := 1; m <= n; m++ {
		for j := min(m, k); j >= 1; j-- {
			next := make([]float64, j*(m-j)+1)
			addScaled(next, rows[j-1], float64(j)/float64(m))
			if m > j {
				addScaled(next[j:], rows[j], float64(m-j)/float64(m))
			}
			rows[j] = next
		}
	}
	return rows[k]
}

// addScaled adds scale·values to the front of sums.
func addScaled(sums, values []float64, scale float64) {
	for i, v := range values {
		sums[i] += scale * v
	}
}

// convolve is the distribution of a sum from those of its two parts.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, p := range a {
		addScaled(sum[i:], b, p)
	}
	return sum
}

// kendallVariance is the variance of S under no trend, with ties in x, in y or
// in both. Source: M. G. Kendall, Rank Correlation Methods, 1948, ch. 4.
func kendallVariance(x, y []int) float64 {
	n := 0
	for _, size := range x {
		n += size
	}
	full := func(size float64) float64 { return size * (size - 1) * (2*size + 5) }
	triples := func(size float64) float64 { return size * (size - 1) * (size - 2) }
	pairs := func(size float64) float64 { return size * (size - 1) }
	total := float64(n)
	v := (full(total) - sumOver(x, full) - sumOver(y, full)) / 18
	if n > 2 {
		v += sumOver(x, triples) * sumOver(y, triples) / (9 * triples(total))
	}
	if n > 1 {
		v += sumOver(x, pairs) * sumOver(y, pairs) / (2 * pairs(total))
	}
	return v
}

func sumOver(sizes []int, f func(float64) float64) float64 {
	sum := 0.0
	for _, size := range sizes {
		sum += f(float64(size))
	}
	return sum
}
