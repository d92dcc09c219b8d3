package desk

import (
	"fmt"
	"strconv"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

func pieceRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		r := entity.(*inventory.Runner)
		wear, membership := r.WearAt(at), r.SetAt(at)
		add(n.String(), "runner", r.Model, strconv.Itoa(r.Size), string(r.SideAt(at)), string(standing.StateOf(v, n, at)), ownerOf(v, membership),
			membership.String(), cellOf(wear.HeightNew), cellOf(wear.HeightLast), strconv.Itoa(wear.Grinds), strconv.Itoa(wear.Passes),
			strconv.Itoa(wear.UnknownWorks), standing.PlaceOf(v, n, at).String())
	}
	for n, entity := range eachOf(v, inventory.KindHolder) {
		h := entity.(*inventory.Holder)
		player := ""
		if pair, err := inventory.FindPair(v, h.BootAt(at).Pair); err == nil {
			player = pair.Player.String()
		}
		add(n.String(), "holder", h.Model, strconv.Itoa(h.Size), string(h.Side), string(standing.StateOf(v, n, at)), player, "", "", "", "", "", "", standing.PlaceOf(v, n, at).String())
	}
}

// ownerOf is the number of the player that a set belongs to.
func ownerOf(v inventory.View, set inventory.Number) string {
	s, err := inventory.FindSet(v, set)
	if set == 0 || err != nil {
		return ""
	}
	return s.Player.String()
}

func grindRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		for _, work := range entity.(*inventory.Runner).Works.Until(at) {
			passes, hollow := "", ""
			if work.Value.Passes != nil {
				passes = strconv.Itoa(*work.Value.Passes)
			}
			if work.Value.Hollow != nil {
				hollow = work.Value.Hollow.String()
			}
			add(n.String(), whenCell(work.When), string(work.Value.Kind), passes, work.Value.Player.String(), work.Value.Set.String(), hollow)
		}
	}
}

func heightRows(v inventory.View, at time.Time, add func(...string)) {
	for n, entity := range eachOf(v, inventory.KindRunner) {
		for _, reading := range entity.(*inventory.Runner).Readings.Until(at) {
			r := reading.Value
			add(n.String(), whenCell(reading.When), string(r.Reference), cellOf(r.Toe), cellOf(r.Middle), cellOf(r.Heel))
		}
	}
}

func damageRows(v inventory.View, at time.Time, add func(...string)) {
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder, inventory.KindPair} {
		for n, entity := range eachOf(v, kind) {
			for _, damage := range marksOf(entity).Damages.Until(at) {
				b := damage.Value
				add(n.String(), whenCell(damage.When), string(b.Mode), string(b.Zone), b.Face, b.Cause, b.Found, strconv.FormatBool(b.Unsafe),
					optional(b.ShiftsMissed), optional(b.Minutes), b.Player.String())
			}
		}
	}
}

// marksOf is what any piece carries.
func marksOf(entity inventory.Entity) *inventory.Marks {
	switch e := entity.(type) {
	case *inventory.Runner:
		return &e.Marks
	case *inventory.Holder:
		return &e.Marks
	case *inventory.Pair:
		return &e.Marks
	}
	return &inventory.Marks{}
}

// whenCell writes a time as the journal does, without loss.
func whenCell(when inventory.When) string {
	text, err := when.MarshalText()
	if err != nil {
		return ""
	}
	return string(text)
}

func cellOf(height *geometry.Millimetre) string {
	if height == nil {
		return ""
	}
	return strconv.FormatFloat(float64(*height), 'f', 2, 64)
}

func optional[T any](value *T) string {
	if value == nil {
		return ""
	}
	return fmt.Sprint(*value)
}
