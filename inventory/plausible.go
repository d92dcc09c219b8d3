package inventory

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"steeltally/geometry"
)

// The bounds of what a record can hold. They are wider than what deeds allow, so that
// whatever any version took from a person is inside of them.
const (
	mostHeld     geometry.Millimetre = 20_000 // of any length
	mostHighRead geometry.Millimetre = 100    // of a height, kept as read
	mostCount                        = 1_000_000
	mostWords                        = 1 << 16 // bytes of one text
)

// CheckHeld tells what of an event that another book brings can't be, or nothing. What a
// newer version wrote into it is not looked at.
func (e *Event) CheckHeld() error {
	if !At(e.Noted).inYears() || e.Noted.IsZero() {
		return fmt.Errorf("it was noted in the year %d", e.Noted.UTC().Year())
	}
	if e.More < 0 || e.More > mostCount {
		return fmt.Errorf("%d entries of the same action can't follow", e.More)
	}
	for _, value := range []any{e.Happened, e.Who, e.Ticket, e.Body.Kind()} {
		if err := checkHeld("", reflect.ValueOf(value)); err != nil {
			return err
		}
	}
	if _, isForeign := e.Body.(*Foreign); isForeign {
		return nil
	}
	return checkHeld("", reflect.ValueOf(e.Body).Elem())
}

// checkHeld looks at a value and everything inside of it; name is the member that it is in.
func checkHeld(name string, v reflect.Value) error {
	switch value := v.Interface().(type) {
	case When:
		return checkHeldWhen(value)
	case time.Time, Number, Kind:
		return nil
	case Ref:
		return checkHeldMonth(value)
	case geometry.Millimetre:
		return checkHeldLength(name, value)
	}
	switch v.Kind() {
	case reflect.String:
		return checkHeldText(v.String())
	case reflect.Int:
		if v.Int() < 0 || v.Int() > mostCount {
			return fmt.Errorf("%s of %d can't be", spoken(name), v.Int())
		}
	case reflect.Float64:
		if !(v.Float() >= 0 && v.Float() <= mostCount) {
			return fmt.Errorf("%s of %g can't be", spoken(name), v.Float())
		}
	}
	return checkHeldInside(name, v)
}

func checkHeldInside(name string, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return checkHeld(name, v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := checkHeld(name, v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if err := checkHeld(v.Type().Field(i).Name, v.Field(i)); err != nil {
				return err
			}
		}
	}
	return nil
}

func checkHeldWhen(w When) error {
	if !w.inYears() {
		return fmt.Errorf("the year %d can't be", w.Start.Year())
	}
	return nil
}

// checkHeldMonth takes months of the schedule, the only things that are named by what
// they are called in a state.
func checkHeldMonth(ref Ref) error {
	month, isMonth := strings.CutPrefix(string(ref), schedulePrefix)
	t, err := time.Parse("2006-01", month)
	if ref == ScheduleRef(time.Time{}) { // of an unknown time
		return nil
	}
	if !isMonth || err != nil || ScheduleRef(t) != ref || t.Year() < LeastYear || t.Year() > MostYear {
		return fmt.Errorf("%q is no month of a schedule", Clip(string(ref)))
	}
	return nil
}

func checkHeldLength(name string, length geometry.Millimetre) error {
	least, most := geometry.Millimetre(0), mostHeld
	switch {
	case isHeight(name):
		most = mostHighRead
	case name == "Pitch": // it leans forward or back
		least = -mostHeld
	}
	if math.IsNaN(float64(length)) || length < least || length > most {
		return fmt.Errorf("%s of %g mm can't be", spoken(name), float64(length))
	}
	return nil
}

func isHeight(name string) bool {
	switch name {
	case "Toe", "Middle", "Heel", "New", "Final":
		return true
	}
	return strings.Contains(name, "Height") && name != "EdgeHeight"
}

// checkHeldText refuses what would steer a screen, or be taken for a part of another
// thing's name. A text of several lines, as it may be pasted, is one.
func checkHeldText(text string) error {
	switch {
	case !utf8.ValidString(text):
		return fmt.Errorf("%q is no text", Clip(text))
	case len(text) > mostWords:
		return fmt.Errorf("a text of %d bytes can't be", len(text))
	}
	for _, r := range text {
		if unicode.IsControl(r) && r != '\n' && r != '\t' && r != '\r' {
			return fmt.Errorf("%q has a control character in it", Clip(text))
		}
	}
	return nil
}

// spoken is the name of a member for a person: "ShiftsMissed" is "shifts missed".
func spoken(name string) string {
	var words strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			words.WriteByte(' ')
		}
		words.WriteRune(unicode.ToLower(r))
	}
	return words.String()
}
