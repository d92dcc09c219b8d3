package review

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// hand is who stood at the wheel, and at which.
type hand struct{ by, machine string }

// handsOn is who ground a runner, by entry, as its sets tell.
func (r *Reader) handsOn(runner *inventory.Runner) map[inventory.Key]hand {
	hands := map[inventory.Key]hand{}
	seen := map[inventory.Number]bool{}
	for _, work := range runner.Works.Until(r.at) {
		n := work.Value.Set
		if n == 0 || seen[n] {
			continue
		}
		seen[n] = true
		set, err := inventory.FindSet(r.view, n)
		if err != nil {
			continue
		}
		for _, work := range set.Works {
			hands[work.Event] = hand{work.Value.By, work.Value.Machine}
		}
	}
	return hands
}

// Hand is what a person at the wheel, or a machine, took off, against what the same
// players' steel loses as a rule.
type Hand struct {
	Kind      string  `json:"-"` // operator or machine
	Name      string  `json:"name"`
	Passes    int     `json:"passes"`
	Stretches int     `json:"stretches"` // between two heights, nearly all ground by this hand
	Ratio     float64 `json:"-"`         // loss against the usual; 1 is as usual
	Low, High float64 `json:"-"`
	Verdict   Verdict `json:"verdict"`
}

// handsOf tells of operators, or of machines, those with most passes first.
func handsOf(players []*Player, name func(hand) string, kind string, at time.Time) ([]Hand, error) {
	passes := map[string]int{}
	byName := map[string][]stretch{}
	for _, p := range players {
		for _, l := range p.lives {
			if l.runner == nil || l.FromTag {
				continue
			}
			for key, n := range l.passesBy(name, at) {
				passes[key] += n
			}
			if p.Loss.Sets > 0 {
				l.addStretches(byName, name, p.Loss.Middle, at)
			}
		}
	}
	var hands []Hand
	for key, n := range passes {
		if key != "" {
			hands = append(hands, Hand{Kind: kind, Name: key, Passes: n, Stretches: len(byName[key]), Verdict: CantSay})
		}
	}
	slices.SortFunc(hands, func(a, b Hand) int { return cmp.Or(cmp.Compare(b.Passes, a.Passes), cmp.Compare(a.Name, b.Name)) })
	return hands, compareHands(hands, byName)
}

// compareHands compares each hand's loss with that of all others together. What all of
// them took off together is the usual.
func compareHands(hands []Hand, byName map[string][]stretch) error {
	var everything []stretch
	for _, name := range slices.Sorted(maps.Keys(byName)) { // in one order: the same sum each time
		everything = append(everything, byName[name]...)
	}
	if usual, _ := lossRatio(everything); usual > 0 {
		for _, list := range byName {
			for i := range list {
				list[i].expected *= usual
			}
		}
	}
	var compared []int
	var ps []float64
	for i := range hands {
		own := byName[hands[i].Name]
		ratio, se := lossRatio(own)
		hands[i].Ratio = ratio
		if len(own) < 2 {
			hands[i].Low, hands[i].High = 0, math.Inf(1)
			continue
		}
		half := se * stats.StudentQuantile((1+level)/2, float64(len(own)-1))
		hands[i].Low, hands[i].High = ratio-half, ratio+half
		var others []stretch
		for j := range hands {
			if j != i {
				others = append(others, byName[hands[j].Name]...)
			}
		}
		if len(own) < fewStretches || len(others) < fewStretches {
			continue
		}
		rest, restSE := lossRatio(others)
		freedom := float64(min(len(own), len(others)) - 1)
		compared, ps = append(compared, i), append(ps, studentP((ratio-rest)/math.Hypot(se, restSE), freedom))
	}
	return judge(trend.UsualPlan(), ps, func(i int) { hands[compared[i]].Verdict = Differs })
}

// handFindings says of each hand what may be said.
func handFindings(hands []Hand) []Finding {
	var found []Finding
	for _, h := range hands {
		if h.Stretches < 2 {
			continue
		}
		found = append(found, Finding{
			Kind: h.Kind, About: h.Name, Verdict: h.Verdict, N: h.Stretches, Middle: h.Ratio, Low: h.Low, High: h.High, Unit: "of the usual loss",
			Words: fmt.Sprintf("%s %s takes %.0f %% of the usual off with a pass (%.0f to %.0f %%), over %d stretches between heights",
				h.Kind, h.Name, 100*h.Ratio, 100*h.Low, 100*h.High, h.Stretches),
			differs: "it differs from the others",
		})
	}
	return found
}
