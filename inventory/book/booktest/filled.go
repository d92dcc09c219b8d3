package booktest

import (
	"encoding/json"
	"reflect"
	"testing"
	"time"

	"steeltally/inventory"
)

// Filled fills every member of a body with something that it can have, so that
// nothing of it is left out when it is written. It tells where it could not.
func Filled(t testing.TB, body inventory.Body) inventory.Body {
	t.Helper()
	fill(reflect.ValueOf(body).Elem(), "")
	text, err := json.Marshal(body)
	if err != nil {
		t.Errorf("%s: %v", body.Kind(), err)
	}
	again := reflect.New(reflect.TypeOf(body).Elem()).Interface()
	if err := json.Unmarshal(text, again); err != nil {
		t.Errorf("%s: %v: %s", body.Kind(), err, text)
	}
	return body
}

// kindOfField is the kind of piece that a member of a body names; others name runners.
func kindOfField(name string) inventory.Kind {
	kinds := map[string]inventory.Kind{
		"Player": inventory.KindPlayer, "Pair": inventory.KindPair, "Set": inventory.KindSet,
		"Holder": inventory.KindHolder, "Trunk": inventory.KindTrunk, "Container": inventory.KindBin,
	}
	if kind, ok := kinds[name]; ok {
		return kind
	}
	return inventory.KindRunner
}

// fill fills a value by its type; name is the member that it is in.
func fill(v reflect.Value, name string) {
	if fillKnown(v, name) {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), name)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				fill(v.Field(i), v.Type().Field(i).Name)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			fill(v.Index(i), name)
		}
	case reflect.String:
		v.SetString("wörds <" + name + ">")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int64, reflect.Uint64:
		v.Set(reflect.ValueOf(3).Convert(v.Type()))
	case reflect.Float64:
		v.SetFloat(2.75)
	}
}

// fillKnown fills what cannot hold just anything.
func fillKnown(v reflect.Value, name string) bool {
	switch p := v.Addr().Interface().(type) {
	case *inventory.Number:
		*p, _ = inventory.NewNumber(kindOfField(name), 1, 7) // in range
	case *inventory.Side:
		*p = inventory.Left
	case *inventory.When:
		*p = inventory.At(Noted())
	case *time.Time:
		*p = Noted()
	case *inventory.Key:
		*p = inventory.Key{Writer: "0123456789abcdef", Sequence: 1}
	case *inventory.Cut:
		*p = inventory.Cut{Radius: 12.7}
	case *inventory.Ref:
		*p = inventory.ScheduleRef(Noted())
	case *inventory.Kind:
		*p = inventory.KindRunner
	default:
		return false
	}
	return true
}
