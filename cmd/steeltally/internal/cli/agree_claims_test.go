package cli

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// fact is one of the things that outputs tell of a piece, a set, a pair or a player.
type fact string

const (
	factState   fact = "state"  // of a player: whether his spare pair travels
	factSafety  fact = "safety" // whether nobody may skate on it
	factPlace   fact = "place"
	factPair    fact = "pair" // of a player: the one that he skates on; of the others: the one that they are on
	factHeight  fact = "height"
	factUrgency fact = "urgency" // where it stands in a list
)

// claim is a fact as an output tells it.
type claim struct {
	about  inventory.Number
	fact   fact
	value  string
	within float64 // how far a height may lie off, mm: as many digits as are shown
	from   string
}

func (c claim) String() string {
	return fmt.Sprintf("%s of %s: %q (%s)", c.fact, c.about.Short(), c.value, c.from)
}

// same tells whether two claims of one fact of one thing can both be right.
func (c claim) same(other claim) bool {
	a, errA := strconv.ParseFloat(c.value, 64)
	b, errB := strconv.ParseFloat(other.value, 64)
	if c.fact == factHeight && errA == nil && errB == nil {
		return math.Abs(a-b) <= c.within+other.within
	}
	if c.fact == factPlace && (c.from == "clearout" || other.from == "clearout") { // it lists by place, whatever the slot
		here, _, _ := strings.Cut(c.value, ", slot ")
		there, _, _ := strings.Cut(other.value, ", slot ")
		return here == there
	}
	return c.value == other.value
}

// contradictions are the claims that contradict another one.
func contradictions(claims []claim) (wrong []string) {
	type key struct {
		about inventory.Number
		fact  fact
	}
	heard := map[key][]claim{}
	for _, c := range claims {
		k := key{c.about, c.fact}
		for _, before := range heard[k] {
			if !c.same(before) {
				wrong = append(wrong, fmt.Sprintf("%s, and %s", before, c))
				break
			}
		}
		heard[k] = append(heard[k], c)
	}
	return wrong
}

// telling is what one output told at an instant.
type telling struct {
	output string
	claims []claim
	named  map[inventory.Number]bool // what it tells of in an object or a line of its own

	disorder []string // what stands before something more urgent
}

func newTelling(output string) *telling {
	return &telling{output: output, named: map[inventory.Number]bool{}}
}

func (t *telling) claim(about inventory.Number, f fact, value string) {
	if about != 0 {
		t.claims = append(t.claims, claim{about, f, value, 0, t.output})
	}
}

// high claims a height of so many digits behind the point; nil or empty: nobody can say.
func (t *telling) high(about inventory.Number, value any, within float64) {
	if about != 0 {
		text := ""
		if value != nil {
			text = fmt.Sprint(value)
		}
		t.claims = append(t.claims, claim{about, factHeight, text, within, t.output})
	}
}

// ranked claims the order of a list.
func (t *telling) ranked(name string, list []inventory.Number) {
	for i, n := range list {
		t.claim(n, urgencyIn(name), strconv.Itoa(i))
	}
}

// ordered notes what stands before something more urgent.
func (t *telling) ordered(list string, ranks []float64) {
	if !slices.IsSorted(ranks) {
		t.disorder = append(t.disorder, fmt.Sprintf("%s is not in order of urgency: %v", list, ranks))
	}
}

// urgencyIn is where something stands in a list.
func urgencyIn(list string) fact { return factUrgency + fact(" in "+list) }

// asks is what an output has to tell of a thing that it names.
func asks(kind inventory.Kind) []fact {
	switch kind {
	case inventory.KindRunner:
		return []fact{factState, factSafety, factPlace, factPair, factHeight}
	case inventory.KindHolder, inventory.KindSet:
		return []fact{factState, factSafety, factPlace, factPair}
	case inventory.KindPair:
		return []fact{factSafety, factPlace}
	}
	return nil
}

// silences are the facts that an output had to tell of what it names, and did not.
func (t *telling) silences() (missing []string) {
	told := map[inventory.Number]map[fact]bool{}
	for _, c := range t.claims {
		if told[c.about] == nil {
			told[c.about] = map[fact]bool{}
		}
		told[c.about][c.fact] = true
	}
	for _, n := range slices.Sorted(maps.Keys(t.named)) {
		for _, f := range asks(n.Kind()) {
			if !told[n][f] {
				missing = append(missing, fmt.Sprintf("%s names %s and does not tell its %s", t.output, n.Short(), f))
			}
		}
	}
	return missing
}

// read gathers what an object tells of whatever it names, wherever it stands in it. What
// happened once is in the bodies of entries, and is none of it.
func (t *telling) read(node any) {
	switch node := node.(type) {
	case []any:
		for _, one := range node {
			t.read(one)
		}
	case map[string]any:
		t.object(node)
		for key, inner := range node {
			if key != "body" && key != "damages" && key != "unsafe_aside" && key != "recorded" {
				t.read(inner)
			}
		}
	}
}

// lengthDigits is what JSON tells of a length: a thousandth of a millimetre.
const lengthDigits = 0.0006

// object claims what one object tells of what it names.
func (t *telling) object(o map[string]any) {
	about := cmp.Or(numberOf(o["number"]), numberOf(o["about"]), numberOf(o["trunk"]))
	if about == 0 || o["kind"] == nil && o["do_not_skate"] == nil && about.Kind() == inventory.KindPlayer {
		return
	}
	t.named[about] = true
	if unsafe, told := o["do_not_skate"].(bool); told {
		t.claim(about, factSafety, strconv.FormatBool(unsafe))
	}
	if word, told := o["safety"].(string); told {
		t.claim(about, factSafety, strconv.FormatBool(standing.Safety(word) != standing.Sound))
	}
	if word, told := o["state"].(string); told && hasToTell(about.Kind(), factState) {
		t.claim(about, factState, word)
		if hasToTell(about.Kind(), factHeight) {
			t.high(about, o["height_now_mm"], lengthDigits)
		}
	}
	if where, told := o["place"].(string); told {
		t.claim(about, factPlace, where)
	}
	t.position(about, o)
}

// position claims which pair a thing is on.
func (t *telling) position(about inventory.Number, o map[string]any) {
	on, told := o["pair"].(string)
	if !told {
		return
	}
	switch about.Kind() {
	case inventory.KindHolder, inventory.KindRunner, inventory.KindSet:
		if n := numberOf(on); n != 0 || on == "" {
			t.claim(about, factPair, n.String())
		}
	}
}

func hasToTell(kind inventory.Kind, f fact) bool { return slices.Contains(asks(kind), f) }

// numberOf is a number as an object has it, or zero.
func numberOf(value any) inventory.Number {
	text, _ := value.(string)
	n, err := inventory.ParseNumber(text)
	if err != nil {
		return 0
	}
	return n
}

// textOf is a text of an object.
func textOf(o map[string]any, key string) string {
	text, _ := o[key].(string)
	return text
}

// listOf are the objects of a list of an object.
func listOf(o map[string]any, key string) (list []map[string]any) {
	all, _ := o[key].([]any)
	for _, one := range all {
		if object, ok := one.(map[string]any); ok {
			list = append(list, object)
		}
	}
	return list
}

// shorts are the short numbers that a text spells.
func shorts(text string) (list []inventory.Number) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !strings.ContainsRune("RHPSTBY0123456789-", r) }) {
		if n := numberOf(word); n != 0 {
			list = append(list, n)
		}
	}
	return list
}
