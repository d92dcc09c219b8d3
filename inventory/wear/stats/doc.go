// Package stats holds the published procedures that the wear figures rest on:
// lines through heights, pooling of estimates, life tables with several ends,
// and exact comparisons of counts. Everything is a pure function of plain
// numbers; what cannot be computed is an error that says why, never NaN.
//
// Distributions come from gonum. Roots in one unknown are our own (gonum's
// optimize seeks minima), and so are the binomial coefficients of the exact
// tests, whose tails are summed by point probability.
package stats
