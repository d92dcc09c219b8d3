package desk

import (
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
)

// meant are the pieces whose tags a job means, each once. Where the tag of a set or pair
// was asked for, a runner or holder stands for the one that it belongs or last belonged
// to. What a template is not for is left out and told; it is refused where nothing else
// was asked for.
func (w *tagWork) meant(v inventory.View, at time.Time) ([]inventory.Number, error) {
	kinds := kindsOf(w.job.Template)
	if len(kinds) == 0 {
		return w.job.Pieces, nil
	}
	var meant []inventory.Number
	var refused error
	for _, n := range w.job.Pieces {
		stands := standsFor(v, n, kinds[0], at)
		if err := checkKind(w.job.Template, stands.Kind()); err != nil {
			w.tell(n.Short()+" is left out", fmt.Sprintf("template %s is for a %s", w.job.Template, kinds[0]))
			refused = err
			continue
		}
		if stands == n || !slices.Contains(meant, stands) {
			meant = append(meant, stands)
		}
	}
	if len(meant) == 0 {
		return nil, refused
	}
	return meant, nil
}

// standsFor is the set or pair that a piece belongs or last belonged to, where that is
// the kind that is wanted; else the piece itself.
func standsFor(v inventory.View, n inventory.Number, wanted inventory.Kind, at time.Time) inventory.Number {
	if n.Kind() == wanted || wanted != inventory.KindSet && wanted != inventory.KindPair {
		return n
	}
	sets, pairs := belongings(v, n, at)
	found := sets
	if wanted == inventory.KindPair {
		found = pairs
	}
	for _, owner := range slices.Backward(found) {
		if owner != 0 {
			return owner
		}
	}
	return n
}

// belongings are the sets and pairs that a runner or holder was part of, in order of
// time; zero where it was part of none.
func belongings(v inventory.View, n inventory.Number, at time.Time) (sets, pairs []inventory.Number) {
	if runner, err := inventory.FindRunner(v, n); n.Kind() == inventory.KindRunner && err == nil {
		for _, move := range runner.Moves.Until(at) {
			sets, pairs = append(sets, move.Value.Set), append(pairs, move.Value.Pair)
		}
	}
	if holder, err := inventory.FindHolder(v, n); n.Kind() == inventory.KindHolder && err == nil {
		for _, seat := range holder.Runners.Until(at) {
			sets = append(sets, seat.Value.Set)
		}
		for _, boot := range holder.Boots.Until(at) {
			pairs = append(pairs, boot.Value.Pair)
		}
	}
	return sets, pairs
}
