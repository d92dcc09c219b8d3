package inventory

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
	"time"

	"steeltally/geometry"
)

// chance makes random bodies and events: valid in type, but otherwise without sense.
type chance struct {
	*rand.Rand
	kinds []string // of bodies, as the source has them
	past  []*Event // what a deed can be about
}

func newChance(t *testing.T, seed uint64) chance {
	t.Helper()
	kinds := slices.Sorted(maps.Keys(kindsInSource(t)))
	return chance{Rand: newRand(seed), kinds: kinds}
}

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 17)) }

// number is one of a few numbers, so that events meet; now and then none.
func (c chance) number() Number {
	kinds := []Kind{KindRunner, KindHolder, KindPair, KindSet, KindPlayer, KindTrunk}
	n, _ := NewNumber(kinds[c.IntN(len(kinds))], 1, 1+c.IntN(3))
	if c.IntN(12) == 0 {
		return 0
	}
	return n
}

func (c chance) key() Key {
	return Key{[]Writer{firstWriter, secondWriter}[c.IntN(2)], 1 + c.Uint64N(30)}
}

// when is an instant, a vague time or an unknown one; few enough that they meet.
func (c chance) when() When {
	start := time.Date(2025, 11, 1+c.IntN(5), c.IntN(3), 0, 0, 0, time.UTC)
	switch c.IntN(8) {
	case 0:
		return When{}
	case 1:
		return Between(start, start.AddDate(0, 0, 1+c.IntN(40)))
	}
	return At(start)
}

func (c chance) word() string {
	words := []string{"A", "first", "grind", "new-hollow", "hone", "crack", "low", "broken", "Ina", "", "=1+1", "ج", "🏒", "model/x", "loose", "fitted"}
	return words[c.IntN(len(words))]
}

func (c chance) body(kind string) Body {
	body := newBody(kind)
	c.fill(reflect.ValueOf(body).Elem())
	return body
}

func (c chance) event() Event {
	k := c.key()
	return Event{
		Key: k, Logical: 1 + c.Uint64N(50), Happened: c.when(), Noted: theNow, Who: c.word(), Ticket: c.word(),
		More: c.IntN(3), Body: c.body(c.kinds[c.IntN(len(c.kinds))]),
	}
}

// fill sets every field of a body.
func (c chance) fill(v reflect.Value) {
	if c.fillOwn(v) {
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			c.fill(v.Field(i))
		}
	case reflect.Pointer:
		if c.IntN(4) > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			c.fill(v.Elem())
		}
	case reflect.Slice:
		if n := c.IntN(4); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				c.fill(v.Index(i))
			}
		}
	case reflect.String:
		v.SetString(c.word())
	case reflect.Bool:
		v.SetBool(c.IntN(2) == 0)
	case reflect.Int:
		v.SetInt(int64(c.IntN(30)))
	case reflect.Float64:
		v.SetFloat(float64(c.IntN(2000)) / 100)
	default:
		panic("no random " + v.Type().String())
	}
}

// fillOwn sets what has a type of its own.
func (c chance) fillOwn(v reflect.Value) bool {
	switch v.Interface().(type) {
	case Number:
		v.SetUint(uint64(c.number()))
	case Key:
		v.Set(reflect.ValueOf(c.key()))
	case When:
		v.Set(reflect.ValueOf(c.when()))
	case Cut:
		v.Set(reflect.ValueOf(c.cut()))
	case Profile:
		v.Set(reflect.ValueOf(Profile{3352.8, geometry.Millimetre(900 + c.IntN(5000))}))
	case Event:
		v.Set(reflect.ValueOf(*c.past[c.IntN(len(c.past))]))
	case Kind:
		v.SetUint(uint64(c.number().Kind()))
	case Side:
		v.SetString(string([]Side{Left, Right, Left, Right, ""}[c.IntN(5)]))
	case Ref:
		v.SetString(string(ScheduleRef(c.when().Start)))
	default:
		return false
	}
	return true
}

func (c chance) cut() Cut {
	switch c.IntN(4) {
	case 0:
		return Cut{}
	case 1:
		return Cut{FlatWidth: geometry.Millimetre(1+c.IntN(300)) / 100, EdgeHeight: geometry.Millimetre(1+c.IntN(99)) / 10000}
	}
	return Cut{Radius: geometry.Millimetre(8+c.IntN(20)) * 25.4 / 16}
}

// asJSON writes a value for comparison.
func asJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatalf("%T %+v: %v", value, value, err)
	}
	return string(text)
}
