// Package inventorytest makes what tests of the record feed on: random bodies and events,
// events as lines of text, and what the source says of itself.
package inventorytest

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// Chance makes random bodies and events: valid in type, but otherwise without sense.
type Chance struct {
	*rand.Rand
	Kinds []string           // of bodies, as the source has them
	Past  []*inventory.Event // what a deed can be about
}

// NewChance makes chance of a seed. Dir is where the record's source lies.
func NewChance(t *testing.T, dir string, seed uint64) Chance {
	t.Helper()
	kinds := slices.Sorted(maps.Keys(KindsInSource(t, dir)))
	return Chance{Rand: NewRand(seed), Kinds: kinds}
}

// NewRand is a random source that gives the same for a seed.
func NewRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 17)) }

// Number is one of a few numbers, so that events meet; now and then none.
func (c Chance) Number() inventory.Number {
	kinds := []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindPair, inventory.KindSet, inventory.KindPlayer, inventory.KindTrunk}
	n, _ := inventory.NewNumber(kinds[c.IntN(len(kinds))], 1, 1+c.IntN(3))
	if c.IntN(12) == 0 {
		return 0
	}
	return n
}

// Key is the key of one of a few events of two writers.
func (c Chance) Key() inventory.Key {
	return inventory.Key{Writer: []inventory.Writer{FirstWriter, SecondWriter}[c.IntN(2)], Sequence: 1 + c.Uint64N(30)}
}

// When is an instant, a vague time or an unknown one; few enough that they meet.
func (c Chance) When() inventory.When {
	start := time.Date(2025, 11, 1+c.IntN(5), c.IntN(3), 0, 0, 0, time.UTC)
	switch c.IntN(8) {
	case 0:
		return inventory.When{}
	case 1:
		return inventory.Between(start, start.AddDate(0, 0, 1+c.IntN(40)))
	}
	return inventory.At(start)
}

// Word is a word that the record knows, or one that it does not.
func (c Chance) Word() string {
	words := []string{"A", "first", "grind", "new-hollow", "hone", "crack", "low", "broken", "Ina", "", "=1+1", "ج", "🏒", "model/x", "loose", "fitted"}
	return words[c.IntN(len(words))]
}

// Body is a body of a kind, filled.
func (c Chance) Body(kind string) inventory.Body {
	body := inventory.NewBody(kind)
	c.Fill(reflect.ValueOf(body).Elem())
	return body
}

// Event is an event of any kind.
func (c Chance) Event() inventory.Event {
	k := c.Key()
	return inventory.Event{
		Key: k, Logical: 1 + c.Uint64N(50), Happened: c.When(), Noted: Now(), Who: c.Word(), Ticket: c.Word(), Asked: c.Word(),
		More: c.IntN(3), Body: c.Body(c.Kinds[c.IntN(len(c.Kinds))]),
	}
}

// Fill sets every field of a body.
func (c Chance) Fill(v reflect.Value) {
	if c.fillOwn(v) {
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			c.Fill(v.Field(i))
		}
	case reflect.Pointer:
		if c.IntN(4) > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			c.Fill(v.Elem())
		}
	case reflect.Slice:
		if n := c.IntN(4); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				c.Fill(v.Index(i))
			}
		}
	case reflect.String:
		v.SetString(c.Word())
	case reflect.Bool:
		v.SetBool(c.IntN(2) == 0)
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(c.IntN(30)))
	case reflect.Uint64:
		v.SetUint(c.Uint64N(30))
	case reflect.Float64:
		v.SetFloat(float64(c.IntN(2000)) / 100)
	default:
		panic("no random " + v.Type().String())
	}
}

// fillOwn sets what has a type of its own.
func (c Chance) fillOwn(v reflect.Value) bool {
	switch v.Interface().(type) {
	case inventory.Number:
		v.SetUint(uint64(c.Number()))
	case inventory.Key:
		v.Set(reflect.ValueOf(c.Key()))
	case inventory.Writer:
		v.SetString(string(c.Key().Writer))
	case inventory.When:
		v.Set(reflect.ValueOf(c.When()))
	case inventory.Cut:
		v.Set(reflect.ValueOf(c.Cut()))
	case inventory.Profile:
		v.Set(reflect.ValueOf(inventory.Profile{3352.8, geometry.Millimetre(900 + c.IntN(5000))}))
	case inventory.Event:
		v.Set(reflect.ValueOf(*c.Past[c.IntN(len(c.Past))]))
	case inventory.Kind:
		v.SetUint(uint64(c.Number().Kind()))
	case inventory.Side:
		v.SetString(string([]inventory.Side{inventory.Left, inventory.Right, inventory.Left, inventory.Right, ""}[c.IntN(5)]))
	case inventory.Ref:
		v.SetString(string(inventory.ScheduleRef(c.When().Start)))
	default:
		return false
	}
	return true
}

// Cut is a hollow, or an unknown one.
func (c Chance) Cut() inventory.Cut {
	switch c.IntN(4) {
	case 0:
		return inventory.Cut{}
	case 1:
		return inventory.Cut{FlatWidth: geometry.Millimetre(1+c.IntN(300)) / 100, EdgeHeight: geometry.Millimetre(1+c.IntN(99)) / 10000}
	}
	return inventory.Cut{Radius: geometry.Millimetre(8+c.IntN(20)) * 25.4 / 16}
}

// AsJSON writes a value for comparison.
func AsJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatalf("%T %+v: %v", value, value, err)
	}
	return string(text)
}

// Now is the instant at which everything is noted.
func Now() time.Time { return time.Date(2025, 12, 15, 12, 0, 0, 0, time.UTC) }

// Two stations.
const (
	FirstWriter  inventory.Writer = "00000000000000a1"
	SecondWriter inventory.Writer = "00000000000000b2"
)
