package outlook

import (
	"math"
	"strings"

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
		key.halves = int(math.Round(2 * float64(*r.Height)))
	}
	return key
}

// kinds numbers the kinds as they come up.
type kinds struct {
	numbers map[kindKey]int
	keys    []kindKey
	stock   [][]float64 // heights at stock-in, by kind
	zeros   []votes     // by kind
}

// votes are the runners that speak for or against a caliper's zero being that of the
// height at stock-in.
type votes struct{ same, other int }

func newKinds() *kinds { return &kinds{numbers: map[kindKey]int{}} }

// number gives a runner's kind, and hears what its first height says of the zero.
func (k *kinds) number(r *inventory.Runner, series inventory.Series) int {
	key := keyOf(r, series.Reference)
	n, known := k.numbers[key]
	if !known {
		n = len(k.keys)
		k.numbers[key] = n
		k.keys, k.stock, k.zeros = append(k.keys, key), append(k.stock, nil), append(k.zeros, votes{})
	}
	if r.Height != nil {
		k.stock[n] = append(k.stock[n], float64(*r.Height))
		k.zeros[n].hear(*r.Height, series)
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

func (z *votes) hear(stock geometry.Millimetre, series inventory.Series) {
	if len(series.Stretches) == 0 || !series.Stretches[0].New || len(series.Stretches[0].Readings) == 0 {
		return
	}
	first := series.Stretches[0].Readings[0]
	lost, passes := float64(stock-first.Height), float64(first.Passes)
	if lost >= leastLoss*passes-newSlack && lost <= mostLoss*passes+newSlack {
		z.same++
	} else {
		z.other++
	}
}

// list gives the kinds to package wear. A caliper on fitted steel may count from
// another zero than the height at stock-in does: then nothing is known of the height
// when new.
func (k *kinds) list() []wear.Kind {
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
