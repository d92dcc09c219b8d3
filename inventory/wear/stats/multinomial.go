package stats

import (
	"errors"
	"fmt"
	"math"
)

// ErrTooLarge says that an exact answer would take too many outcomes.
var ErrTooLarge = errors.New("too many outcomes for an exact answer")

const multinomialNodes = 5_000_000 // about a second

// MultinomialTest is the exact p that several counts share one rate over their
// exposures: given their total, all outcomes at most as likely as the observed
// one. Branches whose outcomes all lie on one side are counted whole, as in
// the network of C. R. Mehta, N. R. Patel, Journal of the American Statistical
// Association 78 (1983) 427. Beyond five million branches it is ErrTooLarge.
func MultinomialTest(counts []int, exposures []float64) (float64, error) {
	chances, total, err := multinomialChances(counts, exposures)
	if err != nil {
		return 0, err
	}
	s := newMultinomialSearch(chances, total)
	s.limit = math.Log1p(tieTolerance) + logFactorial(total)
	for i, n := range counts {
		s.limit += logShare(chances[i], n)
	}
	p := s.outcomes(0, total, logFactorial(total))
	if s.nodes <= 0 {
		return 0, fmt.Errorf("%d incidents in %d groups: %w: join groups", total, len(counts), ErrTooLarge)
	}
	return math.Min(1, p), nil
}

// multinomialSearch sums the outcomes whose log chance is at most the limit.
// Its tables are by first group left and incidents left.
type multinomialSearch struct {
	chances     []float64
	most, least [][]float64 // log chance of the likeliest and least likely way to lay them
	all         [][]float64 // log chance of all ways together
	limit       float64
	nodes       int // branches that may still be opened
}

func newMultinomialSearch(chances []float64, total int) *multinomialSearch {
	s := &multinomialSearch{chances: chances, nodes: multinomialNodes}
	for group := range chances {
		tail := chances[group:]
		sum, rarest := 0.0, tail[0]
		for _, c := range tail {
			sum, rarest = sum+c, math.Min(rarest, c)
		}
		all, least := make([]float64, total+1), make([]float64, total+1)
		for n := range all {
			all[n] = logShare(sum, n)
			least[n] = logShare(rarest, n) // the log chance is concave: a corner
		}
		s.all, s.least = append(s.all, all), append(s.least, least)
		s.most = append(s.most, likeliest(tail, total))
	}
	return s
}

// likeliest lays incidents one by one where each adds most, which is best for
// every number of them, and gives the log chance reached.
func likeliest(chances []float64, total int) []float64 {
	counts, sums := make([]float64, len(chances)), make([]float64, total+1)
	for n := 1; n <= total; n++ {
		best := 0
		for i, c := range chances {
			if c*(counts[best]+1) > chances[best]*(counts[i]+1) {
				best = i
			}
		}
		counts[best]++
		sums[n] = sums[n-1] + math.Log(chances[best]/counts[best])
	}
	return sums
}

// outcomes sums over the ways to lay the remaining incidents into the groups
// from one on; laid is the log chance of what is laid already.
func (s *multinomialSearch) outcomes(group, remaining int, laid float64) float64 {
	s.nodes--
	switch {
	case s.nodes <= 0 || laid+s.least[group][remaining] > s.limit:
		return 0
	case group == len(s.chances)-1 || laid+s.most[group][remaining] <= s.limit:
		return math.Exp(laid + s.all[group][remaining])
	}
	p := 0.0
	for n := 0; n <= remaining; n++ {
		p += s.outcomes(group+1, remaining-n, laid+logShare(s.chances[group], n))
	}
	return p
}

// logShare is n·log c − log n!, one group's part in a multinomial log chance.
func logShare(c float64, n int) float64 { return float64(n)*math.Log(c) - logFactorial(n) }

func multinomialChances(counts []int, exposures []float64) (chances []float64, total int, err error) {
	err = errors.Join(checkPaired("groups", len(counts), len(exposures)),
		checkCounts("count", counts...), checkPositive("exposure", exposures...))
	if err != nil {
		return nil, 0, err
	}
	all := 0.0
	for i := range counts {
		total += counts[i]
		all += exposures[i]
	}
	if len(counts) < 2 || total == 0 {
		return nil, 0, errors.New("two or more groups and one or more incidents are needed")
	}
	for _, e := range exposures {
		chances = append(chances, e/all)
	}
	return chances, total, nil
}

func logChoose(n, k int) float64 { return logFactorial(n) - logFactorial(k) - logFactorial(n-k) }

func logFactorial(n int) float64 {
	l, _ := math.Lgamma(float64(n) + 1)
	return l
}
