package reader

import (
	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// A QR Code symbol that has lost one finder pattern is looked for around the two
// that are left.
const (
	mostPairs  = 200
	pairShare  = 0.60 // of the known modules, with the third pattern only guessed
	guessReach = 3.0  // modules that the third pattern may lie from the guess
	guessStep  = 0.75
)

// pair is a corner with one finder pattern guessed.
type pair struct {
	corner
	guessed int
}

// findPairs puts finder patterns that belong to no symbol together in twos, and
// guesses where the third would be, seen straight on.
func findPairs(finders []finder) []pair {
	var pairs []pair
	for i, a := range finders {
		for _, b := range neighbours(finders, i) {
			pairs = append(pairs, thirds(a, b)...)
		}
	}
	return pairs[:min(len(pairs), 3*mostPairs)]
}

// thirds guesses the third pattern for each part that two can play.
func thirds(a, b finder) []pair {
	way := b.center.Minus(a.center)
	turned := picture.Point{X: -way.Y, Y: way.X} // clockwise on a screen
	below, across, between := a, a, a
	below.center = a.center.Plus(turned)
	across.center = a.center.Minus(turned)
	between.center = a.center.Plus(way.Plus(turned).Times(0.5))
	return []pair{
		{corner{finders: [3]finder{a, b, below}}, bottomLeft},
		{corner{finders: [3]finder{a, across, b}}, topRight},
		{corner{finders: [3]finder{between, a, b}}, topLeft},
	}
}

// candidates gives the symbols that the two patterns may belong to.
func (p pair) candidates(v view) []candidate {
	var found []candidate
	for _, side := range p.sides() {
		one := candidate{grid: p.onSide(side), symbology: symbol.QR, known: v.known.qr[side]}
		if one.promising(v.grey, pairShare) {
			one.grid = p.bestGuess(v.grey, side, one.known).aligned(v.grey, v.known.alignment[side])
			found = append(found, one)
		}
	}
	return found
}

// bestGuess moves the third pattern to where the known modules stand out best.
func (p pair) bestGuess(grey *picture.Grey, side int, known []modules.Known) grid {
	center := p.finders[p.guessed].center
	return p.onSide(side).bestShift(grey, known, guessReach, guessStep, func(shift picture.Point) grid {
		p.finders[p.guessed].center = center.Plus(shift)
		return p.onSide(side)
	})
}
