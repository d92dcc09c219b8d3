package standing

import (
	"math"
	"slices"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// The references in the numbers of package wear.
const (
	looseReference = iota
	fittedReference
)

func referenceNumber(r inventory.Reference) int {
	if r == inventory.Fitted {
		return fittedReference
	}
	return looseReference
}

// kindKey is what runners have in common that begin alike: the model, what they are
// measured on, and the height at stock-in to half a millimetre.
type kindKey struct {
	model     string
	reference int
	halves    int // 0: no height was given
}

func keyOf(r *inventory.Runner, reference inventory.Reference) kindKey {
	key := kindKey{model: strings.ToLower(strings.Join(strings.Fields(r.Model), " ")), reference: referenceNumber(reference)}
	if r.Height != nil {
		key.halves = halvesOf(*r.Height)
	}
	return key
}

func halvesOf(height geometry.Millimetre) int { return int(math.Round(2 * float64(height))) }

// Kinds numbers the kinds of runners as they come up, and learns what their heights at
// stock-in are worth.
type Kinds struct {
	numbers map[kindKey]int
	keys    []kindKey
	stock   [][]float64 // heights at stock-in, by kind
	zeros   []votes     // by kind
}

// votes are the runners that speak for or against a caliper's zero being that of the
// height at stock-in.
type votes struct{ same, other int }

// NewKinds knows no kind yet.
func NewKinds() *Kinds { return &Kinds{numbers: map[kindKey]int{}} }

// Runner is a runner's telling series until an instant, as package wear reads it.
func (k *Kinds) Runner(r *inventory.Runner, at time.Time) (wear.Runner, inventory.Series) {
	if tag := r.KnownTag(); tag != nil {
		return k.Tag(tag.New, tag.Final, tag.Passes, tag.Unknown), inventory.Series{Reference: inventory.Loose}
	}
	series := Telling(r, at)
	kind := k.number(keyOf(r, series.Reference))
	if r.Height != nil {
		k.stock[kind] = append(k.stock[kind], float64(*r.Height))
		k.zeros[kind].hear(*r.Height, series)
	}
	return plainOf(kind, series), series
}

// Known is Runner for one that adds nothing to what is known of the kinds; of a kind that
// never came up nothing is known.
func (k *Kinds) Known(r *inventory.Runner, at time.Time) (wear.Runner, inventory.Series) {
	series := Telling(r, at)
	kind, known := k.numbers[keyOf(r, series.Reference)]
	if !known {
		return wear.Runner{}, series
	}
	return plainOf(kind, series), series
}

func plainOf(kind int, series inventory.Series) wear.Runner {
	plain := wear.Runner{Kind: kind}
	for _, stretch := range series.Stretches {
		s := wear.Stretch{New: stretch.New}
		for _, worn := range stretch.Readings {
			s.Readings = append(s.Readings, wear.Reading{Passes: float64(worn.Passes), Height: worn.Height})
		}
		plain.Stretches = append(plain.Stretches, s)
	}
	return plain
}

// Tag is what a tag alone tells of a runner: one height after all its passes, where
// all of them were counted.
func (k *Kinds) Tag(heightNew, final *geometry.Millimetre, passes int, unknown bool) wear.Runner {
	if heightNew == nil || final == nil || unknown || passes == 0 {
		return wear.Runner{}
	}
	kind := k.number(kindKey{halves: halvesOf(*heightNew), reference: looseReference})
	k.stock[kind] = append(k.stock[kind], float64(*heightNew))
	k.zeros[kind].same++
	return wear.Runner{Kind: kind, Stretches: []wear.Stretch{{
		New: true, Readings: []wear.Reading{{Passes: float64(passes), Height: *final}},
	}}}
}

// number gives the number of a kind, a new one where it has none yet.
func (k *Kinds) number(key kindKey) int {
	n, known := k.numbers[key]
	if !known {
		n = len(k.keys)
		k.numbers[key] = n
		k.keys, k.stock, k.zeros = append(k.keys, key), append(k.stock, nil), append(k.zeros, votes{})
	}
	return n
}

// What one pass can take off, mm, and how far a height before any may lie off;
// common practice, no source.
const (
	leastLoss = 0.006
	mostLoss  = 0.06
	newSlack  = 0.6
)

// hear takes the vote of a runner's first height since new that nobody doubted: a slip
// tells nothing of the zero.
func (z *votes) hear(stock geometry.Millimetre, series inventory.Series) {
	if len(series.Stretches) == 0 || !series.Stretches[0].New {
		return
	}
	readings := series.Stretches[0].Readings
	i := slices.IndexFunc(readings, func(w inventory.Worn) bool { return !w.AsRead })
	if i < 0 {
		return
	}
	first := readings[i]
	lost, passes := float64(stock-first.Height), float64(first.Passes)
	if lost >= leastLoss*passes-newSlack && lost <= mostLoss*passes+newSlack {
		z.same++
	} else {
		z.other++
	}
}

// List gives the kinds to package wear, once every runner was heard. A caliper on fitted steel may count from
// another zero than the height at stock-in does: then nothing is known of the height
// when new.
func (k *Kinds) List() []wear.Kind {
	list := make([]wear.Kind, len(k.keys))
	for i, key := range k.keys {
		list[i].Reference = key.reference
		if z := k.zeros[i]; len(k.stock[i]) > 0 && z.same >= z.other {
			list[i].Nominal = geometry.Millimetre(mean(k.stock[i]))
		}
	}
	return list
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// Telling is the reference of which more is known: passes all counted since the
// last height, then more heights, then heights over more passes.
func Telling(r *inventory.Runner, at time.Time) inventory.Series {
	loose, fitted := r.Series(inventory.Loose, at), r.Series(inventory.Fitted, at)
	if fitted.Readings() == 0 {
		return loose
	}
	if loose.SinceUnknown != fitted.SinceUnknown {
		if loose.SinceUnknown {
			return fitted
		}
		return loose
	}
	if a, b := loose.Readings(), fitted.Readings(); a != b {
		if a > b {
			return loose
		}
		return fitted
	}
	if spanOf(loose) > spanOf(fitted) {
		return loose
	}
	return fitted
}

// spanOf is how many counted passes lie behind the readings of a series.
func spanOf(s inventory.Series) int {
	span := 0
	for _, stretch := range s.Stretches {
		if n := len(stretch.Readings); n > 0 {
			span += stretch.Readings[n-1].Passes
			if !stretch.New {
				span -= stretch.Readings[0].Passes
			}
		}
	}
	return span
}
